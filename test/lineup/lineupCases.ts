/** Pairs of clip and ride of which it is known where the clip belongs, by case; each is worked out from its seed alone. */
import type { ClipPlacement, Lineup } from "../../main/contract/lineup.ts";
import { parseAnchor } from "../../main/lineup/parseAnchor.ts";
import { placeClips, type PlaceClipsInput } from "../../main/lineup/placeClips.ts";
import { madeClip } from "./madeClip.ts";
import { madeRide } from "./madeRide.ts";
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
    lengthS: LENGTHS_S[seed % LENGTHS_S.length]!,
    receiver: () => ({
      sdM: sdM ?? sds[Math.floor(3 * random.uniform())]!,
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
    return outcome(clips[0]!, startS, lengthS);
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
    return outcome(clips[0]!, startS, lengthS);
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
    return outcome(clips[0]!, null, lengthS);
  };
}

/** The same, with the carrier's own file among the rides of the outing. */
function carriersFile(): Case {
  return (seed) => {
    const { random, lengthS, receiver } = pair(seed, null);
    const first = ride(madeWay(20_000, random), random);
    const file = recorded(first, { receiver: receiver(), startUtcMs: RIDE_UTC_MS }, random);
    const gapS = (random.uniform() < 0.5 ? -1 : 1) * (2 + 58 * random.uniform());
    const other = follow(first, gapS, random);
    const carriers = recorded(other, { receiver: receiver(), startUtcMs: RIDE_UTC_MS }, random);
    const startS = 60 + somewhere(other, lengthS + 120, random);
    const zeroUtcMs = RIDE_UTC_MS + 1000 * timeLateS(random);
    const film = filmed(other, { startS, durationS: lengthS, receiver: receiver(), zeroUtcMs }, random);
    const others = [{ ride: carriers, offsetS: 0, uncertaintyS: 0.3 }];
    const { clips } = solve({ ride: file, clips: [film.clip], telemetry: [film.telemetry], others });
    return outcome(clips[0]!, startS, lengthS);
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
    return outcome(clips[0]!, startS, lengthS);
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
    return outcome(clips[0]!, startS, lengthS);
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
  "other rider, whose own file is there": carriersFile(),
  circuit: circuit(false, true),
  "circuit, ride without a clock": circuit(false, false),
  "circuit, clip in a gap": circuit(true, true),
  "circuit, clip in a gap, ride without a clock": circuit(true, false),
};

/** Clips without positions: a coach's anchor on one, the other by the camera's clock. Whole seconds, clock off by up to 5 min. */
function inherited(
  kind: "plain" | "no number" | "trimmed" | "other serial" | "other of the model" | "other alike" | "reset twice",
): Case {
  return (seed) => {
    const { random, lengthS } = pair(seed, null);
    const file = madeRide(7200, { startUtcMs: RIDE_UTC_MS });
    const audio = { codec: "aac", sampleRateHz: 48_000, channels: 2 };
    const [firstS, secondS] = [300 + 2000 * random.uniform(), 3000 + 3500 * random.uniform()];
    const offS = 300 * (2 * random.uniform() - 1);
    const otherOffS = 300 * (2 * random.uniform() - 1);
    const marksEnd = random.uniform() < 0.2;
    const trimS = kind === "trimmed" ? 0.5 + 9.5 * random.uniform() : 0;
    const stamp = (startS: number, clockS: number) =>
      RIDE_UTC_MS + 1000 * Math.floor(startS + (marksEnd ? lengthS : 0) + clockS);
    // A clock without a battery begins anew with each of the two.
    const fromFactory = () => Date.UTC(2016, 0, 1) + 1000 * Math.floor(30 + 900 * random.uniform());
    const resets = [fromFactory(), fromFactory() + 1_200_000] as const;
    const other = kind.startsWith("other");
    const model = ["no number", "other of the model", "other alike"].includes(kind) ? { camera: "Bar 2" } : {};
    // Counts of two cameras stand anywhere; one camera's next clip that is given is the next or the one after.
    const count = 1 + Math.floor(998 * random.uniform());
    const nextCount =
      kind === "other alike" ? 1 + Math.floor(998 * random.uniform()) : count + (seed % 4 === 0 ? 2 : 1);
    const named = (k: number) => ({ fileName: `GX01${String(k === 0 ? count : nextCount).padStart(4, "0")}.mp4` });
    const clips = [
      madeClip("1", lengthS, {
        audio,
        ...named(0),
        ...model,
        createdUtcMs: kind === "reset twice" ? resets[0] : stamp(firstS, offS),
      }),
      madeClip("2", lengthS, {
        audio,
        ...named(1),
        ...model,
        ...(kind === "other serial" ? { serial: "2" } : {}),
        ...(kind === "other of the model" ? { codedWidthPx: 1920, codedHeightPx: 1080 } : {}),
        ...(kind === "trimmed" ? { rewritten: true } : {}),
        createdUtcMs: kind === "reset twice" ? resets[1] : stamp(secondS - trimS, other ? otherOffS : offS),
      }),
    ];
    const readS = firstS + 0.1 * random.normal();
    const { clips: placed } = placeClips({
      ride: file,
      clips,
      anchors: [{ clipId: "1", mediaS: 0, rideS: readS, sigmaS: 0.1 }],
      deviceDelayS: 0,
    });
    return outcome(placed[1]!, secondS, lengthS);
  };
}

/** Marks by hand on one clip: read off a filmed clock of whole seconds, or two of which one is mistaken. */
function marked(kind: "one clock" | "clocks apart" | "mistaken"): Case {
  return (seed) => {
    const { random } = pair(seed, null);
    const lengthS = 600;
    const startS = 100 + 6000 * random.uniform();
    const rate = 1 + 60e-6 * random.normal();
    const ats = kind === "one clock" ? [300] : [40 + 60 * random.uniform(), 480 + 60 * random.uniform()];
    const file = madeRide(7200, { startUtcMs: RIDE_UTC_MS });
    const wrongS = kind === "mistaken" ? (random.uniform() < 0.5 ? -1 : 1) * (3 + 60 * random.uniform()) : 0;
    const clips = [madeClip("1", lengthS)];
    const local = (s: number) => {
      const dayS = RIDE_UTC_MS / 1000 + 7200 + s;
      return new Date(1000 * Math.floor(dayS)).toISOString().slice(11, 19);
    };
    const anchors = ats.map((mediaS, k) => {
      const trueS = startS + rate * mediaS + (k === 1 ? wrongS : 0);
      return parseAnchor(`1.mp4@${mediaS.toFixed(3)}=clock ${local(trueS)}`, clips, file);
    });
    const { clips: placed } = placeClips({ ride: file, clips, anchors, deviceDelayS: 0 });
    return outcome(placed[0]!, startS, lengthS);
  };
}

/** The cases of clocks and marks, by name. */
export const clockCases: Readonly<Record<string, Case>> = {
  "inherited clock, one camera": inherited("plain"),
  "inherited clock, one camera without a serial number": inherited("no number"),
  "inherited clock, trimmed by 0.5 to 10 s": inherited("trimmed"),
  "inherited clock, other camera by its serial number": inherited("other serial"),
  "inherited clock, other camera of the model, no serial numbers": inherited("other of the model"),
  "inherited clock, other camera of the model and settings, no serial numbers": inherited("other alike"),
  "inherited clock, reset before each clip": inherited("reset twice"),
  "a filmed clock, read once": marked("one clock"),
  "a filmed clock, read twice": marked("clocks apart"),
  "a filmed clock, read twice, once wrongly by 3 to 63 s": marked("mistaken"),
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
