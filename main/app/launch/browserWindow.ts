import { chmod, mkdir } from "node:fs/promises";
import { join } from "node:path";
import type { NoWindow } from "../../contract/notices/app.ts";
import { whyNoWindow } from "./whyNoWindow.ts";
import { startProgram } from "../../host/program.edge.ts";

/** A browser that shows the window and nothing else. */
export interface BrowserWindow {
  /** Its exit, in words when it went wrong, null when the person closed it. */
  readonly ended: Promise<NoWindow | null>;
  /** Ends it; safe to call again. */
  close(): void;
}

const SIZE = "1440,900";

/** Arguments for app mode: a profile of our own, no first-run pages, no traffic of the browser's own. */
export function browserArguments(
  url: string,
  profile: string,
  asRoot: boolean,
  more: readonly string[] = [],
): readonly string[] {
  return [
    `--app=${url}`,
    `--user-data-dir=${profile}`,
    "--no-first-run",
    "--no-default-browser-check",
    "--disable-extensions",
    "--disable-sync",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-domain-reliability",
    "--disable-breakpad",
    "--metrics-recording-only",
    "--no-pings",
    "--password-store=basic",
    `--window-size=${SIZE}`,
    // Chromium's sandbox can't be set up by root; as anyone else it stays on.
    ...(asRoot ? ["--no-sandbox"] : []),
    ...more,
  ];
}

/** The browser's profile below `folder`, the person's alone. */
export async function browserProfile(folder: string): Promise<string> {
  const profile = join(folder, "browser");
  await mkdir(profile, { recursive: true, mode: 0o700 });
  // One that stood there before may be open to all.
  await chmod(profile, 0o700);
  return profile;
}

/**
 * Opens the browser in app mode on a profile. What it prints is ignored: Debian's starter prints warnings that mean nothing.
 * @param url without secrets: every user of the computer can read a program's arguments
 */
export function openBrowser(browserPath: string, url: string, profile: string): BrowserWindow {
  // For tests and people without a screen, e.g. --headless=new.
  const more = (process.env.FOLLOWCAR_BROWSER_ARGUMENTS ?? "").split(" ").filter(Boolean);
  const browser = startProgram(browserPath, browserArguments(url, profile, process.getuid?.() === 0, more), "ignored");
  const ended = browser.ended.then(({ code, signal, notStarted }): NoWindow | null => {
    if (notStarted !== null) return { kind: "not started", said: notStarted.message };
    return code === 0 || signal !== null ? null : whyNoWindow(code);
  });
  return { ended, close: () => browser.kill("SIGTERM") };
}
