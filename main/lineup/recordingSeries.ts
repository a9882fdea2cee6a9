import { SIGNAL_STEP_S, type ClipSignals } from "../contract/signals.ts";
import type { ClipTelemetry } from "../contract/telemetry.ts";
import type { Recording } from "./recordings.ts";
import { cameraMotion, type CameraMotion } from "./signals/cameraMotion.ts";
import { FEATURES, type Feature, type FeatureSeries } from "./signals/featureScores.ts";

/** What was seen and heard of a clip, with what its camera's own sensors felt. */
export type SensedSignals = ClipSignals & CameraMotion;

/** Signals with what the cameras' sensors felt; where a gyroscope tells the turning, the picture's is not asked beside it. */
export function sensedSignals(
  signals: readonly ClipSignals[],
  telemetry: readonly ClipTelemetry[],
): readonly SensedSignals[] {
  return signals.map((seen) => {
    const own = telemetry.find(({ clipId }) => clipId === seen.clipId);
    const felt = own ? cameraMotion(own, seen.count) : { swing: null, shake: null };
    return { ...seen, ...felt, turning: felt.swing ? null : seen.turning };
  });
}

/** Whether there is anything to hold against the ride. */
export function hasAny(series: FeatureSeries): boolean {
  return FEATURES.some((feature) => series[feature] !== null);
}

/** The signals of a recording's chapters on its one timeline. */
export function recordingSeries(recording: Recording, signals: readonly SensedSignals[]): FeatureSeries {
  const cells = Math.ceil(recording.durationS / SIGNAL_STEP_S);
  const of = (feature: Feature): Float64Array | null => {
    const out = new Float64Array(cells).fill(NaN);
    let any = false;
    recording.clips.forEach((clip, k) => {
      const own = signals.find((s) => s.clipId === clip.id)?.[feature];
      if (!own) return;
      any = true;
      const from = Math.round(recording.startS[k]! / SIGNAL_STEP_S);
      out.set(own.subarray(0, Math.max(0, cells - from)), from);
    });
    return any ? out : null;
  };
  return {
    motion: of("motion"),
    sound: of("sound"),
    turning: of("turning"),
    swing: of("swing"),
    shake: of("shake"),
  };
}
