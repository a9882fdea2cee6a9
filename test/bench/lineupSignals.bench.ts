/**
 * Line-up by signals against truth: real rides, simulated cameras. Prints a table; run with FOLLOWCAR_DATA naming a folder
 * that holds fit/*.fit. These figures are `simulated`: the noise model is our own.
 *
 * Half of the pairs are on the wrong ride, where nothing may be sure. No clock prior is used, but for the last line, where
 * each clip is solved again with a clock of three readings an hour apart, one of them right within 30 s, and with one
 * that names another place in the ride.
 */
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { readRide } from "../../main/ride/readRide.edge.ts";
import { rideSeries } from "../../main/lineup/signals/rideSeries.ts";
import { rideForSignals, type RideForSignals } from "../../main/lineup/signals/memberPlaces.ts";
import { priorOf } from "../../main/lineup/placeBySignals.ts";
import { solveGroup } from "../../main/lineup/signals/solveGroup.ts";
import { SIGNAL_STEP_S } from "../../main/contract/signals.ts";
import { rideStops } from "../../main/lineup/signals/stopEdges.ts";
import { seeded, simulateClip } from "../lineup/simulateSignals.ts";

const folder = process.env["FOLLOWCAR_DATA"];
const pairs = Number(process.env["PAIRS"] ?? 400);
const firstSeed = Number(process.env["SEED"] ?? 1);
if (!folder) throw new Error("FOLLOWCAR_DATA must name a folder with fit/*.fit");

const rides: RideForSignals[] = [];
for (const name of readdirSync(join(folder, "fit"))
  .filter((n) => !n.startsWith("bad") && !n.startsWith("odd"))
  .sort()) {
  try {
    const ride = await readRide(join(folder, "fit", name));
    const series = rideSeries(ride);
    const known = series.speedMps.filter(Number.isFinite).length;
    if (ride.elapsedS > 2400 && known > 0.3 * series.speedMps.length && series.turning.some(Number.isFinite))
      rides.push(rideForSignals(series, ride.elapsedS));
  } catch {
    // not a ride for this bench
  }
}
console.log(`${rides.length} rides, ${pairs} pairs`);

const minutes = [1, 3, 8, 20, 60];
interface Row {
  readonly minutes: number;
  readonly wrongRide: boolean;
  readonly mount: string;
  readonly sure: boolean;
  readonly errorS: number;
  /** Whether the error lies within what was stated. */
  readonly covered: boolean;
  /** Sure, and if so within 2 s, with a clock that is right and one that is wrong. */
  readonly byClock: readonly { readonly sure: boolean; readonly right: boolean }[];
  readonly listed: boolean;
  readonly seconds: number;
  /** By the ride's own record: it comes to a halt and goes on, and bends by 30 degrees or more, while the clip runs. */
  readonly stopAndTurn: boolean;
  /** Rules that refused it. */
  readonly doubts: readonly string[];
}

