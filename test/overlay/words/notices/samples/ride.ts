import type { RideFailures, RideNotes } from "../../../../../main/contract/notices/ride.ts";
import type { Samples } from "../samples.ts";

const fileName = "sunday.fit";
const file = [{ fileName }] as const;
const counts = [{ count: 1 }, { count: 3 }] as const;
const seconds = [{ seconds: 1 }, { seconds: 41 }] as const;
const spans = [
  { spans: [{ startS: 720, endS: 1870 }], more: 0, seconds: 1150 },
  {
    spans: [
      { startS: 720, endS: 1870 },
      { startS: 2000, endS: 2100 },
      { startS: 3000, endS: 3100 },
    ],
    more: 2,
    seconds: 1800,
  },
] as const;
const none = [{}] as const;

export const failures: Samples<RideFailures> = {
  "ride-empty": file,
  "ride-file-too-large": file,
  "ride-packed-twice": file,
  "ride-zip-archive": file,
  "ride-no-ride-file": file,
  "ride-without-records": file,
  "ride-without-values": file,
  "ride-over-a-week": file,
  "ride-too-many-records": file,
  "ride-needs-memory": file,
  "ride-one-record": file,
  "ride-clock-stands": file,
  "ride-gzip-damaged": file,
  "ride-gzip-too-large": [{ fileName, limitMb: 128 }],
  "gpx-without-points": file,
  "gpx-without-times": [
    { fileName, timed: 0, points: 30 },
    { fileName, timed: 3, points: 30 },
  ],
  "csv-without-header": file,
  "csv-without-times": file,
  "ride-is-folder": file,
  "ride-is-debrief": [
    { name: "sunday-debrief", rideName: "sunday.fit", ridePath: "/rides/sunday.fit" },
    { name: "sunday-debrief", rideName: "sunday.fit", ridePath: null },
  ],
  "ride-no-ordinary-file": file,
  "ride-file-missing": [{ path: "/rides/sunday.fit" }],
  "ride-file-forbidden": file,
  "ride-file-unreadable": [
    { fileName, error: "EIO" },
    { fileName, error: null },
  ],
};

export const notes: Samples<RideNotes> = {
  "ride-gzip-cut": none,
  "ride-very-short": [
    { elapsedS: 0, records: 1 },
    { elapsedS: 8, records: 9 },
  ],
  "ride-without-date": [{ why: "none" }, { why: "counts from switch-on" }],
  "ride-wrong-date": [{ year: 2089 }],
  "ride-own-steps": none,
  "ride-null-positions": counts,
  "ride-dead-sensor": [{ column: "heartRateBpm" }, { column: "powerW" }],
  "ride-records-out-of-order": none,
  "ride-times-jump": [
    { left: [{ records: 1, startMs: Date.UTC(2026, 4, 17, 8) }], more: 0 },
    {
      left: [
        { records: 5, startMs: Date.UTC(2026, 4, 17, 8) },
        { records: 7, startMs: Date.UTC(2026, 4, 18, 8) },
      ],
      more: 2,
    },
  ],
  "ride-power-spikes": counts,
  "ride-power-dropouts": seconds,
  "ride-heart-jumps": seconds,
  "ride-heart-follows-cadence": spans,
  "ride-heart-stuck": spans,
  "ride-heart-no-pulse": spans,
  "ride-power-zero-turning": spans,
  "ride-power-frozen": spans,
  "ride-cadence-zero-pressed": spans,
  "ride-sensor-silent": [
    { column: "powerW", ...spans[0] },
    { column: "heartRateBpm", ...spans[1] },
  ],
  "ride-altitude-begins-wrong": [{ untilS: 41 }],
  "ride-cadence-spikes": seconds,
  "ride-absurd-sums": [
    { distanceM: 32_000_000, meanMps: 2222, powerW: 16_000 },
    { distanceM: null, meanMps: null, powerW: 16_000 },
  ],
  "ride-speed-from-places": none,
  "ride-times-without-zone": none,
  "ride-untimed-points": [{ untimed: 10, points: 30 }],
  "ride-untimed-records": counts,
  "ride-untimed-lines": [{ left: 1, lines: 6 }],
  "ride-several-tracks": [{ count: 2 }],
  "ride-several-activities": [{ count: 2 }],
  "ride-several-recordings": [{ count: 2 }],
  "ride-several-sessions": [{ count: 3, sports: ["swimming", "transition", "cycling"] }],
  "ride-only-ridden": [{ count: 3, sports: ["swimming", "transition", "cycling"] }],
  "ride-mostly-unrecorded": [{ recordedS: 42, elapsedS: 1430 }],
  "ride-other-sport": [{ sport: "cross country skiing" }],
  "ride-laps-automatic": [
    { laps: 12, by: "distance" },
    { laps: 12, by: "time" },
  ],
  "ride-text-damaged": [{ line: 412 }],
  "ride-is-course": none,
  "csv-guessed-unit": [
    { column: "speed", unit: "km/h" },
    { column: "distance", unit: "m" },
  ],
  "fit-part-undecoded": none,
  "fit-developer-column": [{ column: "powerW" }],
  "fit-many-parts": [{ limit: 100 }],
  "fit-foreign-end": none,
  "fit-ride-twice": none,
  "fit-bytes-damaged": [{ bytes: 5 }],
  "fit-cut-short": none,
  "fit-wrong-size": none,
  "fit-wrong-checksum": none,
};
