import type { FailureKind } from "./failure.ts";
import type { FailureFacts, FailureNotice } from "./notice.ts";

/** The kind of each failure; it decides the exit code. */
const KINDS: Readonly<Record<Exclude<keyof FailureFacts, "prose">, FailureKind>> = {
  "ride-empty": "ride-not-usable",
  "ride-file-too-large": "ride-not-usable",
  "ride-packed-twice": "ride-not-usable",
  "ride-zip-archive": "ride-not-usable",
  "ride-no-ride-file": "ride-not-usable",
  "ride-without-records": "ride-not-usable",
  "ride-without-values": "ride-not-usable",
  "ride-over-a-week": "ride-not-usable",
  "ride-too-many-records": "ride-not-usable",
  "ride-one-record": "ride-not-usable",
  "ride-clock-stands": "ride-not-usable",
  "ride-gzip-damaged": "ride-not-usable",
  "ride-gzip-too-large": "ride-not-usable",
  "gpx-without-points": "ride-not-usable",
  "gpx-without-times": "ride-not-usable",
  "csv-without-header": "ride-not-usable",
  "csv-without-times": "ride-not-usable",
  "ride-is-folder": "file-unreadable",
  "ride-no-ordinary-file": "file-unreadable",
  "ride-file-missing": "file-unreadable",
  "ride-file-forbidden": "file-unreadable",
  "ride-file-unreadable": "file-unreadable",
  "anchor-form": "usage",
  "anchor-clip-ambiguous": "anchor-not-valid",
  "anchor-clip-unknown": "anchor-not-valid",
  "anchor-outside-clip": "anchor-not-valid",
  "ride-time-form": "usage",
  "ride-time-outside": "anchor-not-valid",
  "ride-time-without-clock": "anchor-not-valid",
  "ride-time-without-distance": "anchor-not-valid",
  "lineup-open": "lineup-not-sure",
  "plan-unusable": "plan-not-valid",
  "folder-with-links": "debrief-not-usable",
  "debrief-open-elsewhere": "debrief-not-usable",
  "debrief-not-saved": "output-not-writable",
};

/** The kind of a failure. */
export function kindOf(notice: FailureNotice): FailureKind {
  return notice.code === "prose" ? notice.facts.kind : KINDS[notice.code];
}
