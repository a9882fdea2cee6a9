import type { TrustFailures } from "../../../../../main/contract/notices/trust.ts";
import type { Samples } from "../samples.ts";

export const failures: Samples<TrustFailures> = {
  "folder-with-links": [
    { folder: "/from/a/stranger", links: ["film.mp4.part"], more: 0 },
    { folder: "/from/a/stranger", links: ["lesson", "comments", "debrief.json"], more: 4 },
  ],
};
