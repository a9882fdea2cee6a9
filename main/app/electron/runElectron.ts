import type * as Electron from "electron";
import { join } from "node:path";
import { startProgram, type Program, type ShellParts } from "../program.ts";
import { makeWeb } from "../web/makeWeb.ts";
import { electronChannel } from "./channel.ts";
import { DropBook } from "./dropBook.ts";
import { guardContents } from "./guardContents.ts";
import { SCHEME, WINDOW_URL } from "./origin.ts";
import { guardSession } from "./permissions.ts";
import { windowOptions } from "./windowOptions.ts";

/** What Electron's main program needs beside Electron. */
export interface ElectronRun {
  /** Folder of the bundles. */
  readonly dist: string;
  readonly parts: (drops: DropBook) => ShellParts;
}

/** Runs the window in Electron; everything that has to be set before the program is ready is set before the first wait. */
export async function runElectron(electron: typeof Electron, { dist, parts }: ElectronRun): Promise<void> {
  const { app, BrowserWindow, ipcMain, Menu, protocol, session } = electron;
  if (!app.requestSingleInstanceLock()) {
    app.quit();
    return;
  }
  app.enableSandbox();
  protocol.registerSchemesAsPrivileged([
    {
      scheme: SCHEME,
      privileges: { standard: true, secure: true, supportFetchAPI: true, stream: true, codeCache: true },
    },
  ]);
  guardContents(app);
  await app.whenReady();

  const state = { recording: false };
  guardSession(session.defaultSession, state);
  const drops = new DropBook();
  const program = await startProgram(parts(drops));
  protocol.handle(SCHEME, await makeWeb(join(dist, "window"), program.shelf, null));
  Menu.setApplicationMenu(
    process.platform === "darwin"
      ? Menu.buildFromTemplate([{ role: "appMenu" }, { role: "editMenu" }, { role: "windowMenu" }])
      : null,
  );

  const window = new BrowserWindow(windowOptions(join(dist, "preload.cjs")));
  const channel = electronChannel(ipcMain, window.webContents, {
    dropped: (token, path) => drops.put(token, path),
    recording: (on) => (state.recording = on),
  });
  program.connect(channel);
  window.webContents.on("did-start-navigation", () => (state.recording = false));
  window.once("ready-to-show", () => window.show());
  app.on("second-instance", () => {
    if (window.isMinimized()) window.restore();
    window.focus();
  });
  app.on("window-all-closed", () => app.quit());
  endCleanly(app, program);
  await window.loadURL(WINDOW_URL);
}

/** The last edits are saved before the program ends. */
function endCleanly(app: Electron.App, program: Program): void {
  let closed = false;
  app.on("before-quit", (event) => {
    if (closed) return;
    event.preventDefault();
    const failed = (): void => void (process.exitCode = 1);
    void program
      .close()
      .catch(failed)
      .finally(() => {
        closed = true;
        app.quit();
      });
  });
}
