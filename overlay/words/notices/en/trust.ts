import type { TrustFailures } from "../../../../main/contract/notices/trust.ts";
import type { FailureWords } from "../tables.ts";

export const trustFailures: FailureWords<TrustFailures> = {
  "folder-with-links": ({ folder, links, more }) => [
    `In ${folder} there are links that may lead out of it: ${links.join(", ")}${more > 0 ? ` and ${more} more` : ""}. Nothing was opened or written.`,
    "Delete the links, or put the files they lead to in their place.",
  ],
};
