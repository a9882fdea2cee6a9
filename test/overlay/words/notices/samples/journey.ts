import type { JourneyFailures, JourneyNotes } from "../../../../../main/contract/notices/journey.ts";
import type { Samples } from "../samples.ts";

const rides = { rideName: "sunday.fit", otherName: "three-weeks-ago.fit" };

export const notes: Samples<JourneyNotes> = {
  "film-without-footage": [
    { clips: [{ fileName: "bar-1.mp4", fromS: 2390, toS: 2450 }] },
    {
      clips: [
        { fileName: "bar-1.mp4", fromS: 2390, toS: 2450 },
        { fileName: "bar-2.mp4", fromS: 5000, toS: 5300 },
      ],
    },
  ],
  "earlier-run-kept": [
    { folder: "/home/coach/sunday-debrief", anchors: 1, overrides: 0, ownLines: 0, ownFilm: false },
    { folder: "/home/coach/sunday-debrief", anchors: 2, overrides: 3, ownLines: 1, ownFilm: true },
  ],
  "road-ridden-often": [{ ...rides, passes: 9, pass: 1 }],
  "compared-with-itself": [rides],
  "pair-side-unfilmed": [{ rideName: rides.rideName, fromS: 1880, toS: 1910 }],
  "clip-beside-stretch": [{ fileName: "bar-1.mp4" }],
  "roads-not-compared": [{ debriefs: ["17-may"] }, { debriefs: ["17-may", "24-may"] }],
  "debriefs-of-one-ride": [{ debriefs: ["sunday-debrief", "sunday-debrief-2"], counted: "sunday-debrief-2" }],
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
  "film-teaches-though-note": [
    { topics: ["illness"], parts: 1, timesS: [1895], ownLines: [] },
    { topics: ["sleep", "food"], parts: 3, timesS: [1895, 6840], ownLines: ["change"] },
    { topics: ["unclear"], parts: 0, timesS: [], ownLines: ["change", "next"] },
  ],
  "lesson-without-target": [{}],
  "lesson-carries-speech": [{}],
  "lesson-shows-surroundings": [{}],
};

const path = "plan.json";
const folder = "sunday-debrief";

export const failures: Samples<JourneyFailures> = {
  "compare-ride-count": [{ count: 0 }, { count: 1 }, { count: 3 }],
  "roads-not-shared": [
    { ...rides, why: "no places in A" },
    { ...rides, why: "no places in B" },
    { ...rides, why: "too short" },
    { ...rides, why: "far apart" },
    { ...rides, why: "opposite direction" },
    { ...rides, why: "other roads" },
  ],
  "stretch-not-shared": [{ ...rides, fromS: 1880, toS: 2060, shared: [{ startS: 120, endS: 1700 }] }],
  "stretch-backwards": [{ fromS: 2060, toS: 1880 }],
  "stretch-too-long": [{ lengthS: 7200, mostS: 600 }],
  "pass-unknown": [
    { ...rides, pass: 3, passes: 1 },
    { ...rides, pass: 12, passes: 9 },
  ],
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
    { atS: 6840, nearest: { startS: 6900, endS: 6907 } },
    { atS: 60, nearest: null },
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
