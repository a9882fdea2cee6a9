import { motionAt, type DemoTruth } from "../demoTruth.ts";
import { TRAIN_HALF_M } from "./paintCrossing.ts";
import type { SceneInstant } from "./view.ts";

const TRAIN_MPS = 15;
/** The train's middle is on the road so long after the wheels stopped, s. */
const TRAIN_AFTER_S = 13;
/** The boom moves for this long, s, and is up this long before the wheels turn again. */
const BOOM_S = 4;
const BOOM_UP_BEFORE_S = 1.5;
const BOOM_DOWN_BEFORE_S = 14;

/** What the scene needs to know of a ride time. */
export function sceneInstantAt(truth: DemoTruth, rideS: number): SceneInstant {
  const { motion } = truth;
  const crankTurns = motionAt(motion, motion.crankTurns, rideS);
  const turned = motionAt(motion, motion.crankTurns, rideS + 0.4) - motionAt(motion, motion.crankTurns, rideS - 0.4);
  return {
    rideS,
    distanceM: motionAt(motion, motion.distanceM, rideS),
    speedMps: motionAt(motion, motion.speedMps, rideS),
    crankTurns,
    pedalling: Math.min(1, turned / 0.5),
    crossing: crossingAt(truth, rideS),
  };
}

/** Boom and train of the level crossing; it closes before the rider comes and opens before he leaves. */
export function crossingAt(truth: DemoTruth, rideS: number): SceneInstant["crossing"] {
  const stop = truth.events.find((e) => e.kind === "level crossing");
  if (!stop) return { boom: 0, trainM: null };
  const downS = stop.startS - BOOM_DOWN_BEFORE_S;
  const upS = stop.endS - BOOM_UP_BEFORE_S - BOOM_S;
  const boom = Math.max(0, Math.min(1, (rideS - downS) / BOOM_S, (upS + BOOM_S - rideS) / BOOM_S));
  const trainM = (rideS - stop.startS - TRAIN_AFTER_S) * TRAIN_MPS;
  return { boom, trainM: Math.abs(trainM) < TRAIN_HALF_M + 80 ? trainM : null };
}
