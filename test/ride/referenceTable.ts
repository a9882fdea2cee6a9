import { readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { Failure } from "../../main/contract/failure.ts";
import type { Ride } from "../../main/contract/ride.ts";
import { parseRide } from "../../main/ride/parseRide.ts";
import { rideSummary } from "../../main/ride/rideSummary.ts";
import { failureSaid, said } from "../support/said.ts";

interface Figures {
  readonly n?: number;
  readonly mean?: number;
  readonly max?: number;
}

/** What a folder's REFERENCE.json says of one file. */
interface Reference {
  readonly records: number;
  readonly start?: string | null;
  readonly positions?: number;
  readonly firstPos?: readonly [number, number];
  readonly lastPos?: readonly [number, number];
  readonly power?: Figures;
  readonly hr?: Figures;
  readonly cad?: Figures;
  readonly speed?: Figures;
  readonly lastRecordDistance?: number;
  readonly lastTrackpointDistance?: number;
  readonly haversine_m?: number;
  readonly utcOffsetH?: number;
}

/** One line of the table. */
export interface ReferenceLine {
  readonly file: string;
  /** `agrees`, `explained` or `differs`. */
  readonly verdict: "agrees" | "explained" | "differs";
  /** What was read, in short. */
  readonly read: string;
  /** Each deviation with its explanation, or with none. */
  readonly notes: readonly string[];
  readonly warnings: readonly string[];
}

/** Deviations that the rules of the house ask for: figure, what the file's warnings must say, why. */
const EXPLANATIONS: readonly { readonly figure: string | null; readonly warning: RegExp; readonly why: string }[] = [
  { figure: "records", warning: /same ride twice/, why: "the second part is a byte copy of the first and left out" },
  { figure: "power", warning: /Power comes from a field that an add-on/, why: "the decoders read native fields only" },
  { figure: "heart", warning: /Heart rate is 0 throughout/, why: "a sensor of zeros is absent" },
  { figure: "cadence", warning: /Cadence is 0 throughout/, why: "a sensor of zeros is absent" },
  // Any figure; the ride alone is held to the recorder's own sums in reference.test.ts.
  { figure: null, warning: /only what was ridden is read/, why: "the figures are of all sports in the file" },
];

/** Tolerances: 0.5 W, 0.3 bpm, 1 s, 1 % of distance; the others of the same order. */
const TOLERANCE = {
  powerW: 0.5,
  heartBpm: 0.3,
  cadenceRpm: 0.3,
  speedMps: 0.01,
  startMs: 1000,
  distanceShare: 0.01,
  degrees: 1e-6,
  offsetMin: 0,
};

/** Reads every ride file that the folder's REFERENCE.json names and holds it to its figures. */
export function referenceTable(folder: string): ReferenceLine[] {
  const { files } = JSON.parse(readFileSync(join(folder, "REFERENCE.json"), "utf8")) as {
    files: Record<string, { kind: string; reference: Reference }>;
  };
  return Object.entries(files)
    .filter(([, { kind }]) => kind !== "camera")
    .map(([file, { kind, reference }]) =>
      line(file, kind, reference, new Uint8Array(readFileSync(join(folder, file)))),
    );
}

function line(file: string, kind: string, reference: Reference, bytes: Uint8Array): ReferenceLine {
  let ride: Ride;
  try {
    ride = parseRide(bytes, basename(file));
  } catch (error) {
    if (!(error instanceof Failure)) throw error;
    const why = whyRefused(reference, failureSaid(error).sentence);
    return {
      file,
      verdict: why ? "explained" : "differs",
      read: "refused",
      notes: [`${failureSaid(error).sentence}${why ? ` (${why})` : ""}`],
      warnings: [],
    };
  }
  const deviations = compare(ride, kind, reference).map(({ figure, text }) => {
    const found = EXPLANATIONS.find(
      (e) => (e.figure ?? figure) === figure && said(ride.warnings).some((w) => e.warning.test(w)),
    );
    return { text: found ? `${text}: ${found.why}` : `${text}: NOT EXPLAINED`, explained: found !== undefined };
  });
  const verdict = deviations.length === 0 ? "agrees" : deviations.every((d) => d.explained) ? "explained" : "differs";
  const s = rideSummary(ride, "road");
  const show = (value: number | null, unit: string, digits = 0) =>
    value === null ? `- ${unit}` : `${value.toFixed(digits)} ${unit}`;
  const read = [
    `${s.records} records`,
    show(s.power.meanW, "W", 1),
    show(s.heartRate.meanBpm, "bpm", 1),
    show(s.distanceM, "m"),
    s.startTime ?? "no date",
    ride.mode,
  ];
  return { file, verdict, read: read.join(", "), notes: deviations.map((d) => d.text), warnings: said(ride.warnings) };
}

/** A refusal is right where the figures themselves say that there is no ride to be placed in time. */
function whyRefused(reference: Reference, sentence: string): string | null {
  if (reference.records === 0) return "the figures hold no record either";
  if (!reference.start) return "the figures hold no start either";
  if (!reference.positions && !reference.power && !reference.hr)
    return "the figures hold no place and no sensor either";
  const few = /Only (\d+) of the (\d+) points/.exec(sentence);
  if (few && Number(few[2]) === reference.records) return "the figures count all points, few of which have a time";
  return null;
}

function compare(ride: Ride, kind: string, reference: Reference): { figure: string; text: string }[] {
  const s = rideSummary(ride, "road");
  const out: { figure: string; text: string }[] = [];
  const check = (
    figure: string,
    name: string,
    ours: number | null,
    theirs: number | null | undefined,
    tolerance: number,
  ) => {
    if (ours === null && (theirs === null || theirs === undefined)) return;
    if (ours !== null && theirs !== null && theirs !== undefined && Math.abs(ours - theirs) <= tolerance) return;
    out.push({ figure, text: `${name} ${ours ?? "none"}, reference ${theirs ?? "none"}` });
  };
  check("records", "records", s.records, reference.records, 0);
  check("power", "mean power", s.power.meanW, reference.power?.mean, TOLERANCE.powerW);
  check("power", "max power", s.power.maxW, reference.power?.max, TOLERANCE.powerW);
  check("power", "power samples", s.power.samples, reference.power?.n ?? 0, 0);
  check("heart", "mean heart rate", s.heartRate.meanBpm, reference.hr?.mean, TOLERANCE.heartBpm);
  check("heart", "max heart rate", s.heartRate.maxBpm, reference.hr?.max, TOLERANCE.heartBpm);
  // FIT keeps the fraction of a turn in a field of its own, which the figures leave out.
  check("cadence", "mean cadence", s.cadence.meanRpm, reference.cad?.mean, kind === "fit" ? 1 : TOLERANCE.cadenceRpm);
  // The figures of track texts hold no speed.
  if (reference.speed) check("speed", "mean speed", s.speed.meanMps, reference.speed.mean, TOLERANCE.speedMps);
  const distance = reference.lastRecordDistance ?? reference.lastTrackpointDistance ?? reference.haversine_m;
  const haversine = reference.lastRecordDistance === undefined && reference.lastTrackpointDistance === undefined;
  // Without a distance in the file, too few places give 0 m in the figures and none here.
  if (!(haversine && s.distanceM === null && distance === 0))
    check("distance", "distance", s.distanceM, distance, Math.max(0.1, TOLERANCE.distanceShare * (distance ?? 0)));
  const start = reference.start ? new Date(reference.start).getTime() : null;
  check("start", "start", ride.startUtcMs, start, TOLERANCE.startMs);
  const nullIsland = (p?: readonly [number, number]) => p !== undefined && p[0] === 0 && p[1] === 0;
  for (const [name, ours, theirs] of [
    ["first", s.firstPosition, reference.firstPos],
    ["last", s.lastPosition, reference.lastPos],
  ] as const) {
    if (nullIsland(theirs)) continue;
    for (const i of [0, 1] as const)
      check("position", `${name} ${i ? "longitude" : "latitude"}`, ours?.[i] ?? null, theirs?.[i], TOLERANCE.degrees);
  }
  // Offsets of 0 may mean `not set`; those beyond 14 h are none.
  const offset = reference.utcOffsetH;
  if (kind === "fit" && offset && Math.abs(offset) <= 14)
    check("offset", "UTC offset, min", ride.utcOffsetMin, offset * 60, TOLERANCE.offsetMin);
  return out;
}
