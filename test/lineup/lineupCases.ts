/** Pairs of clip and ride of which it is known where the clip belongs, by case; each is worked out from its seed alone. */
import type { ClipPlacement, Lineup } from "../../main/contract/lineup.ts";
import { placeClips, type PlaceClipsInput } from "../../main/lineup/placeClips.ts";
import { seededRandom, type SeededRandom } from "../../main/demo/seededRandom.ts";
import {
  filmed,
  follow,
  madeCircuit,
  madeWay,
  recorded,
  ride,
  timeLateS,
  type Receiver,
  type Riding,
} from "./simulateTracks.ts";

/** A pair, solved. */
interface Outcome {
  readonly sure: boolean;
  /** Place less true place, s; NaN where the clip belongs nowhere in the ride, or was put nowhere. */
  readonly errorS: number;
  readonly statedS: number | null;
  /** Called sure and more than 2 s (and the printed error) from the truth, or sure where it belongs nowhere. */
  readonly wrong: boolean;
  /** Called sure, and further off than printed. */
  readonly beyond: boolean;
  readonly lengthS: number;
}

type Case = (seed: number) => Outcome;

const DAY_S = 86_400;
const RIDE_UTC_MS = Date.UTC(2024, 5, 1, 8, 0, 0);
const LENGTHS_S = [15, 30, 60, 120, 300];

function outcome(placed: ClipPlacement, trueS: number | null, lengthS: number): Outcome {
  const errorS = placed.found && trueS !== null ? placed.found.offsetS - trueS : NaN;
  const off = Math.abs(errorS);
  const stated = placed.uncertaintyS ?? 0;
  return {
    sure: placed.sure,
    errorS,
    statedS: placed.uncertaintyS,
    wrong: placed.sure && !(off <= Math.max(2, stated)),
    beyond: placed.sure && !(off <= stated + 1e-9),
    lengthS,
  };
}

function solve(input: Omit<PlaceClipsInput, "anchors" | "deviceDelayS">): Lineup {
  return placeClips({ anchors: [], deviceDelayS: 0, ...input });
}

interface Pair {
  readonly random: SeededRandom;
  readonly lengthS: number;
  readonly receiver: () => Receiver;
}

/** A stream whose first draws tell neighbouring seeds apart. */
function drawn(seed: number): SeededRandom {
  const random = seededRandom(seed * 48_271 + 7);
  for (let k = 0; k < 20; k++) random.uniform();
  return random;
}

function pair(seed: number, sdM: number | null): Pair {
  const random = drawn(seed);
  const sds = [1.5, 2.5, 4];
  return {
    random,
    lengthS: LENGTHS_S[seed % LENGTHS_S.length],
    receiver: () => ({
      sdM: sdM ?? sds[Math.floor(3 * random.uniform())],
      speedSdMps: 0.05 + 0.2 * random.uniform(),
      speedMeanS: 0.4 + 2.6 * random.uniform(),
    }),
  };
}

/** Somewhere in a riding that a clip fits. */
function somewhere(riding: Riding, lengthS: number, random: SeededRandom): number {
  const elapsedS = riding.distanceM.length / 5;
  return 20 + random.uniform() * (elapsedS - lengthS - 40);
}

/** The usual case: the rider's own camera, both clocks set by satellites. */
function ownCamera(sdM: number | null): Case {
  return (seed) => {
    const { random, lengthS, receiver } = pair(seed, sdM);
    const riding = ride(madeWay(20_000, random), random);
    const file = recorded(riding, { receiver: receiver(), startUtcMs: RIDE_UTC_MS }, random);
    const startS = somewhere(riding, lengthS, random);
    const zeroUtcMs = RIDE_UTC_MS + 1000 * timeLateS(random);
    const film = filmed(riding, { startS, durationS: lengthS, receiver: receiver(), zeroUtcMs }, random);
    const { clips } = solve({ ride: file, clips: [film.clip], telemetry: [film.telemetry] });
    return outcome(clips[0], startS, lengthS);
  };
}

/** The rider's own camera, and a bike computer whose clock is off: by a zone, by hand, or by any time. */
function clockOff(kind: "zone" | "hand" | "none"): Case {
  return (seed) => {
    const { random, lengthS, receiver } = pair(seed, null);
    const riding = ride(madeWay(20_000, random), random);
    const offS = kind === "zone" ? 7200 : 120 * (2 * random.uniform() - 1);
    const startUtcMs = kind === "none" ? null : RIDE_UTC_MS + 1000 * offS;
    const file = recorded(riding, { receiver: receiver(), startUtcMs }, random);
    const startS = somewhere(riding, lengthS, random);
    const zeroUtcMs = RIDE_UTC_MS + 1000 * timeLateS(random);
    const film = filmed(riding, { startS, durationS: lengthS, receiver: receiver(), zeroUtcMs }, random);
    const { clips } = solve({ ride: file, clips: [film.clip], telemetry: [film.telemetry] });
    return outcome(clips[0], startS, lengthS);
  };
}

