import type { ClipTelemetry } from "../../contract/telemetry.ts";
import { trustedFixes, type Fix, type TelemetryPayload } from "./clipTelemetry.ts";
import { fitUtc, type UtcPoint } from "./gpsTime.ts";
import { toldPlace } from "./placeText.ts";

/** Sample entries of timed text: 3GPP TS 26.245, and the QuickTime File Format. */
export const TEXT_FORMATS: readonly string[] = ["tx3g", "text"];

/** The words of a timed text sample: a length of two bytes, then that many bytes of text (both formats). */
export function sampleText(bytes: Uint8Array): string {
  if (bytes.length < 2) return "";
  const length = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength).getUint16(0);
  const words = bytes.subarray(2, 2 + length);
  const wide = words[0] === 0xfe && words[1] === 0xff;
  return new TextDecoder(wide ? "utf-16be" : "utf-8").decode(words);
}

/** Place and time from the samples of a text track that tells places (`toldPlace`); null where none of them tells one. */
export function textTelemetry(
  clipId: string,
  samples: readonly TelemetryPayload[],
  bytesRead: number,
): ClipTelemetry | null {
  const fixes: Fix[] = [];
  const points: UtcPoint[] = [];
  for (const { startS: mediaS, bytes } of samples) {
    const told = toldPlace(sampleText(bytes));
    if (!told) continue;
    fixes.push({ mediaS, latDeg: told.latDeg, lonDeg: told.lonDeg, speedMps: told.speedMps, good: told.good });
    if (told.utcMs !== null && told.good) points.push({ mediaS, utcMs: told.utcMs });
  }
  if (fixes.length === 0) return null;
  const positions = trustedFixes(fixes);
  return {
    clipId,
    positions,
    utc: fitUtc(points, "NMEA"),
    gyro: null,
    acceleration: null,
    bytesRead,
    lacks: positions ? [] : [{ kind: "no fix" }],
  };
}
