import type { NoPdf } from "../contract/notices/handover.ts";
import type { PrintPage } from "../contract/printPage.ts";
import { writeAtomic } from "../host/writeAtomic.edge.ts";

/** What came of printing; a page without a PDF is no failure, since the HTML is whole. */
export type PdfResult = { readonly written: true } | { readonly written: false; readonly why: NoPdf };

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
 * Prints a page to PDF. The PDF appears under its name only when it is whole. Nothing is fetched: the page holds all it
 * needs.
 */
export async function pagePdf(htmlPath: string, pdfPath: string, print: PrintPage | null): Promise<PdfResult> {
  if (print === null) return { written: false, why: { kind: "no browser" } };
  const printed = await print(htmlPath);
  if ("why" in printed) return { written: false, why: printed.why };
  await writeAtomic(pdfPath, withoutDay(Buffer.from(printed.pdf)));
  return { written: true };
}
