import { motionAt, type DemoTruth } from "./demoTruth.ts";
import { seededRandom, wandering } from "./seededRandom.ts";
import { writeFit } from "./writeFit.ts";

/**
 * The second rider starts her computer so long after the first, s. Its clock is the satellites', as bike computers have
 * it, but it writes whole seconds, and so is ahead by the rest.
 */
export const SECOND_STARTS_S = 40.4;
/** The gap behind the first wanders about this, s. */
const BEHIND_S = 4;

/**
 * The FIT file of a rider in the first one's wheel: the same road a few seconds later, less power in the shelter, a heart
 * of her own, and a recording that begins later.
 */
export function secondRideFile(truth: DemoTruth): Uint8Array {
  const random = seededRandom(truth.seed + 5000);
  const gap = wandering(random, 0.5, 240);
  const legs = wandering(random, 9, 5);
  const beats = wandering(random, 1.5, 55);
  const east = wandering(random, 1.6, 90);
  const north = wandering(random, 1.6, 90);
  const { motion, records: lead, course } = truth;
  const startS = Math.ceil(SECOND_STARTS_S);
  const roadM = (k: number): number =>
    motionAt(motion, motion.distanceM, Math.max(0, SECOND_STARTS_S + k - BEHIND_S - gap()));
  let lagged = 0;
  let soFarM = roadM(0);
  const startM = soFarM;
  const records = Array.from({ length: lead.count - startS }, (_, k) => {
    const wasM = soFarM;
    soFarM = Math.max(wasM, roadM(k));
    const from = lead.powerW[startS + k - BEHIND_S]!;
    const powerW = from < 20 ? from : Math.max(0, Math.round(0.86 * from + legs()));
    lagged += (powerW - lagged) / 45;
    const cadenceRpm = Math.round(lead.cadenceRpm[startS + k - BEHIND_S]! * 1.04);
    const degrees = 180 / Math.PI / 6371000;
    const fix = course.positionAt(soFarM);
    return {
      utcMs: truth.startUtcMs + (startS + k) * 1000,
      latDeg: fix.latDeg + north() * degrees,
      lonDeg: fix.lonDeg + (east() * degrees) / Math.cos((fix.latDeg * Math.PI) / 180),
      altitudeM: course.elevationMAt(soFarM) + 1.8 + 0.15 * random.normal(),
      heartRateBpm: Math.round(66 + 0.41 * lagged + beats()),
      cadenceRpm,
      distanceM: soFarM - startM,
      speedMps: soFarM - wasM,
      powerW,
    };
  });
  return writeFit({ records, lapPressesUtcMs: [], utcOffsetMin: truth.utcOffsetMin });
}
