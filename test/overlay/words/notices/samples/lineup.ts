import type { LineupFailures, LineupNotes } from "../../../../../main/contract/notices/lineup.ts";
import type { PlacementReason, PlacementReasons } from "../../../../../main/contract/notices/placement.ts";
import type { Samples } from "../samples.ts";

const fileName = "bar-1.mp4";
const sourceName = "bar-2.mp4";
const rideName = "sunday.fit";
const text = "9:00:00";
const file = [{ fileName }] as const;
const followed: PlacementReason = { code: "clock-of", facts: { sourceName, trimS: null } };

/** Facts to try each reason of a placement with. */
const reasons: Samples<PlacementReasons> = {
  anchors: [
    { count: 1, agreeToS: null, rate: null, trouble: null },
    { count: 3, agreeToS: 0.234, rate: 0.25, trouble: { kind: "one left out", mark: 2, byS: 12.34 } },
    {
      count: 2,
      agreeToS: null,
      rate: null,
      trouble: {
        kind: "all disagree",
        byS: 40.06,
        pair: [
          { mark: 1, mediaS: 12, rideS: 812.2, residualS: -20.03 },
          { mark: 2, mediaS: 300, rideS: 1140.3, residualS: 20.03 },
        ],
      },
    },
  ],
  "camera-positions": [
    { rmsM: 3.21, movedM: 412.4, anotherFits: false, hardlyMoved: false, clockOffS: null, unlike: true },
    { rmsM: 3.21, movedM: 12.4, anotherFits: true, hardlyMoved: true, clockOffS: 3600.2, unlike: false },
  ],
  "camera-on-another-rider": [
    { leadS: 8.2, errorS: 2.4, unlike: false },
    { leadS: -31, errorS: 2.4, unlike: true },
  ],
  "camera-on-ride": [
    { rideName, leadS: null },
    { rideName, leadS: 8.2 },
  ],
  "camera-clock-against-positions": [{ clockS: 90_000, positionsS: 812.4, rmsM: 3.2 }],
  "shared-clock": [
    { own: followed, others: 1 },
    { own: followed, others: 2 },
  ],
  "signals-match": [
    { stopsS: [1992], turns: 1, used: ["motion", "turning"], together: false, score: 6.12, farFromClock: false },
    { stopsS: [1992, 2400], turns: 4, used: ["motion", "sound"], together: true, score: 6.12, farFromClock: true },
    { stopsS: [], turns: 0, used: ["motion"], together: false, score: 6.12, farFromClock: false },
  ],
  "signals-open": [
    { used: ["motion", "sound", "turning"], doubts: ["could be chance", "another place fits", "few moments"] },
    { used: ["sound"], doubts: ["too short", "not sharp"] },
    { used: ["turning"], doubts: ["mark of the clock open"] },
  ],
  "slow-motion": [
    { own: followed, times: 8 },
    { own: null, times: 4.2 },
    { own: followed, times: 0.1 },
  ],
  "clock-of": [
    { sourceName, trimS: null },
    { sourceName, trimS: 10 },
  ],
  "clock-of-outside": [{ fileName, sourceName, side: "before the ride" }],
  "clocks-disagree": [{ fileName, sourceName }],
  "clock-mark-open": [{ sourceName, spreadS: 42.3 }],
  "inherited-doubted": [
    { own: followed, atS: 812, doubt: { kind: "camera filmed another", fileName: "bar-3.mp4", overlapS: 60 } },
    { own: followed, atS: 812, doubt: { kind: "no sound", sourceName } },
    { own: followed, atS: 812, doubt: { kind: "camera not told", sourceName } },
    { own: followed, atS: 812, doubt: { kind: "clock was reset", sourceName } },
    { own: followed, atS: 812, doubt: { kind: "fits elsewhere" } },
  ],
  "filmed-elsewhere": [
    { own: followed, farM: 41_300, rideName: null },
    { own: followed, farM: 7_200, rideName: "other.fit" },
  ],
  "no-clock-to-tie": file,
  "clock-was-reset": file,
  "no-clock": file,
  "clock-in-no-zone": [
    { fileName, clipUtcMs: Date.UTC(2026, 3, 12, 20), rideUtcMs: Date.UTC(2026, 3, 12, 7) },
    { fileName, clipUtcMs: Date.UTC(2025, 8, 2, 7), rideUtcMs: Date.UTC(2026, 3, 12, 7) },
    { fileName, clipUtcMs: Date.UTC(2025, 8, 2, 7), rideUtcMs: null },
  ],
  "clock-outside": [
    { fileName, zoneMin: 120, side: "after the ride" },
    { fileName, zoneMin: -210, side: "before the ride" },
  ],
  "clock-unchecked": [{ zoneMin: 0 }, { zoneMin: 60 }],
  "small-copy": [{ bigName: "DR0001.mp4" }],
};

