import { setTimeout as sleep } from "node:timers/promises";
import { cacheFolder } from "../../host/cacheFolder.edge.ts";
import { projectFile } from "../../host/projectFile.edge.ts";
import { Failure } from "../../contract/failure.ts";
import { note, type Note } from "../../contract/notice.ts";
import { browserProfile, openBrowser } from "../launch/browserWindow.ts";
import { writeOpeningPage } from "../launch/openingPage.ts";
import { startProgram, type ShellParts } from "../program.ts";
import { makeWeb } from "../web/makeWeb.ts";
import { startWindowServer, type WindowServer } from "./windowServer.ts";
import type { NoWindow } from "../../contract/notices/app.ts";

/** The program over loopback, without a browser yet. */
export interface FallbackProgram {
  readonly server: WindowServer;
  /** Resolves once the one-time address was used. */
  readonly opened: Promise<void>;
  /** Resolves once a window has connected. */
  readonly seen: Promise<void>;
  /** Resolves once, when the last window has been gone for `goneMs`. */
  readonly left: Promise<void>;
  close(): Promise<void>;
}

/** How long a browser may take until its window connects, ms. */
const TAKE_OVER_MS = 15_000;

/** A window that reloads or loses its socket comes back within this; ms. */
const GONE_MS = 10_000;

/** Starts the desk and the window server; used by the command and by tests, which bring their own browser. */
export async function startFallback(
  parts: ShellParts,
  goneMs = GONE_MS,
  onSecond: () => void = () => undefined,
): Promise<FallbackProgram> {
  const program = await startProgram(parts);
  let leave = (): void => undefined;
  const left = new Promise<void>((resolve) => (leave = resolve));
  let see = (): void => undefined;
  const seen = new Promise<void>((resolve) => (see = resolve));
  let open = (): void => undefined;
  const opened = new Promise<void>((resolve) => (open = resolve));
  let timer: NodeJS.Timeout | undefined;
  const server: WindowServer = await startWindowServer({
    onOpened: () => open(),
    onSecond,
    makeWeb: (socket) => makeWeb(projectFile("dist", "window"), program.shelf, socket),
    onWindow(channel) {
      clearTimeout(timer);
      see();
      const disconnect = program.connect(channel);
      return () => {
        disconnect();
        if (server.connected === 0) timer = setTimeout(leave, goneMs);
      };
    },
  });
  return {
    server,
    opened,
    seen,
    left,
    async close() {
      clearTimeout(timer);
      await server.close();
      await program.close();
    },
  };
}

/** Opens the window in the browser at `browserPath` and comes back when it was closed, by hand or by `signal`. */
export async function openInBrowser(
  parts: ShellParts,
  browserPath: string,
  signal: AbortSignal,
  say: { opened(program: string): void; note(said: Note): void },
): Promise<void> {
  let second = false;
  const program = await startFallback(parts, GONE_MS, () => {
    if (!second) say.note(note("window-claimed-twice", {}));
    second = true;
  });
  const page = await browserProfile(cacheFolder())
    .then(async (profile) => ({ profile, ...(await writeOpeningPage(profile, program.server.openUrl)) }))
    .catch(async (error: unknown) => {
      await program.close();
      throw error;
    });
  void program.opened.then(() => page.remove());
  try {
    const browser = openBrowser(browserPath, page.url, page.profile);
    const stopped = new Promise<void>((resolve) => signal.addEventListener("abort", () => resolve(), { once: true }));
    say.opened(browserPath);
    const noWindow = (why: NoWindow) => new Failure("window-not-shown", { program: browserPath, why });
    // A browser that already runs on our profile takes the window over and the one we started ends at once.
    const closed = browser.ended.then(async (wrong) => {
      if (wrong !== null) throw noWindow(wrong);
      const shown = await Promise.race([program.seen.then(() => true), sleep(TAKE_OVER_MS, false, { ref: false })]);
      if (!shown) throw noWindow({ kind: "nothing connected" });
      if (program.server.connected > 0) await program.left;
    });
    await Promise.race([closed, program.left, stopped]);
    browser.close();
    await browser.ended;
  } finally {
    await page.remove();
    await program.close();
  }
}
