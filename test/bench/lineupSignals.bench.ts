/**
 * Line-up by signals against truth: real rides, simulated cameras, by two noise models; in the second the ride is as
 * another recorder with a receiver of its own would have written it. Run with FOLLOWCAR_DATA naming a folder that holds fit/*.fit. `simulated`.
 *
 * FOLLOWCAR_BENCH_PLACES of each length and row (half as many again, or FOLLOWCAR_BENCH_WRONG, on the wrong ride, where
 * nothing may be sure), first seed FOLLOWCAR_BENCH_SEED, lengths FOLLOWCAR_BENCH_LENGTHS (min), FOLLOWCAR_BENCH_NOISE=first
 * or second alone, FOLLOWCAR_BENCH_ROWS a part of the rows' names. A clock beside is one of three readings an hour
 * apart, one of them right within 30 s; or it names another place. Rides on a trainer are left out: there
 * signals are not tried. Clips of which the ride recorded less than four fifths have a row of their own: they belong nowhere in it.
 */
import { readdirSync } from "node:fs";
import { join } from "node:path";
import type { Ride } from "../../main/contract/ride.ts";
import { SIGNAL_STEP_S } from "../../main/contract/signals.ts";
import { priorOf, signalsErrorS } from "../../main/lineup/placeBySignals.ts";
import { groupScore } from "../../main/lineup/signals/groupScore.ts";
import { rideForSignals } from "../../main/lineup/signals/memberPlaces.ts";
import { rideSeries, type RideSeries } from "../../main/lineup/signals/rideSeries.ts";
import { solveGroup } from "../../main/lineup/signals/solveGroup.ts";
import { readRide } from "../../main/ride/readRide.edge.ts";
import { recordedAgain, recorderLagS, simulateOtherwise } from "../lineup/simulateOtherwise.ts";
import { seeded, simulateClip, type SimulatedClip } from "../lineup/simulateSignals.ts";

const folder = process.env.FOLLOWCAR_DATA;
const pairs = Number(process.env.FOLLOWCAR_BENCH_PLACES ?? 20);
const wrongPairs = Number(process.env.FOLLOWCAR_BENCH_WRONG ?? Math.ceil(pairs / 2));
const firstSeed = Number(process.env.FOLLOWCAR_BENCH_SEED ?? 1000);
const minutes = (process.env.FOLLOWCAR_BENCH_LENGTHS ?? "3,8,20").split(",").map(Number);
if (!folder) throw new Error("FOLLOWCAR_DATA must name a folder with fit/*.fit");

interface Known {
  readonly ride: Ride;
  readonly series: RideSeries;
}
const rides: Known[] = [];
for (const name of readdirSync(join(folder, "fit"))
  .filter((n) => !n.startsWith("bad") && !n.startsWith("odd"))
  .sort()) {
  try {
    const ride = await readRide(join(folder, "fit", name));
    const series = rideSeries(ride);
    const known = series.speedMps.filter(Number.isFinite).length;
    const outdoors = ride.raw.latDeg.some(Number.isFinite);
    if (outdoors && ride.elapsedS > 2400 && known > 0.3 * series.speedMps.length) rides.push({ ride, series });
  } catch {
    // not a ride for this bench
  }
}
console.log(`${rides.length} rides, ${pairs} pairs of each length`);

const MODELS = {
  first: { simulate: simulateClip, written: (ride: Ride) => ride, lagS: () => 0 },
  second: { simulate: simulateOtherwise, written: recordedAgain, lagS: recorderLagS },
} as const;
const CLOCKS = ["no clock", "clock right", "clock names another place"] as const;

/** Clips of which the ride recorded less than this share are of no place in it. */
const RECORDED = 0.8;

/** Share of a clip's time of which the ride's speed is known, standing in pauses included. */
function recordedShare(ride: RideSeries, { startS, series }: SimulatedClip): number {
  const from = Math.round(startS / SIGNAL_STEP_S);
  const seen = ride.seenMps.subarray(from, from + series.sound!.length);
  return seen.filter(Number.isFinite).length / series.sound!.length;
}

interface Found {
  /** The ride recorded most of what was filmed. */
  readonly recorded: boolean;
  readonly sure: boolean;
  readonly errorS: number;
  readonly printedS: number;
}

