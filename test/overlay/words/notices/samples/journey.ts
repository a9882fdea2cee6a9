import type { JourneyFailures, JourneyNotes } from "../../../../../main/contract/notices/journey.ts";
import type { Samples } from "../samples.ts";

export const notes: Samples<JourneyNotes> = {
  "of-ride": [{ ridePath: "rides/sunday.fit", of: { code: "fit-ride-twice", facts: {} } }],
  "athlete-file-elsewhere": [{ path: "films/bar-1.mp4" }],
  "film-letters-missing": [{ letters: ["ż", "字"] }],
  "asked-open": [
    {
      asked: {
        what: "choice",
        choice: { kind: "lapse", startS: 1895, endS: 1935, keep: true, name: "The bridge", note: null, span: null },
        among: [2, 3],
      },
      timesS: [1890, 1950],
    },
    {
      asked: {
        what: "choice",
        choice: { kind: "surge", startS: 1895, endS: 1935, keep: null, name: null, note: "too hard", span: null },
        among: [],
      },
      timesS: [],
    },
    {
      asked: {
        what: "break",
        override: { what: "break", startS: 700, endS: 712, set: "corner", reason: null },
        among: [],
      },
      timesS: [],
    },
    {
      asked: { what: "part", itemId: "a", key: { kind: "lapse", startS: 1895, endS: 1935 }, among: [1] },
      timesS: [1890],
    },
  ],
  "lesson-without-target": [{}],
  "lesson-carries-speech": [{}],
  "lesson-shows-surroundings": [{}],
};

const path = "plan.json";
const folder = "sunday-debrief";

export const failures: Samples<JourneyFailures> = {
  "plan-file-unreadable": [{ path }],
  "plan-file-no-json": [{ path, said: "Unexpected end of JSON input" }],
  "still-outside-film": [{ atS: 300, lengthS: 120.4 }],
  "debrief-media-missing": [{ path: "bar-1.mp4", folder }],
  "debrief-without-ride": [{ folder }],
  "debrief-athlete-missing": [{ path: "../ida", folder }],
  "rides-folder-unreadable": [{ folder: "rides" }],
  "rides-folder-empty": [{ folder: "rides" }],
  "ride-failed-inside": [{ ridePath: "rides/sunday.fit" }],
  "no-break-there": [
    { atS: 6840, nearestS: 6900 },
    { atS: 60, nearestS: null },
  ],
  "no-ride-given": [{}],
  "shown-ride-unknown": [{ name: "monday.fit", rides: ["sunday.fit", "second.fit"] }],
  "evidence-not-written": [{ path: "evidence/bar-1.png" }],
  "plan-sheet-there": [{ path: "plan.html" }],
  "clips-outside-ride": [{}],
  "tool-not-found": [
    { tool: "ffmpeg", system: "Linux" },
    { tool: "ffprobe", system: "macOS" },
    { tool: "ffmpeg", system: "Windows" },
  ],
};
