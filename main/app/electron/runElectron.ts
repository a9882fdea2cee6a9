import type * as Electron from "electron";
import { join, resolve } from "node:path";
import { failureText } from "../../../overlay/words/notices/noticeText.ts";
import { Failure } from "../../contract/failure.ts";
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
  const early: string[] = [];
  const keepEarly = (event: Electron.Event, path: string): void => {
    event.preventDefault();
    early.push(path);
  };
  app.on("open-file", keepEarly);
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
  const show = (paths: readonly string[]): void => {
    if (window.isMinimized()) window.restore();
    window.focus();
    // What can't be opened is told where it was asked for; the window stays as it is.
    program.bring(paths).catch((error: unknown) => electron.dialog.showErrorBox("Followcar", failureWords(error)));
  };
  app.on("second-instance", (_event, argv, cwd) => show(givenPaths(argv, app.isPackaged, cwd)));
  // macOS hands files over by an event, also those that the program was started with.
  app.on("open-file", (event, path) => {
    event.preventDefault();
    show([path]);
  });
  app.off("open-file", keepEarly);
  if (early.length > 0) show(early);
  app.on("window-all-closed", () => app.quit());
  endCleanly(app, program);
  await window.loadURL(WINDOW_URL);
}

/**
 * The paths of a command line, as seen from the folder that it was given in. Before them stand the program, in a
 * development checkout our bundle too, and Chromium's switches anywhere.
 */
export function givenPaths(argv: readonly string[], isPackaged: boolean, cwd: string): readonly string[] {
  const words = argv.slice(1).filter((arg) => !arg.startsWith("-"));
  return words.slice(isPackaged ? 0 : 1).map((arg) => resolve(cwd, arg));
}

/** A failure in words, for a box of the system's own. */
export function failureWords(error: unknown): string {
  if (!(error instanceof Failure)) return String(error);
  const { sentence, remedy } = failureText(error.notice, "en", "window");
  return `${sentence}\n\n${remedy}`;
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
