import { describe, expect, it } from "vitest";
import type { Reading } from "../../main/contract/reading.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { read } from "../../main/reading/read.ts";
import { makeRide } from "../support/makeRide.ts";
import { calibrationRide, cells, type Cell } from "../bench/calibrationRides.ts";

const stopped = cells.find(({ name }) => name === "stops 180, creep .02") as Cell;
const plan = defaultPlan({ targetW: 200, toleranceW: 20, warmUpS: 600, coolDownS: 300 });

/** One ride as three recorders write it: without a break, with a paused timer, and with records that just end and go on. */
function recorded(index: number) {
  const made = calibrationRide(stopped, index);
  const seconds = made.powerW.length;
  const timeS = Array.from({ length: seconds }, (_, s) => s);
  const speedMps = Float64Array.from(made.standing, (stands) => (stands === 1 ? 0 : 8.5));
  let far = 0;
  const distanceM = speedMps.map((mps) => (far += mps));
  const columns = { powerW: made.powerW, heartRateBpm: made.heartBpm, speedMps, distanceM };
  const pauses: { startS: number; endS: number }[] = [];
  for (let s = 0; s < seconds; s++) {
    if (made.standing[s] !== 1) continue;
    let end = s;
    while (end < seconds && made.standing[end] === 1) end++;
    // A recorder notices a stop two seconds late.
    if (end - s > 8) pauses.push({ startS: s + 2, endS: end });
    s = end;
  }
  const kept = timeS.filter((t) => !pauses.some((one) => t > one.startS && t < one.endS));
  const pick = (column: ArrayLike<number>) => kept.map((t) => column[t]!);
  return {
    whole: makeRide(columns),
    paused: makeRide({ ...columns, pauses, dropPaused: true }),
    silent: makeRide({
      timeS: kept,
      powerW: pick(columns.powerW),
      heartRateBpm: pick(columns.heartRateBpm),
      speedMps: pick(columns.speedMps),
      distanceM: pick(columns.distanceM),
    }),
  };
}

const told = ({ drift, target, pressure, warnings }: Reading) => ({
  verdict: drift.verdict,
  drift: Math.round(drift.driftBeats ?? NaN),
  shown: drift.isShown,
  first: Math.round(drift.firstBpm ?? NaN),
  last: Math.round(drift.lastBpm ?? NaN),
  held: target.held,
  lapses: pressure.lapses,
  missing: warnings.filter(({ code }) => code === "heart-mostly-missing").length,
  confounds: drift.confounds.filter(({ kind }) => kind === "heart missing" || kind === "power missing"),
});

describe("pauses of the recorder are pauses, not missing data", () => {
  it.each([0, 1, 2, 3])("ride %d gives the same verdict with and without auto-pause", (index) => {
    const { whole, paused, silent } = recorded(index);
    const verdict = told(read(whole, plan, []));
    expect(told(read(paused, plan, []))).toEqual(verdict);
    expect(told(read(silent, plan, []))).toEqual(verdict);
  });

  it("a fifth of the ride at stands of four minutes leaves the drift as it is", () => {
    const seconds = 7200;
    const timeS = Array.from({ length: seconds }, (_, s) => s);
    const stands = (s: number) => s > 1500 && s % 1200 < 240;
    const still = (s: number) => (stands(s) ? 0 : 1);
    const columns = {
      powerW: timeS.map((s) => still(s) * (200 + ((s * 31) % 21) - 10)),
      heartRateBpm: timeS.map((s) => 130 + [0, -1, 0, 1][s % 4]!),
      speedMps: timeS.map((s) => 8 * still(s)),
    };
    const pauses = timeS.filter((s) => stands(s) && !stands(s - 1)).map((startS) => ({ startS, endS: startS + 240 }));
    const reading = read(makeRide({ ...columns, pauses, dropPaused: true }), plan, []);
    expect(reading.warnings.map(({ code }) => code)).not.toContain("heart-mostly-missing");
    expect(reading.drift.firstBpm).not.toBeNull();
  });
});