/** The same road, ridden again on another day (or later the same day): the clip belongs nowhere in the ride. */
function otherDay(kind: "days" | "same day" | "no clocks"): Case {
  return (seed) => {
    const { random, lengthS, receiver } = pair(seed, null);
    const way = madeWay(20_000, random);
    const file = recorded(
      ride(way, random),
      { receiver: receiver(), startUtcMs: kind === "no clocks" ? null : RIDE_UTC_MS },
      random,
    );
    const again = ride(way, random);
    const startS = somewhere(again, lengthS, random);
    const awayS =
      kind === "days"
        ? DAY_S * (1 + Math.floor(60 * random.uniform())) + 3600 * random.normal()
        : 3000 + 6 * 3600 * random.uniform();
    const film = filmed(
      again,
      {
        startS,
        durationS: lengthS,
        receiver: receiver(),
        zeroUtcMs: kind === "no clocks" ? null : RIDE_UTC_MS + 1000 * awayS,
        clip: kind === "no clocks" ? { createdUtcMs: RIDE_UTC_MS + 1000 * Math.round(DAY_S * 12 + startS) } : {},
      },
      random,
    );
    const { clips } = solve({ ride: file, clips: [film.clip], telemetry: [film.telemetry] });
    return outcome(clips[0], null, lengthS);
  };
}

/** A camera on another rider, some seconds ahead or behind at each place; its own time is the truth. */
function otherRider(fromS: number, toS: number): Case {
  return (seed) => {
    const { random, lengthS, receiver } = pair(seed, null);
    const first = ride(madeWay(20_000, random), random);
    const file = recorded(first, { receiver: receiver(), startUtcMs: RIDE_UTC_MS }, random);
    const gapS = (random.uniform() < 0.5 ? -1 : 1) * (fromS + (toS - fromS) * random.uniform());
    const other = follow(first, gapS, random);
    const startS = 60 + somewhere(other, lengthS + 120, random);
    const zeroUtcMs = RIDE_UTC_MS + 1000 * timeLateS(random);
    const film = filmed(other, { startS, durationS: lengthS, receiver: receiver(), zeroUtcMs }, random);
    const { clips } = solve({ ride: file, clips: [film.clip], telemetry: [film.telemetry] });
    return outcome(clips[0], startS, lengthS);
  };
}

/** Laps of a circuit; with a gap, the recorder was off where the clip was filmed. */
function circuit(gap: boolean, clocks: boolean): Case {
  return (seed) => {
    const { random, lengthS, receiver } = pair(seed, null);
    const riding = ride(madeCircuit(1500 + Math.floor(3000 * random.uniform()), 7, random), random, 0.05);
    const startS = somewhere(riding, lengthS + 200, random) + 100;
    const file = recorded(
      riding,
      {
        receiver: receiver(),
        startUtcMs: clocks ? RIDE_UTC_MS : null,
        ...(gap ? { gap: [Math.floor(startS - 60), Math.ceil(startS + lengthS + 60)] as const } : {}),
      },
      random,
    );
    const zeroUtcMs = RIDE_UTC_MS + 1000 * timeLateS(random);
    const film = filmed(riding, { startS, durationS: lengthS, receiver: receiver(), zeroUtcMs }, random);
    const { clips } = solve({ ride: file, clips: [film.clip], telemetry: [film.telemetry] });
    return outcome(clips[0], startS, lengthS);
  };
}

/** The cases with telemetry, by name. */
export const telemetryCases: Readonly<Record<string, Case>> = {
  "own camera, 1.5 m of noise": ownCamera(1.5),
  "own camera, 2.5 m of noise": ownCamera(2.5),
  "own camera, 4 m of noise": ownCamera(4),
  "ride's clock in another zone": clockOff("zone"),
  "ride's clock off by up to 2 min": clockOff("hand"),
  "ride without a clock": clockOff("none"),
  "same road, another day": otherDay("days"),
  "same road, later that day": otherDay("same day"),
  "same road, another day, no clocks": otherDay("no clocks"),
  "other rider, 2 to 8 s": otherRider(2, 8),
  "other rider, 8 to 60 s": otherRider(8, 60),
  circuit: circuit(false, true),
  "circuit, ride without a clock": circuit(false, false),
  "circuit, clip in a gap": circuit(true, true),
  "circuit, clip in a gap, ride without a clock": circuit(true, false),
};

export interface Row {
  readonly name: string;
  readonly n: number;
  readonly sure: number;
  readonly wrong: number;
  readonly beyond: number;
  readonly medianErrorS: number;
}

/** A case over `n` seeds from `firstSeed` on. */
export function runCase(name: string, each: Case, firstSeed: number, n: number): Row {
  const all = Array.from({ length: n }, (_, k) => each(firstSeed + k));
  const sure = all.filter((o) => o.sure);
  const errors = sure
    .map((o) => Math.abs(o.errorS))
    .filter(Number.isFinite)
    .sort((a, b) => a - b);
  return {
    name,
    n,
    sure: sure.length,
    wrong: sure.filter((o) => o.wrong).length,
    beyond: sure.filter((o) => o.beyond).length,
    medianErrorS: errors[errors.length >> 1] ?? NaN,
  };
}
