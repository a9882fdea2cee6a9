import type { TrustFailures } from "../../../../../main/contract/notices/trust.ts";
import type { Samples } from "../samples.ts";

export const failures: Samples<TrustFailures> = {
  "folder-with-links": [
    { folder: "/from/a/stranger", links: ["film.mp4.part"], more: 0 },
    { folder: "/from/a/stranger", links: ["lesson", "comments", "debrief.json"], more: 4 },
  ],
  "folder-replaced": [{ folder: "/rides/sunday-debrief" }],
  "debrief-open-elsewhere": [{ folder: "/rides/sunday-debrief", pid: 4711, host: "desk" }],
  "debrief-not-saved": [
    { folder: "/rides/sunday-debrief", keptAt: null, diskFull: true },
    { folder: "/rides/sunday-debrief", keptAt: "/home/coach/.local/state/followcar/unsaved/sunday", diskFull: false },
  ],
};
