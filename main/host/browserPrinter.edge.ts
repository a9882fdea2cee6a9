import { spawn } from "node:child_process";
import { readFile, rm } from "node:fs/promises";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { NoPdf } from "../contract/notices/handover.ts";
import type { PrintPage } from "../contract/printPage.ts";
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
      const why = await new Promise<NoPdf | null>((resolve) => {
        const child = spawn(chromiumPath, options, { stdio: "ignore" });
        const timer = setTimeout(() => child.kill("SIGKILL"), LIMIT_S * 1000);
        child.on("error", (error) => {
          clearTimeout(timer);
          resolve({ kind: "not started", said: error.message });
        });
        child.on("exit", (code, signal) => {
          clearTimeout(timer);
          resolve(code === 0 ? null : { kind: "ended", signal, exitCode: code });
        });
      });
      if (why !== null) return { why };
      const pdf = await readFile(draft).catch(() => null);
      return pdf === null || pdf.length === 0 ? { why: { kind: "nothing written" } } : { pdf };
    } finally {
      await rm(profile, { recursive: true, force: true, maxRetries: 3 });
    }
  };
}
