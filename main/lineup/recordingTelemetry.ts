import type { ClipTelemetry, TelemetryPositions } from "../contract/telemetry.ts";
import type { RecordingTelemetry } from "./placeByTelemetry.ts";
import type { Recording } from "./recordings.ts";

function joined(columns: readonly Float64Array[]): Float64Array {
  const all = new Float64Array(columns.reduce((sum, column) => sum + column.length, 0));
  let at = 0;
  for (const column of columns) {
    all.set(column, at);
    at += column.length;
  }
  return all;
}

/** The positions of a recording's chapters on its one timeline, and the best satellite time; null without positions. */
export function recordingTelemetry(
  recording: Recording,
  telemetry: readonly ClipTelemetry[],
): RecordingTelemetry | null {
  const parts: TelemetryPositions[] = [];
  let utc: { startUtcMs: number; sigmaS: number } | null = null;
  recording.clips.forEach((clip, k) => {
    const own = telemetry.find((t) => t.clipId === clip.id);
    const startS = recording.startS[k]!;
    if (own?.positions) parts.push({ ...own.positions, mediaS: own.positions.mediaS.map((t) => t + startS) });
    if (own?.utc && (!utc || own.utc.sigmaS < utc.sigmaS))
      utc = { startUtcMs: own.utc.startUtcMs - startS * 1000, sigmaS: own.utc.sigmaS };
  });
  if (parts.length === 0) return null;
  const found = utc as { startUtcMs: number; sigmaS: number } | null;
  return {
    positions: {
      mediaS: joined(parts.map((p) => p.mediaS)),
      latDeg: joined(parts.map((p) => p.latDeg)),
      lonDeg: joined(parts.map((p) => p.lonDeg)),
      speedMps: joined(parts.map((p) => p.speedMps)),
    },
    startUtcMs: found?.startUtcMs ?? null,
    utcSigmaS: found?.sigmaS ?? null,
  };
}