const byEachReason = Object.entries(reasons).flatMap(([code, all]) =>
  all.map((facts) => ({ fileName, reason: { code, facts } as PlacementReason })),
);

export const failures: Samples<LineupFailures> = {
  "placing-broke-off": [{}],
  "anchor-form": [{ text: "bar-1" }],
  "clip-instant-form": [{ text: "bar-1" }],
  "anchor-clip-ambiguous": [{ name: "bar", paths: ["films/bar-1.mp4", "films/bar-2.mp4"] }],
  "anchor-clip-unknown": [
    { name: "bar", given: [fileName] },
    { name: "bar", given: [] },
  ],
  "anchor-outside-clip": [{ fileName, text: "9:00", durationS: 108.4 }],
  "ride-time-form": [{ text: "noon" }],
  "ride-time-outside": [
    { text, rideName, fault: { kind: "timer ends", atS: 7300 } },
    { text, rideName, fault: { kind: "ran", fromS: 36_000, toS: 43_801 } },
    { text, rideName, fault: { kind: "long in km", km: 65.81 } },
    { text, rideName, fault: { kind: "distance unknown there" } },
    { text, rideName, fault: { kind: "laps", count: 0 } },
    { text, rideName, fault: { kind: "laps", count: 1 } },
    { text, rideName, fault: { kind: "laps", count: 3 } },
    { text, rideName, fault: { kind: "long", elapsedS: 7801 } },
  ],
  "ride-time-without-clock": [
    { text, rideName, lack: "date" },
    { text, rideName, lack: "zone and place" },
  ],
  "ride-time-without-distance": [{ text: "32 km", rideName }],
  "lineup-open": [
    { fileName, more: 0, reason: followed, exampleS: 12, placesS: [] },
    { fileName, more: 2, reason: followed, exampleS: 1.5, placesS: [2551, 2575, 4201] },
  ],
};

export const notes: Samples<LineupNotes> = {
  "clip-outside-ride": [{ fileName, reason: { code: "small-copy", facts: { bigName: "DR0001.mp4" } } }],
  "clip-begins-before": [{ fileName, byS: 12.34 }],
  "clip-ends-after": [{ fileName, byS: 61 }],
  "clips-overlap": [
    { fileName, otherName: sourceName, overlapS: 30, sameCamera: true },
    { fileName, otherName: sourceName, overlapS: 30, sameCamera: false },
  ],
  "anchor-against-clock": [
    { fileName, awayS: 1260.4, clipUtcMs: Date.UTC(2026, 3, 12, 8), rideUtcMs: Date.UTC(2026, 3, 12, 7) },
    { fileName, awayS: 2e7, clipUtcMs: Date.UTC(2025, 8, 2, 7), rideUtcMs: Date.UTC(2026, 3, 12, 7) },
  ],
  "anchor-against-positions": [{ fileName, apartS: 79.23 }],
  "file-given-twice": [
    { fileName: "sunday.fit", sameAs: "sunday.fit" },
    { fileName: "sunday (1).fit", sameAs: "sunday.fit" },
  ],
  "clip-small-copy": [{ fileName: "DR0001.lrv", bigName: "DR0001.mp4" }],
  "clip-by-anchored-clock": byEachReason as [LineupNotes["clip-by-anchored-clock"]],
  "clip-telemetry-parts-unread": [{ fileName, unread: 2, parts: 108 }],
  "clip-telemetry-without-places": file,
  "clip-telemetry-without-fix": file,
  "clip-picture-still": file,
  "clip-without-sound": file,
};
