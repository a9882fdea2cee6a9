import { SIGNAL_STEP_S } from "../../main/contract/signals.ts";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { placeClips } from "../../main/lineup/placeClips.ts";
import { rideSeries } from "../../main/lineup/signals/rideSeries.ts";
import { parseRide } from "../../main/ride/parseRide.ts";
import { madeClip } from "../lineup/madeClip.ts";
import { simulateClip } from "../lineup/simulateSignals.ts";

const SENSOR_HZ = 200;

/**
 * What line-up by signals costs beside reading them: the camera's gyroscope and accelerometer of 200 samples a second are
 * brought onto the signals' grid and all is held against the ride. Prints processor time, so that a busy machine counts
 * little, and the error. `simulated`.
 *
 * @param minutes length of the clip, at most that of the demo's ride less 5 minutes
 */
export function benchLineupSensed(minutes: number): void {
  const truth = demoRide(2);
  const ride = parseRide(demoRideFile(truth), "ride.fit");
  const durationS = Math.min(minutes * 60, truth.durationS - 300);
  const { series, sensed, startS } = simulateClip(rideSeries(ride), durationS, 5);
  const samples = Math.floor(durationS * SENSOR_HZ);
  const mediaS = Float64Array.from({ length: samples }, (_, k) => (k + 0.5) / SENSOR_HZ);
  const stepOf = (k: number) => Math.min(sensed.swing!.length - 1, Math.floor(mediaS[k]! / SIGNAL_STEP_S));
  const level = new Float64Array(samples);
  const turning = level.map((_, k) => (sensed.swing![stepOf(k)]! * Math.PI) / 180);
  const weight = level.map((_, k) => 9.81 + (k % 2 ? 1 : -1) * Math.exp(sensed.shake![stepOf(k)]!));
  const telemetry = {
    clipId: "a",
    positions: null,
    utc: null,
    gyro: { mediaS, axes: [turning, level, level] as const },
    acceleration: { mediaS, axes: [weight, level, level] as const },
    bytesRead: 0,
    lacks: [],
  };
  const signals = { clipId: "a", count: series.motion!.length, ...series, bytesRead: null, lacks: [] };
  const before = process.cpuUsage();
  const { clips } = placeClips({
    ride,
    clips: [madeClip("a", durationS, { createdUtcMs: null })],
    anchors: [],
    deviceDelayS: 0,
    signals: [signals],
    telemetry: [telemetry],
  });
  const { user, system } = process.cpuUsage(before);
  const { found, verdict } = clips[0]!;
  console.log(
    `${(durationS / 60).toFixed(0)} min, signals known, gyroscope and accelerometer of ${SENSOR_HZ} Hz: held against the ride in ` +
      `${((user + system) / 1e6).toFixed(1)} s of processor time; ${verdict}, ` +
      `${found ? Math.abs(found.offsetS - startS).toFixed(2) : "?"} s off`,
  );
}
