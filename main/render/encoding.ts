import type { Rational } from "../contract/footage.ts";
import type { Preset } from "./presets.ts";

export type VideoEncoder = "libx264" | "libx265" | "h264_nvenc" | "hevc_nvenc" | "h264_videotoolbox" | "hevc_videotoolbox";

export interface Encoding {
  readonly encoder: VideoEncoder;
  /** Encoder settings, one argument an entry. */
  readonly options: readonly string[];
  /** Two passes at this rate, kbit/s; null: one pass. */
  readonly twoPassKbps: number | null;
}

/** More than this does not look better on a phone, kbit/s. */
const PHONE_CEILING_KBPS = 8000;
/** What of a wished size goes to picture and sound; the rest is the container's. */
const PAYLOAD_SHARE = 0.97;

/** Settings of a preset with an encoder, for a film of a length. */
export function encodingFor(preset: Preset, encoder: VideoEncoder, durationS: number): Encoding {
  const twoPassKbps = preset.sizeMb === null || !encoder.startsWith("libx26") ? null : kbpsFor(preset, preset.sizeMb, durationS);
  const quality = twoPassKbps === null ? qualityOptions(preset, encoder) : ["-preset", preset.speed, "-b:v", `${twoPassKbps}k`];
  const apple = encoder.includes("265") || encoder.startsWith("hevc") ? ["-tag:v", "hvc1"] : [];
  return { encoder, options: ["-c:v", encoder, ...quality, "-pix_fmt", "yuv420p", ...apple], twoPassKbps };
}

function kbpsFor(preset: Preset, sizeMb: number, durationS: number): number {
  const all = (sizeMb * 8000 * PAYLOAD_SHARE) / Math.max(1, durationS);
  return Math.max(100, Math.floor(Math.min(PHONE_CEILING_KBPS, all - preset.audioKbps)));
}

function qualityOptions(preset: Preset, encoder: VideoEncoder): string[] {
  switch (encoder) {
    case "libx264":
      return ["-preset", preset.speed, "-crf", String(preset.crf)];
    case "libx265":
      return ["-preset", preset.speed, "-crf", String(preset.crf + 4), "-x265-params", "log-level=error"];
    case "h264_nvenc":
    case "hevc_nvenc":
      return ["-rc", "vbr", "-cq", String(preset.crf + 3), "-b:v", "0"];
    case "h264_videotoolbox":
    case "hevc_videotoolbox":
      return ["-q:v", String(Math.max(1, 100 - 2 * preset.crf))];
  }
}

/** Every packet of the same length, to the tick. */
export function exactTimes(rate: Rational): string[] {
  return [
    ...["-fps_mode", "passthrough", "-enc_time_base", `${rate.den}/${rate.num}`],
    ...["-video_track_timescale", String(trackTimescale(rate))],
  ];
}

/** Every tag is said, so that none is inherited from a source. */
export const colourTags = ["-color_primaries", "bt709", "-color_trc", "bt709", "-colorspace", "bt709", "-color_range", "tv"];

/** Ticks a second of the video track; a whole multiple of the rate. */
export function trackTimescale(rate: Rational): number {
  return rate.num < 10_000 ? rate.num * Math.ceil(10_000 / rate.num) : rate.num;
}

/** Nothing that a camera wrote about place, time or itself goes into an output. */
export const noMetadata = ["-map_metadata:g", "-1", "-map_metadata:s", "-1", "-map_chapters", "-1"];
