import { readFile, rm } from "node:fs/promises";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { PrintPage } from "../contract/printPage.ts";
import { startProgram } from "./program.edge.ts";
import { temporaryFolder } from "./leftovers.edge.ts";

/** A page that is not printed by then is given up. */
const LIMIT_S = 60;

/** Sandboxing needs a user of one's own: root has none. */
function isRoot(): boolean {
  return process.getuid?.() === 0;
}

/** Prints with the Chromium at `chromiumPath`, each page in a profile of its own that is removed after. */
export function browserPrinter(chromiumPath: string): PrintPage {
  return async (htmlPath) => {
    const profile = await temporaryFolder("print");
    const draft = join(profile, "page.pdf");
    const options = [
      "--headless=new",
      "--disable-gpu",
      "--no-first-run",
      "--no-default-browser-check",
      "--disable-extensions",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
      "--disable-dev-shm-usage",
      `--user-data-dir=${profile}`,
      "--no-pdf-header-footer",
      `--print-to-pdf=${draft}`,
      ...(isRoot() ? ["--no-sandbox"] : []),
      pathToFileURL(htmlPath).href,
    ];
    try {
      const browser = startProgram(chromiumPath, options, "ignored");
      // Its pages are made by other processes of its own: that it says and does nothing tells nothing.
      const timer = setTimeout(() => browser.kill(), LIMIT_S * 1000);
      const { code, signal, notStarted } = await browser.ended;
      clearTimeout(timer);
      if (notStarted !== null) return { why: { kind: "not started", said: notStarted.message } };
      if (code !== 0) return { why: { kind: "ended", signal, exitCode: code } };
      const pdf = await readFile(draft).catch(() => null);
      return pdf === null || pdf.length === 0 ? { why: { kind: "nothing written" } } : { pdf };
    } finally {
      await rm(profile, { recursive: true, force: true, maxRetries: 3 });
    }
  };
}
