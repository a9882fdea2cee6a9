// Damaged documents, plans, athletes' files, movie indexes and telemetry: each is read, or refused by name.
import { failureSaid } from "../support/said.ts";
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { Failure } from "../../main/contract/failure.ts";
import { newAthlete, parseAthlete } from "../../main/debrief/athlete.ts";
import { newDebrief } from "../../main/debrief/debriefDocument.ts";
import { debriefText, parseDebrief } from "../../main/debrief/parseDebrief.ts";
import { parseMovie } from "../../main/footage/mp4/parseMovie.ts";
import { clipTelemetry } from "../../main/footage/telemetry/clipTelemetry.ts";
import { parsePlan } from "../../main/reading/plan/parsePlan.ts";
import { madePlan } from "../film/madeReading.ts";
import { mutate, oddIn, processorMs, seeded } from "../ride/mutate.ts";
import { movieIndex } from "../support/movieBytes.ts";

interface Kind {
  readonly name: string;
  readonly seeds: readonly Uint8Array[];
  /** Reads one; what it gives is looked through for numbers that are none. */
  read(bytes: Uint8Array): unknown;
}

const TELEMETRY = "test/fixtures/telemetry";
const bytesOf = (text: string) => new TextEncoder().encode(text);
const textOf = (bytes: Uint8Array) => new TextDecoder().decode(bytes);

/** A plan's text as its verb hands it on; what is no JSON is refused there. */
function planFrom(bytes: Uint8Array): unknown {
  let json: unknown;
  try {
    json = JSON.parse(textOf(bytes));
  } catch {
    return null;
  }
  return parsePlan(json, "mutant.json");
}

const PLAN = {
  title: "Long steady ride",
  target: 185,
  tolerance: 12,
  warmUp: "10:00",
  coolDown: "10:00",
  setting: "road",
  event: { name: "Hill ride", duration: "4:30:00" },
};

export const DOCUMENT_KINDS: readonly Kind[] = [
  {
    name: "debrief",
    seeds: [
      bytesOf(
        debriefText(
          newDebrief(madePlan(), [{ id: "r", kind: "ride", path: "../a.fit", bytes: 1, fingerprint: "" }], "r"),
        ),
      ),
    ],
    read: (bytes) => parseDebrief(textOf(bytes), "mutant.json").document,
  },
  { name: "plan", seeds: [bytesOf(JSON.stringify(PLAN, null, 1))], read: planFrom },
  {
    name: "athlete",
    seeds: [bytesOf(JSON.stringify(newAthlete("Mara Lind"), null, 1))],
    read: (bytes) => parseAthlete(textOf(bytes), "mutant.json"),
  },
  { name: "MP4 header", seeds: [movieIndex(3, 500)], read: (bytes) => parseMovie(bytes) },
  {
    name: "telemetry",
    seeds: readdirSync(TELEMETRY)
      .filter((name) => name.endsWith(".gpmf"))
      .map((name) => new Uint8Array(readFileSync(join(TELEMETRY, name))).slice(0, 20_000)),
    // Missing values are NaN in its columns, as everywhere.
    read: (bytes) => clipTelemetry("clip1", [{ startS: 0, endS: 1, bytes }], bytes.length),
  },
];

function faultOf(kind: Kind, bytes: Uint8Array): string | null {
  try {
    return oddIn(kind.read(bytes), kind.name);
  } catch (error) {
    if (!(error instanceof Failure)) return `crash: ${(error as Error).stack ?? String(error)}`;
    const { sentence, remedy } = failureSaid(error);
    return sentence.includes("mutant.json") && remedy.length > 0
      ? null
      : `a refusal that says nothing: ${error.message}`;
  }
}

/** Runs so many mutants of one kind; gives the faults, each with what reproduces it. */
export function documentRun(kind: Kind, count: number, seed: number, hangMs = 5000): string[] {
  const random = seeded(seed);
  const faults: string[] = [];
  for (let n = 0; n < count && faults.length < 10; n++) {
    const { seeds } = kind;
    const mutant = mutate(seeds[n % seeds.length]!, seeds[Math.floor(random() * seeds.length)]!, random);
    const worked = processorMs();
    const fault = faultOf(kind, mutant);
    const tookMs = worked();
    if (fault !== null) faults.push(`${kind.name} ${n} of seed ${seed}: ${fault}`);
    if (tookMs > hangMs) faults.push(`${kind.name} ${n} of seed ${seed}: ${Math.round(tookMs)} ms`);
  }
  return faults;
}
