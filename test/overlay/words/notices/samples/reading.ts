import type { FormFault, FormRule } from "../../../../../main/contract/formFault.ts";
import type { ReadingFailures, ReadingNotes } from "../../../../../main/contract/notices/reading.ts";
import type { Samples } from "../samples.ts";

const none = [{}] as const;

/** Every rule: the types ask for one that is missing. */
const FORM_RULES: Readonly<Record<FormRule, true>> = {
  duration: true,
  "lower number first": true,
  "to after from": true,
  "target or range": true,
  "range without tolerance": true,
  "tolerance needs target": true,
  "tolerance below target": true,
  "event under 10 minutes": true,
  "blocks in order": true,
  "length of its parts": true,
  day: true,
};

/** Every kind of fault that a file with a form can have. */
export const formFaults: readonly [FormFault, ...FormFault[]] = [
  { kind: "not JSON", at: null },
  { kind: "not JSON", at: "Unexpected end of JSON input" },
  { kind: "unknown keys", path: "", keys: ["targt"] },
  { kind: "unknown keys", path: "event", keys: ["nam", "lenght"] },
  ...(Object.keys(FORM_RULES) as FormRule[]).map((rule) => ({ kind: "rule", path: "blocks.0.to", rule }) as const),
  ...["number", "int", "string", "boolean", "array", "tuple", "object"].map(
    (wanted) => ({ kind: "type", path: "target", wanted }) as const,
  ),
  { kind: "too small", path: "target", least: 1 },
  { kind: "too big", path: "target", most: 2000 },
  { kind: "not one of", path: "setting", choices: ["road", "trainer", "group"] },
  { kind: "other", path: "" },
];

export const failures: Samples<ReadingFailures> = {
  "plan-unusable": formFaults.map((fault) => ({ fileName: "plan.json", fault })) as [ReadingFailures["plan-unusable"]],
};

export const notes: Samples<ReadingNotes> = {
  "reading-without-power-and-cadence": none,
  "reading-without-power": none,
  "reading-without-target": none,
  "reading-target-offer": [{ meanW: 182.4, startS: 1200, endS: 4800 }],
  "reading-target-doubt": [
    { by: "power", askedW: 170, riddenW: 107 },
    { by: "heart", lowBpm: 128, highBpm: 140, riddenBpm: 163 },
  ],
  "reading-indoors": none,
  "reading-without-heart-band": none,
  "reading-without-heart": none,
  "reading-without-cadence": none,
  "reading-without-movement": [{ missing: "speed and position" }, { missing: "speed" }, { missing: "position" }],
  "reading-without-altitude": none,
  "reading-in-group": none,
  "reading-pressure-unknown": none,
  "reading-own-steps": [
    { breaks: true, drift: true },
    { breaks: true, drift: false },
    { breaks: false, drift: true },
  ],
  "reading-nothing-counts": none,
  "heart-mostly-missing": [{ percent: 41.4 }],
  "heart-of-longest-part": [{ startS: 600, endS: 5400 }],
  "heart-part-too-short": none,
  "heart-reading-absent": [
    { which: "first", why: null },
    { which: "last", why: "missing" },
  ],
  "heart-reading-moved": [
    { which: "first", why: "stop" },
    { which: "first", why: "not settled" },
    { which: "last", why: "never settled" },
  ],
  "onset-too-few-minutes": [
    { minutes: 1, needed: 30 },
    { minutes: 12, needed: 30 },
  ],
  "onset-minutes-left-out": [
    { asked: 90, lostToStops: 1, lostToData: 0 },
    { asked: 90, lostToStops: 3, lostToData: 2 },
  ],
  "onset-usual-power-effect": [{ beatsPerWatt: 0.25 }],
  "override-without-time": [{ what: "counted" }],
  "target-all-later": [{ where: "road" }, { where: "trainer" }],
  "target-old": [
    { where: "road", targetW: 185, source: "an hour's test", date: "2026-05-01", weeks: 21 },
    { where: "trainer", targetW: 175, source: null, date: "2026-05-01", weeks: 9 },
  ],
  "target-other-meter": [{ where: "road", targetW: 185, foundMeter: "left pedal", meter: "spider" }],
};
