import { paintCard } from "../../../overlay/cards/paintCard.ts";
import type { Language } from "../../../main/contract/languageAndUnits.ts";
import type { Card } from "../../../main/contract/card.ts";
import { darkInk, lightInk, type Theme } from "../../../overlay/theme.ts";
import { sampleRide, seededShares } from "../support/sampleRide.ts";
import type { Scene } from "./scene.ts";

const WIDE = { gallery: [1920, 1080], golden: [640, 360] } as const;
const UPRIGHT = { gallery: [1080, 1920], golden: [360, 640] } as const;
const SQUARE = { gallery: [1080, 1080], golden: [400, 400] } as const;

const ride = sampleRide();
const heart = (ride.heartRate?.value ?? new Float64Array()).map((bpm, k) => (k > 5200 && k < 5500 ? Number.NaN : bpm));
const altitude = ride.altitudeM ?? new Float64Array();
const band = { low: 175, high: 199 };

/** A 30 s mean as a road gives it: wandering, with a lull at a crossing. */
function power30s(): Float64Array {
  const share = seededShares(99);
  let watts = 187;
  return Float64Array.from({ length: ride.seconds }, (_, k) => {
    watts += (187 - watts) * 0.02 + (share() - 0.5) * 5;
    const easy = k < 600 || k >= 7200 ? 55 : 0;
    return Math.max(0, watts - easy - (k > 3000 && k < 3090 ? 150 : 0));
  });
}

/** Four efforts of ten minutes, the last one given up early. */
function inBlocks(): Float64Array {
  const plain = power30s();
  return plain.map((watts, k) => {
    const effort = [1200, 2400, 3600, 4800].some((startS) => k >= startS && k < startS + (startS === 4800 ? 330 : 600));
    return watts + (effort ? 43 : -52);
  });
}

