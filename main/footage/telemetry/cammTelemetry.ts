import type { ClipTelemetry, TelemetryLack } from "../../contract/telemetry.ts";
import { trustedFixes, type Fix, type TelemetryPayload } from "./clipTelemetry.ts";
import { fitUtc, gpsEpochUtcMs, type UtcPoint } from "./gpsTime.ts";

/** Bytes of each type's packet with its header of four (camera motion metadata specification, sample format). */
const PACKET_BYTES: Readonly<Record<number, number>> = { 2: 16, 3: 16, 4: 16, 5: 28, 6: 60 };

interface Axes {
  readonly mediaS: number[];
  readonly axes: readonly [number[], number[], number[]];
}

function columns({ mediaS, axes }: Axes): ClipTelemetry["gyro"] {
  if (mediaS.length === 0) return null;
  return {
    mediaS: Float64Array.from(mediaS),
    axes: [Float64Array.from(axes[0]), Float64Array.from(axes[1]), Float64Array.from(axes[2])],
  };
}

/**
 * Place, time and turning from the samples of a `camm` track (the published camera motion metadata specification): one
 * little-endian packet a sample, of types 2 (turning, rad/s), 3 (acceleration, m/s2), 5 (place) and 6 (place with a fix, its
 * time and its speeds). Type 4 is a place in a frame of the writer's own and tells no place on earth. Packets may come in any
 * order; what is cut short or unknown is left out. `createdUtcMs`: the clip's own date, by which writers that put
 * another epoch into type 6 are told.
 */
export function cammTelemetry(
  clipId: string,
  samples: readonly TelemetryPayload[],
  createdUtcMs: number | null,
  bytesRead: number,
): ClipTelemetry {
  const [gyro, acceleration]: [Axes, Axes] = [
    { mediaS: [], axes: [[], [], []] },
    { mediaS: [], axes: [[], [], []] },
  ];
  const [plain, fixed]: [Fix[], Fix[]] = [[], []];
  const points: UtcPoint[] = [];
  let unread = 0;
  for (const { startS: mediaS, bytes } of [...samples].sort((a, b) => a.startS - b.startS)) {
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    const type = bytes.byteLength >= 4 ? view.getUint16(2, true) : -1;
    const needed = PACKET_BYTES[type];
    if (needed === undefined || bytes.byteLength < needed) {
      // Types 0, 1 and 7 are of no use here, and no damage.
      if (![0, 1, 7].includes(type)) unread++;
      continue;
    }
    if (type === 2 || type === 3) {
      const into = type === 2 ? gyro : acceleration;
      into.mediaS.push(mediaS);
      into.axes.forEach((axis, k) => axis.push(view.getFloat32(4 + 4 * k, true)));
    } else if (type === 5) {
      plain.push({
        mediaS,
        latDeg: view.getFloat64(4, true),
        lonDeg: view.getFloat64(12, true),
        speedMps: NaN,
        good: true,
      });
    } else if (type === 6) {
      const good = view.getInt32(12, true) >= 2;
      const [east, north] = [view.getFloat32(44, true), view.getFloat32(48, true)];
      fixed.push({
        mediaS,
        latDeg: view.getFloat64(16, true),
        lonDeg: view.getFloat64(24, true),
        speedMps: Math.hypot(east, north),
        good,
      });
      const utcMs = good ? gpsEpochUtcMs(view.getFloat64(4, true), createdUtcMs) : null;
      if (utcMs !== null) points.push({ mediaS, utcMs });
    }
  }
  const fixes = fixed.length > 0 ? fixed : plain;
  const positions = trustedFixes(fixes);
  const lacks: TelemetryLack[] = [];
  if (unread > 0) lacks.push({ kind: "parts unread", unread, parts: samples.length });
  if (fixes.length === 0) lacks.push({ kind: "no places" });
  else if (!positions) lacks.push({ kind: "no fix" });
  return {
    clipId,
    positions,
    utc: fitUtc(points, "CAMM"),
    gyro: columns(gyro),
    acceleration: columns(acceleration),
    bytesRead,
    lacks,
  };
}