/** Whether the ride, while a clip runs, sets off again after a stop (speed through 1 m/s, or a gap in which it stood) and turns by 30 degrees within 8 s. */
function hasStopAndTurn({ series }: RideForSignals, startS: number, durationS: number): boolean {
  const inside = (t: number) => t > startS + 2 && t < startS + durationS - 2;
  const stop = rideStops(series.seenMps).some((edge) => inside(edge.atS));
  const from = Math.max(0, Math.round(startS / SIGNAL_STEP_S));
  const turning = series.turning.subarray(from, from + Math.round(durationS / SIGNAL_STEP_S));
  const span = Math.round(8 / SIGNAL_STEP_S);
  let turn = false;
  for (let k = 0; k + span < turning.length && !turn; k += 4) {
    let bentDeg = 0;
    for (let j = k; j < k + span; j++) bentDeg += Number.isFinite(turning[j]) ? turning[j] * SIGNAL_STEP_S : 0;
    turn = Math.abs(bentDeg) >= 30;
  }
  return stop && turn;
}
const rows: Row[] = [];
for (let k = 0; k < pairs; k++) {
  const lengthMin = minutes[k % minutes.length];
  const wrongRide = Math.floor(k / minutes.length) % 2 === 1;
  // Drawn by chance, so that no length meets some rides only.
  const next = seeded(firstSeed * 100_003 + k);
  const own = Math.floor(next() * rides.length);
  const from = rides[own];
  const onto = wrongRide ? rides[(own + 1 + Math.floor(next() * (rides.length - 1))) % rides.length] : from;
  const durationS = Math.min(lengthMin * 60, 0.8 * from.elapsedS);
  const clip = simulateClip(from.series, durationS, firstSeed * 100_000 + k);
  const began = performance.now();
  const found = solveGroup([{ series: clip.series, afterFirstS: 0 }], onto, () => 0, 0);
  const seconds = (performance.now() - began) / 1000;
  const errorS = found && !wrongRide ? found.members[0].offsetS - clip.startS : NaN;
  const covered = Math.abs(errorS) <= (found?.members[0].uncertaintyS ?? Infinity);
  const clocks = [
    clip.startS + 60 * (next() - 0.5),
    (clip.startS + (0.2 + 0.6 * next()) * onto.elapsedS) % onto.elapsedS,
  ];
  const byClock = clocks.map((clockS) => {
    const readings = [0, -60, 60].map((zoneMin) => ({
      startsS: [clockS + zoneMin * 60],
      zoneMin,
      weight: 1 / 3,
      mark: "start" as const,
    }));
    const again = solveGroup(
      [{ series: clip.series, afterFirstS: 0 }],
      onto,
      priorOf(readings, null, onto.elapsedS),
      0,
    );
    return {
      sure: again?.sure ?? false,
      right: !wrongRide && again !== null && Math.abs(again.members[0].offsetS - clip.startS) <= 2,
    };
  });
  const listed = found?.candidates.some((c) => Math.abs(c.startS - clip.startS) < 2) ?? false;
  rows.push({
    minutes: lengthMin,
    wrongRide,
    mount: clip.mount,
    sure: found?.sure ?? false,
    errorS,
    covered,
    byClock,
    listed,
    seconds,
    stopAndTurn: hasStopAndTurn(from, clip.startS, durationS),
    doubts: found?.doubts ?? ["no signal"],
  });
  if (found?.sure && (wrongRide || Math.abs(errorS) > 2))
    console.log(
      `WRONG pair ${k}: ${lengthMin} min, wrong ride ${wrongRide}, error ${errorS.toFixed(1)}, evidence ` +
        `${found.evidence.toFixed(1)}, gap ${found.gap.toFixed(1)}, lead ${found.lead.toFixed(1)}, without its ` +
        `best moments ${found.withoutBest.toFixed(1)}`,
    );
  if (k % 50 === 49) console.log(`... ${k + 1}`);
}
const share = (part: number, of: number) => (of === 0 ? "-" : `${((100 * part) / of).toFixed(1)} %`);
const median = (values: number[]) => [...values].sort((a, b) => a - b)[values.length >> 1] ?? NaN;
console.log("simulated | min | mount  | pairs | sure | median error s | worst error s | truth among 3 | s a pair");
for (const length of minutes) {
  for (const mount of ["helmet", "bars"]) {
    const right = rows.filter((row) => !row.wrongRide && row.minutes === length && row.mount === mount);
    const sure = right.filter((row) => row.sure);
    const errors = sure.map((row) => Math.abs(row.errorS));
    console.log(
      `          | ${length} | ${mount} | ${right.length} | ${share(sure.length, right.length)} | ` +
        `${median(errors).toFixed(2)} | ${Math.max(0, ...errors).toFixed(2)} | ` +
        `${share(right.filter((r) => r.listed).length, right.length)} | ` +
        `${median(right.map((r) => r.seconds)).toFixed(1)}`,
    );
  }
}
const right = rows.filter((row) => !row.wrongRide);
const wrong = rows.filter((row) => row.wrongRide);
const sure = right.filter((row) => row.sure);
const errors = sure.map((row) => Math.abs(row.errorS));
console.log(
  `right ride: sure ${sure.length}/${right.length}, of these more than 2 s off ` +
    `${errors.filter((e) => e > 2).length}; median error ${median(errors).toFixed(2)} s, worst ` +
    `${Math.max(0, ...errors).toFixed(2)} s`,
);
console.log(
  `right ride, sure: error within the stated one ${share(sure.filter((row) => row.covered).length, sure.length)}`,
);
console.log(`wrong ride: sure ${wrong.filter((row) => row.sure).length}/${wrong.length}`);
console.log("simulated, clips with a stop and a turn by the ride's record | min | pairs | sure");
for (const length of minutes) {
  const told = right.filter((row) => row.minutes === length && row.stopAndTurn);
  console.log(`          | ${length} | ${told.length} | ${share(told.filter((row) => row.sure).length, told.length)}`);
}
console.log(
  "simulated, right ride refused | min | refused | best place right all the same | rules that refused (of those: the only one)",
);
for (const length of minutes) {
  const refused = right.filter((row) => row.minutes === length && !row.sure);
  const found = refused.filter((row) => Math.abs(row.errorS) <= 2);
  const names = [...new Set(found.flatMap((row) => row.doubts))];
  const rules = names.map(
    (name) =>
      `${name}: ${found.filter((row) => row.doubts.includes(name)).length} (` +
      `${found.filter((row) => row.doubts.length === 1 && row.doubts[0] === name).length})`,
  );
  console.log(`          | ${length} | ${refused.length} | ${found.length} | ${rules.join(", ")}`);
}
["right", "wrong"].forEach((clock, c) => {
  const told = right.filter((row) => row.byClock[c].sure);
  console.log(
    `simulated, a ${clock} clock beside: right ride sure ${told.length}/${right.length}, of these more than ` +
      `2 s off ${told.filter((row) => !row.byClock[c].right).length}; wrong ride sure ` +
      `${wrong.filter((row) => row.byClock[c].sure).length}/${wrong.length}`,
  );
});