const title: Card = {
  kind: "title",
  title: "Steady pressure over rolling hills",
  lines: ["Mara Lindqvist, 14 June", "2 h 10 min, 187 W asked for"],
};
const plan: Card = {
  kind: "plan",
  title: "What was asked",
  rows: [
    { label: "power", value: "175\u2013199 W" },
    { label: "length", value: "2 h 10 min" },
    { label: "warm-up", value: "10 min" },
    { label: "cool-down", value: "10 min" },
    { label: "for", value: "Hochtal round, 3 h 30 min" },
  ],
};
const chart: Card = {
  kind: "chart",
  title: "Your heart rate began to climb after an hour",
  lines: ["At the same power it rose from 129 to 135 beats."],
  series: { power30sW: power30s(), heartRateBpm: heart, altitude, startS: 0, stepS: 1 },
  marks: {
    bandW: band,
    counted: { startS: 600, endS: 7200 },
    first: { atS: 1500, bpm: 129 },
    last: { atS: 6900, bpm: 135 },
    onset: { atS: 3900, lowS: 3400, highS: 4500 },
    moment: null,
    shots: [
      { startS: 4262, endS: 4274 },
      { startS: 1500, endS: 1512 },
      { startS: 6200, endS: 6290 },
    ],
    told: [4262, 1500, 1560, 6200],
  },
};
/** Asked for by blocks on a trainer, steered by heart rate as well; the two readings lie close together. */
const blocks: Card = {
  ...chart,
  title: "Leistung und Puls",
  lines: ["Der Puls lag früh bei 129, spät bei 131, bei gleicher Leistung."],
  series: { power30sW: inBlocks(), heartRateBpm: heart, startS: 0, stepS: 1 },
  marks: {
    ...chart.marks,
    bandW: { low: 120, high: 150 },
    heartBand: { low: 122, high: 134 },
    blocks: [1200, 2400, 3600, 4800].map((startS) => ({ startS, endS: startS + 600, low: 215, high: 245 })),
    first: { atS: 1500, bpm: 129 },
    last: { atS: 2100, bpm: 131 },
    onset: null,
    told: [1210, 4800],
    shots: [{ startS: 4800, endS: 4830 }],
  },
};
const notFilmed: Card = {
  kind: "chart",
  title: "Pressure off for 8 s on the flat",
  lines: ["This was not filmed."],
  series: {
    power30sW: ride.power3s?.value.slice(4200, 4400) ?? null,
    heartRateBpm: heart.slice(4200, 4400),
    altitude: altitude.slice(4200, 4400),
    startS: 4200,
    stepS: 1,
  },
  marks: {
    bandW: band,
    counted: null,
    first: null,
    last: null,
    onset: null,
    moment: { startS: 4262, endS: 4270, words: "8 s without pressure" },
  },
};
const heartOnly: Card = {
  ...chart,
  title: "Heart rate over the ride",
  lines: [],
  series: { ...chart.series, power30sW: null, altitude: altitude.map((metres) => metres / 0.3048), altitudeUnit: "ft" },
  marks: { ...chart.marks, bandW: null, onset: { atS: null, lowS: 600, highS: 1800 } },
};
/** A ride of thirteen hours. */
const longRide: Card = {
  ...chart,
  title: "Your heart rate began to climb after six hours",
  series: { ...chart.series, stepS: 6 },
  marks: {
    ...chart.marks,
    counted: { startS: 3600, endS: 43_200 },
    first: { atS: 9000, bpm: 129 },
    last: { atS: 41_400, bpm: 135 },
    onset: { atS: 23_400, lowS: 20_400, highS: 27_000 },
    shots: [
      { startS: 25_572, endS: 25_644 },
      { startS: 37_200, endS: 37_740 },
    ],
    told: [25_572, 37_200],
  },
};
const longMoment: Card = {
  ...notFilmed,
  series: { ...notFilmed.series, startS: 40_200 },
  marks: { ...notFilmed.marks, moment: { startS: 40_262, endS: 40_270, words: "8 s without pressure" } },
};
const comparison: Card = {
  kind: "comparison",
  title: "Beside the ride three weeks before",
  columns: ["24 May", "14 June"],
  rows: [
    { label: "at the planned power", left: "61 %", right: "74 %" },
    { label: "longest without a break", left: "12 min", right: "21 min" },
    { label: "heart rate, early to late", left: "+12", right: "+6" },
  ],
};
const note: Card = {
  kind: "note",
  title: "Try this",
  lines: ["Keep a light pressure over the top of each rise.", "Start each rise a gear easier."],
};
const closing: Card = {
  kind: "closing",
  title: "Next ride: the same loop",
  lines: ["You kept steady pressure for 21 min.", "Press lightly over the top, then settle."],
  caution:
    "Not medical advice. Stop and seek help for chest pain, faintness or a racing heart. Never handle a camera while riding.",
};
const longWords: Card = {
  kind: "title",
  title: "Geschwindigkeitsregelungsversuche zwischen Oberunterbergen und Hinterwaldtalheim",
  lines: Array.from({ length: 7 }, (_, k) => `Line ${k + 1} of a rider who has a great deal to say about one ride`),
};

function scene(
  name: string,
  card: Card,
  shape: { readonly gallery: readonly [number, number]; readonly golden: readonly [number, number] } = WIDE,
  theme: Theme = lightInk,
  language: Language = "en",
): Scene {
  return {
    name: `card-${name}`,
    ...shape,
    ground: null,
    tolerance: 0,
    paint: (context, width, height) => paintCard(context, card, { width, height }, theme, language),
  };
}

/** Every kind of card, in every shape at least once, in both inks. */
export const cardScenes: readonly Scene[] = [
  scene("title", title),
  scene("title-upright", title, UPRIGHT),
  scene("title-long", longWords, SQUARE),
  scene("plan", plan),
  scene("plan-upright", plan, UPRIGHT),
  scene("chart", chart),
  scene("chart-upright", chart, UPRIGHT),
  scene("chart-square", chart, SQUARE),
  scene("chart-paper", chart, WIDE, darkInk),
  scene("chart-not-filmed", notFilmed),
  scene("chart-heart-only", heartOnly),
  scene("chart-blocks", blocks, WIDE, lightInk, "de"),
  scene("chart-blocks-square", blocks, SQUARE, darkInk, "de"),
  scene("chart-blocks-upright", blocks, UPRIGHT, lightInk, "de"),
  scene("chart-ten-hours", longRide),
  scene("chart-ten-hours-upright", longRide, UPRIGHT),
  scene("chart-ten-hours-square", longRide, SQUARE),
  scene("chart-ten-hours-moment", longMoment, SQUARE),
  scene("comparison", comparison),
  scene("comparison-square", comparison, SQUARE, darkInk),
  scene("note", note, WIDE, darkInk),
  scene("closing", closing),
  scene("closing-upright", closing, UPRIGHT),
];
