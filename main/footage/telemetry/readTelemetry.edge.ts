import { basename } from "node:path";
import type { Clip } from "../../contract/footage.ts";
import type { ClipTelemetry } from "../../contract/telemetry.ts";
import { fileSource } from "../mp4/fileSource.edge.ts";
import { frameTimes } from "../mp4/frameTimes.ts";
import { sampleOffsets } from "../mp4/sampleOffsets.ts";
import { readMovie } from "../probeClip.edge.ts";
import { cammTelemetry } from "./cammTelemetry.ts";
import { clipTelemetry, type TelemetryPayload } from "./clipTelemetry.ts";
import { telemetryTrack } from "./telemetryTrack.edge.ts";
import { TEXT_FORMATS, textTelemetry } from "./textTelemetry.ts";

/** A payload is a few kB; one that claims more than this is damage. */
const PAYLOAD_LIMIT_BYTES = 16_800_000;

/**
 * Reads a clip's telemetry track (`telemetryTrack`), payload by payload, without touching the picture. Null when it has none.
 * Payloads that lie outside the file are left out.
 */
export async function readTelemetry(clip: Clip): Promise<ClipTelemetry | null> {
  if (!clip.hasTelemetry) return null;
  const source = await fileSource(clip.path);
  try {
    const movie = await readMovie(source, basename(clip.path));
    const track = await telemetryTrack(source, movie);
    if (!track) return null;
    const { offsets, sizes } = sampleOffsets(track.samples);
    const { timescale, ticks, endTicks, samples } = frameTimes(track, movie.timescale, offsets.length);
    const before = source.bytesRead();
    const payloads: TelemetryPayload[] = [];
    for (let k = 0; k < samples.length; k++) {
      const sample = samples[k]!;
      if (sizes[sample]! > PAYLOAD_LIMIT_BYTES || offsets[sample]! + sizes[sample]! > source.size) continue;
      const bytes = await source.read(offsets[sample]!, sizes[sample]!);
      payloads.push({ startS: ticks[k]! / timescale, endS: (ticks[k + 1] ?? endTicks) / timescale, bytes });
    }
    const bytesRead = source.bytesRead() - before;
    const format = track.entry?.format ?? "";
    if (TEXT_FORMATS.includes(format)) return textTelemetry(clip.id, payloads, bytesRead);
    return format === "camm"
      ? cammTelemetry(clip.id, payloads, clip.createdUtcMs, bytesRead)
      : clipTelemetry(clip.id, payloads, bytesRead);
  } finally {
    await source.close();
  }
}
