import type { TrustFailures } from "../../../../main/contract/notices/trust.ts";
import type { FailureWords } from "../tables.ts";

export const trustFailures: FailureWords<TrustFailures> = {
  "folder-with-links": ({ folder, links, more }) => [
    `In ${folder} liegen Verknüpfungen, die hinausführen können: ${links.join(", ")}` +
      `${more > 0 ? ` und ${more} weitere` : ""}. Nichts wurde geöffnet oder geschrieben.`,
    "Die Verknüpfungen löschen oder durch die Dateien ersetzen, auf die sie zeigen.",
  ],
};
