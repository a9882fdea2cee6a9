/** What the camera's microphone heard: wind, tyres, chain, freewheel, and at the crossing bell and train. */
import { motionAt, type DemoTruth } from "./demoTruth.ts";
import { seededRandom } from "./seededRandom.ts";
import { crossingAt } from "./scene/sceneInstant.ts";

/** Notches that the freewheel clicks over in a turn of the wheel. */
const NOTCHES = 18;
const BELL_A_SECOND = 2.2;

/**
 * The sound of a span of the ride: mono samples, -32768 to 32767.
 *
 * Wind pressure grows with the square of the air's speed (turbulence on a microphone), so its level follows speed;
 * the freewheel ticks only while the wheel turns faster than the cranks; at a stop hardly anything is left.
 */
export function paintSound(truth: DemoTruth, startS: number, durationS: number, sampleRateHz: number): Int16Array {
  const out = new Int16Array(Math.round(durationS * sampleRateHz));
  const random = seededRandom(truth.seed + 900 + Math.round(startS));
  const { motion } = truth;
  const stepSamples = Math.round(sampleRateHz * motion.stepS);
  // One-pole filters: what a corner frequency keeps.
  const keep = (hz: number): number => 1 - Math.exp((-2 * Math.PI * hz) / sampleRateHz);
  const deep = keep(150);
  const middle = keep(420);
  const treadLow = keep(900);
  const treadHigh = keep(2400);
  const fade = Math.exp(-1 / (0.0022 * sampleRateHz));
  const bellFade = Math.exp(-1 / (0.16 * sampleRateHz));
  const gustStep = keep(0.7);
  let [wind, wind2, low, high, rumble, gust] = [0, 0, 0, 0, 0, 0];
  let [tick, bell, notch, blows, chain] = [0, 0, 0, 0, 0];
  let now = { speed: 0, pedal: 0, free: 0, brake: 0, bell: false, train: 0, crank: 0 };
  for (let i = 0; i < out.length; i++) {
    const rideS = startS + i / sampleRateHz;
    if (i % stepSamples === 0) {
      const free = motionAt(motion, motion.freewheelTurns, rideS);
      const crank = motionAt(motion, motion.crankTurns, rideS);
      const crossing = crossingAt(truth, rideS);
      const distanceM = motionAt(motion, motion.distanceM, rideS);
      const near = Math.exp(-Math.abs(truth.course.railsM - distanceM) / 55);
      now = {
        speed: motionAt(motion, motion.speedMps, rideS),
        pedal: (motionAt(motion, motion.crankTurns, rideS + 0.2) - crank) / 0.2,
        free: (motionAt(motion, motion.freewheelTurns, rideS + motion.stepS) - free) / motion.stepS,
        brake: motionAt(motion, motion.brakingMps2, rideS),
        bell: crossing.boom > 0.02 && near > 0.05,
        train:
          crossing.trainM === null ? 0 : near * Math.exp(-((Math.max(0, Math.abs(crossing.trainM) - 40) / 40) ** 2)),
        crank,
      };
    }
    const white = random.uniform() - 0.5;
    gust += gustStep * (random.uniform() - 0.5 - gust);
    wind += deep * (white - wind);
    wind2 += middle * (wind - wind2);
    low += treadLow * (white - low);
    high += treadHigh * (white - high);
    const rush = (now.speed / 10) ** 2 * (1 + 26 * gust);
    const roll = now.speed / 10;
    let sample = wind2 * 3.4 * Math.max(0.05, rush) * Math.sign(now.speed) + (high - low) * 0.16 * roll;
    // Chain over teeth, louder under the foot's push.
    chain += now.pedal / sampleRateHz;
    if (now.pedal > 0.1)
      sample += (high - low) * 0.1 * (0.5 + 0.5 * Math.cos(chain * 4 * Math.PI)) * Math.min(1, now.pedal);
    // Pads on the rim.
    sample += (white - high) * 0.06 * Math.min(1, now.brake);
    notch += (now.free * NOTCHES) / sampleRateHz;
    if (notch >= 1) {
      notch -= 1;
      tick = 0.3;
    }
    tick *= fade;
    sample += tick * white * 1.1;
    if (now.bell) {
      blows += BELL_A_SECOND / sampleRateHz;
      if (blows >= 1) {
        blows -= 1;
        bell = 0.12 * Math.exp(-Math.abs(truth.course.railsM - motionAt(motion, motion.distanceM, rideS)) / 40);
      }
    }
    bell *= bellFade;
    if (bell > 1e-4) {
      const turn = 2 * Math.PI * rideS;
      sample += bell * (Math.sin(turn * 1180) + 0.6 * Math.sin(turn * 1790) + 0.3 * Math.sin(turn * 2660));
    }
    if (now.train > 0.01) {
      rumble += deep * (white - rumble);
      sample += now.train * (rumble * 2.4 + (high - low) * 0.5 * (0.6 + 0.4 * Math.sin(rideS * 2 * Math.PI * 2.7)));
    }
    // A field's quiet air.
    sample += white * 0.0025;
    out[i] = Math.max(-1, Math.min(1, Math.tanh(sample * 1.3))) * 32000;
  }
  return out;
}
