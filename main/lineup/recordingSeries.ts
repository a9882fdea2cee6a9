import { SIGNAL_STEP_S, type ClipSignals } from "../contract/signals.ts";
import type { Recording } from "./recordings.ts";
import type { Feature, FeatureSeries } from "./signals/featureScores.ts";

/** The signals of a recording's chapters on its one timeline. */
export function recordingSeries(recording: Recording, signals: readonly ClipSignals[]): FeatureSeries {
  const cells = Math.ceil(recording.durationS / SIGNAL_STEP_S);
  const of = (feature: Feature): Float64Array | null => {
    const out = new Float64Array(cells).fill(NaN);
    let any = false;
    recording.clips.forEach((clip, k) => {
      const own = signals.find((s) => s.clipId === clip.id)?.[feature];
      if (!own) return;
      any = true;
      const from = Math.round(recording.startS[k] / SIGNAL_STEP_S);
      out.set(own.subarray(0, Math.max(0, cells - from)), from);
    });
    return any ? out : null;
  };
  return { motion: of("motion"), sound: of("sound"), turning: of("turning") };
}
