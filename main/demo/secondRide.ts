import { motionAt } from "./demoTruth.ts";
import type { DemoTruth } from "./demoTruth.ts";
import { seededRandom, wandering } from "./seededRandom.ts";
import { writeFit } from "./writeFit.ts";

/** The second rider's computer clock is this far ahead of true time, s; the gap behind the first wanders about `BEHIND_S`. */
export const SECOND_CLOCK_AHEAD_S = 12;
const BEHIND_S = 4;

/**
 * The FIT file of a rider in the first one's wheel: the same road a few seconds later, less power in the shelter, a
 * heart of her own, and a clock that is 12 s ahead.
 */
export function secondRideFile(truth: DemoTruth): Uint8Array {
  const random = seededRandom(truth.seed + 5000);
  const gap = wandering(random, 0.5, 240);
  const legs = wandering(random, 9, 5);
  const beats = wandering(random, 1.5, 55);
  const east = wandering(random, 1.6, 90);
  const north = wandering(random, 1.6, 90);
  const { motion, records: lead, course } = truth;
  let lagged = 0;
  let soFarM = 0;
  const records = Array.from({ length: lead.count }, (_, k) => {
    const wasM = soFarM;
    soFarM = Math.max(wasM, motionAt(motion, motion.distanceM, Math.max(0, k - BEHIND_S - gap())));
    const from = lead.powerW[Math.max(0, k - BEHIND_S)];
    const powerW = from < 20 ? from : Math.max(0, Math.round(0.86 * from + legs()));
    lagged += (powerW - lagged) / 45;
    const cadenceRpm = Math.round(lead.cadenceRpm[Math.max(0, k - BEHIND_S)] * 1.04);
    const degrees = 180 / Math.PI / 6371000;
    const fix = course.positionAt(soFarM);
    return {
      utcMs: truth.startUtcMs + (k + SECOND_CLOCK_AHEAD_S) * 1000,
      latDeg: fix.latDeg + north() * degrees,
      lonDeg: fix.lonDeg + (east() * degrees) / Math.cos((fix.latDeg * Math.PI) / 180),
      altitudeM: course.elevationMAt(soFarM) + 1.8 + 0.15 * random.normal(),
      heartRateBpm: Math.round(66 + 0.41 * lagged + beats()),
      cadenceRpm,
      distanceM: soFarM,
      speedMps: k === 0 ? 0 : soFarM - wasM,
      powerW,
    };
  });
  return writeFit({ records, lapPressesUtcMs: [], utcOffsetMin: truth.utcOffsetMin });
}
