import { spawn } from "node:child_process";
import { readFile, rm } from "node:fs/promises";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { temporaryFolder } from "../host/leftovers.edge.ts";
import { writeAtomic } from "../host/writeAtomic.edge.ts";
import type { NoPdf } from "../contract/notices/handover.ts";

/** A page that is not printed by then is given up. */
const LIMIT_S = 60;

/** What came of printing; a page without a PDF is no failure, since the HTML is whole. */
export type PdfResult = { readonly written: true } | { readonly written: false; readonly why: NoPdf };

/** Sandboxing needs a user of one's own: root has none. */
function isRoot(): boolean {
  return process.getuid?.() === 0;
}

/**
 * A PDF without the day and the browser it was printed with, which say more of a lesson than its page does. Blanks take
 * their place, so that every offset in the file stays true.
 */
function withoutDay(pdf: Buffer): Buffer {
  const day = pdf.indexOf("/CreationDate (D:", 0, "latin1");
  const endAt = day < 0 ? -1 : pdf.indexOf("endobj", day, "latin1");
  const startAt = day < 0 ? -1 : pdf.lastIndexOf(" obj", day, "latin1");
  if (startAt < 0 || endAt < 0) return pdf;
  const facts = pdf.toString("latin1", startAt, endAt);
  const kept = facts.replaceAll(/\/(?:CreationDate|ModDate|Creator) \((?:\\.|[^\\)])*\)/gs, (fact) =>
    " ".repeat(fact.length),
  );
  return Buffer.concat([pdf.subarray(0, startAt), Buffer.from(kept, "latin1"), pdf.subarray(endAt)]);
}

/**
 * Prints a page to PDF with the Chromium at `chromiumPath`, in a profile of its own that is removed after. The PDF
 * appears under its name only when it is whole. Nothing is fetched: the page holds all it needs.
 */
export async function pagePdf(htmlPath: string, pdfPath: string, chromiumPath: string | null): Promise<PdfResult> {
  if (chromiumPath === null) return { written: false, why: { kind: "no browser" } };
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
    const printed = await readFile(draft).catch(() => null);
    if (why !== null || printed === null || printed.length === 0)
      return { written: false, why: why ?? { kind: "nothing written" } };
    await writeAtomic(pdfPath, withoutDay(printed));
    return { written: true };
  } finally {
    await rm(profile, { recursive: true, force: true, maxRetries: 3 });
  }
}