/** One pair under each clock. `clips` of one camera are solved together, by clocks of whole seconds. */
function solvePair(
  model: keyof typeof MODELS,
  gyro: boolean,
  lengthS: number,
  wrongRide: boolean,
  clips: number,
  seed: number,
) {
  const next = seeded(seed);
  const own = Math.floor(next() * rides.length);
  const from = rides[own]!;
  const other = (own + 1 + Math.floor(next() * (rides.length - 1))) % rides.length;
  const { simulate, written, lagS } = MODELS[model];
  const again = written(rides[wrongRide ? other : own]!.ride, seed);
  const onto = rideForSignals(rideSeries(again), again.elapsedS);
  const durationS = Math.min(lengthS, (0.8 / clips) * from.ride.elapsedS);
  const filmed = Array.from({ length: clips }, (_, k) => simulate(from.series, durationS, seed * 7 + k));
  const startS = filmed[0]!.startS;
  const members = filmed.map((clip) => ({
    series: gyro ? clip.sensed : clip.series,
    afterFirstS: Math.round(clip.startS) - Math.round(startS),
  }));
  const clockS = {
    "clock right": startS + 60 * (next() - 0.5),
    "clock names another place": (startS + (0.2 + 0.6 * next()) * onto.elapsedS) % onto.elapsedS,
  };
  const slackS = clips > 1 ? 1 : 0;
  const score = groupScore(members, onto.prepared, slackS);
  const recorded = filmed.every((clip) => recordedShare(from.series, clip) >= RECORDED);
  return CLOCKS.map((clock): Found => {
    const readings =
      clock === "no clock"
        ? []
        : [0, -60, 60].map((zoneMin) => ({
            startsS: [clockS[clock] + zoneMin * 60],
            zoneMin,
            weight: 1 / 3,
            mark: "start" as const,
          }));
    const found = score && solveGroup(members, onto, priorOf(readings, null, onto.elapsedS), slackS, score);
    const best = found?.members.findIndex(({ uncertaintyS }) => uncertaintyS !== null) ?? -1;
    const place = found?.members[best];
    if (!found || !place) return { recorded, sure: false, errorS: NaN, printedS: 0 };
    // What happens is written late: in the record the clip lies that much after its true place.
    const errorS = wrongRide ? NaN : place.offsetS + lagS(seed) - filmed[best]!.startS;
    const printedS = signalsErrorS(place.uncertaintyS!);
    if (found.sure && !(Math.abs(errorS) <= Math.max(2, printedS)))
      console.log(
        `WRONG seed ${seed}, ${clock}, wrong ride ${wrongRide}: error ${errorS.toFixed(1)}, printed ${printedS.toFixed(1)}, ` +
          `evidence ${found.evidence.toFixed(1)}, gap ${found.gap.toFixed(1)}, lead ${found.lead.toFixed(1)}, ` +
          `help ${found.help.toFixed(1)}, without its best moments ${found.withoutBest.toFixed(1)}`,
      );
    return { recorded, sure: found.sure, errorS, printedS };
  });
}

const line = (cells: readonly (string | number)[]) => console.log(`| ${cells.join(" | ")} |`);
line(["signals (simulated)", "n", "sure", "wrong", "beyond the printed error", "median error, s"]);
line(["---", "---", "---", "---", "---", "---"]);
const total = { n: 0, sure: 0, wrong: 0, beyond: 0, wrongRide: 0, sureThere: 0 };
for (const model of (["first", "second"] as const).filter(
  (one) => (process.env.FOLLOWCAR_BENCH_NOISE ?? one) === one,
)) {
  for (const [kind, gyro, clips] of [
    ["picture and sound", false, 1],
    ["gyroscope beside", true, 1],
    ["three clips together", false, 3],
  ] as const) {
    for (const lengthMin of minutes) {
      // A camera's clips together are asked of the shortest alone.
      if (clips > 1 && lengthMin !== minutes[0]) continue;
      if (!kind.includes(process.env.FOLLOWCAR_BENCH_ROWS ?? "")) continue;
      const found: Record<(typeof CLOCKS)[number], Found[]> = {
        "no clock": [],
        "clock right": [],
        "clock names another place": [],
      };
      const there = [0, 0];
      const unrecorded = [0, 0, 0];
      for (let k = 0; k < pairs + wrongPairs; k++) {
        const wrongRide = k >= pairs;
        const seed = firstSeed * 10_007 + 1000 * lengthMin + 100_003 * clips + k + (model === "first" ? 0 : 500_009);
        solvePair(model, gyro, lengthMin * 60, wrongRide, clips, seed).forEach((one, c) => {
          if (wrongRide) {
            there[0]! += 1;
            there[1]! += one.sure ? 1 : 0;
          } else if (one.recorded) found[CLOCKS[c]!].push(one);
          else {
            unrecorded[0]! += 1;
            unrecorded[1]! += one.sure ? 1 : 0;
            unrecorded[2]! += one.sure && !(Math.abs(one.errorS) <= Math.max(2, one.printedS)) ? 1 : 0;
          }
        });
      }
      for (const clock of CLOCKS) {
        const sure = found[clock].filter((one) => one.sure);
        const errors = sure.map(({ errorS }) => Math.abs(errorS)).sort((a, b) => a - b);
        const wrong = sure.filter(({ errorS, printedS }) => !(Math.abs(errorS) <= Math.max(2, printedS))).length;
        const beyond = sure.filter(({ errorS, printedS }) => !(Math.abs(errorS) <= printedS)).length;
        line([
          `${kind}, ${lengthMin} min, ${clock}, ${model} noise`,
          found[clock].length,
          sure.length,
          wrong,
          beyond,
          errors.length > 0 ? errors[errors.length >> 1]!.toFixed(2) : "-",
        ]);
        total.n += found[clock].length;
        total.sure += sure.length;
        total.wrong += wrong;
        total.beyond += beyond;
      }
      if (unrecorded[0]! > 0)
        line([`${kind}, ${lengthMin} min, hardly recorded, ${model} noise`, ...unrecorded, "-", "-"]);
      total.wrong += unrecorded[2]!;
      line([`${kind}, ${lengthMin} min, on the wrong ride, ${model} noise`, there[0]!, there[1]!, there[1]!, "-", "-"]);
      total.wrongRide += there[0]!;
      total.sureThere += there[1]!;
    }
  }
}
line(["all on the right ride", total.n, total.sure, total.wrong, total.beyond, ""]);
line(["all on the wrong ride", total.wrongRide, total.sureThere, total.sureThere, "", ""]);
