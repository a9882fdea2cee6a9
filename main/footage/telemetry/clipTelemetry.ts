import type { ClipTelemetry, TelemetryLack, TelemetryPositions, TelemetryUtc } from "../../contract/telemetry.ts";
import { parseGpmf } from "./parseGpmf.ts";
import { fitUtc, gps9UtcMs, gpsuUtcMs, type UtcPoint } from "./gpsTime.ts";
import { sampleTimes, type TimedStream } from "./sampleTimes.ts";

/** A payload of the telemetry track and the media time it covers, s. */
export interface TelemetryPayload {
  readonly startS: number;
  readonly endS: number;
  readonly bytes: Uint8Array;
}

/** Positions settle for some time after lock; those before are left out, s. */
const SETTLE_S = 10;
/** Dilution of precision x 100 above which a fix is not used. */
const WORST_PRECISION = 500;

/** A place that a receiver wrote, and whether its fix can be used. */
export interface Fix {
  readonly mediaS: number;
  readonly latDeg: number;
  readonly lonDeg: number;
  readonly speedMps: number;
  readonly good: boolean;
}

function goodFix(fix: number | null, precision: number | null): boolean {
  // Both are asked: a file shows a 3-D fix with a precision of 9999, another a fine precision without fix.
  return fix !== null && fix >= 2 && precision !== null && precision < WORST_PRECISION;
}

function fixesOf(streams: readonly TimedStream[], key: "GPS5" | "GPS9"): { fixes: Fix[]; utc: TelemetryUtc | null } {
  const times = sampleTimes(streams);
  const fixes: Fix[] = [];
  const points: UtcPoint[] = [];
  let k = 0;
  streams.forEach(({ stream }, payload) => {
    const payloadGood = goodFix(stream.fix, stream.precision);
    const written = stream.utcText === null ? null : gpsuUtcMs(stream.utcText);
    // The first payload carries a stale time.
    if (key === "GPS5" && payloadGood && payload > 0 && written !== null)
      points.push({ mediaS: times[k]!, utcMs: written });
    for (const row of stream.rows) {
      const mediaS = times[k++]!;
      const good = key === "GPS5" ? payloadGood : goodFix(row[8] ?? null, row[7] === undefined ? null : row[7] * 100);
      if (key === "GPS9" && good) {
        const utcMs = gps9UtcMs(row[5]!, row[6]!);
        if (utcMs !== null) points.push({ mediaS, utcMs });
      }
      fixes.push({ mediaS, latDeg: row[0]!, lonDeg: row[1]!, speedMps: row[3]!, good });
    }
  });
  return { fixes, utc: fitUtc(points, key === "GPS5" ? "GPSU" : "GPS9") };
}

function isPlace(fix: Fix): boolean {
  return Math.abs(fix.latDeg) <= 90 && Math.abs(fix.lonDeg) <= 180 && (fix.latDeg !== 0 || fix.lonDeg !== 0);
}

/** Samples of runs with a good fix, from `SETTLE_S` after its start; a run that was there at the first sample counts whole if it lasts that long. */
export function trustedFixes(fixes: readonly Fix[]): TelemetryPositions | null {
  const kept: Fix[] = [];
  for (let from = 0; from < fixes.length; from++) {
    if (!fixes[from]!.good) continue;
    let to = from;
    while (to + 1 < fixes.length && fixes[to + 1]!.good) to++;
    const run = fixes.slice(from, to + 1);
    const settledAt = run[0]!.mediaS + SETTLE_S;
    if (run[run.length - 1]!.mediaS >= settledAt)
      kept.push(...(from === 0 ? run : run.filter((fix) => fix.mediaS >= settledAt)).filter(isPlace));
    from = to;
  }
  if (kept.length === 0) return null;
  return {
    mediaS: Float64Array.from(kept, (fix) => fix.mediaS),
    latDeg: Float64Array.from(kept, (fix) => fix.latDeg),
    lonDeg: Float64Array.from(kept, (fix) => fix.lonDeg),
    speedMps: Float64Array.from(kept, (fix) => fix.speedMps),
  };
}

function threeAxes(streams: readonly TimedStream[]): ClipTelemetry["gyro"] {
  const usable = streams.filter(({ stream }) => stream.rows.every((row) => row.length >= 3));
  if (usable.length === 0) return null;
  const rows = usable.flatMap(({ stream }) => stream.rows);
  const axis = (k: number) => Float64Array.from(rows, (row) => row[k]!);
  return { mediaS: sampleTimes(usable), axes: [axis(0), axis(1), axis(2)] };
}

/**
 * Place, time and turning from the payloads of a telemetry track, in order. Positions come from GPS9 where it is (each
 * sample with its own time and fix), else GPS5; from the first device that has them.
 */
export function clipTelemetry(clipId: string, payloads: readonly TelemetryPayload[], bytesRead: number): ClipTelemetry {
  const byKey = new Map<string, TimedStream[]>();
  let unread = 0;
  for (const payload of payloads) {
    const devices = parseGpmf(payload.bytes);
    if (devices.length === 0) unread++;
    const seen = new Set<string>();
    for (const stream of devices.flatMap((device) => device.streams)) {
      if (seen.has(stream.key)) continue;
      seen.add(stream.key);
      const list = byKey.get(stream.key) ?? [];
      list.push({ payloadStartS: payload.startS, payloadEndS: payload.endS, stream });
      byKey.set(stream.key, list);
    }
  }
  const key = byKey.has("GPS9") ? "GPS9" : "GPS5";
  const gps = byKey.get(key) ?? [];
  const { fixes, utc } = fixesOf(gps, key);
  const positions = trustedFixes(fixes);
  const lacks: TelemetryLack[] = [];
  if (unread > 0) lacks.push({ kind: "parts unread", unread, parts: payloads.length });
  if (fixes.length === 0) lacks.push({ kind: "no places" });
  else if (!positions) lacks.push({ kind: "no fix" });
  return {
    clipId,
    positions,
    utc,
    gyro: threeAxes(byKey.get("GYRO") ?? []),
    acceleration: threeAxes(byKey.get("ACCL") ?? []),
    bytesRead,
    lacks,
  };
}
