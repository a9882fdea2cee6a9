import type { Rational } from "../contract/footage.ts";
import type { Preset } from "../contract/presets.ts";

export type VideoEncoder =
  "libx264" | "libx265" | "h264_nvenc" | "hevc_nvenc" | "h264_videotoolbox" | "hevc_videotoolbox";

export interface Encoding {
  readonly encoder: VideoEncoder;
  /** Encoder settings, one argument an entry. */
  readonly options: readonly string[];
}

/** More than this does not look better on a phone, kbit/s. */
export const MOST_KBPS = 8000;
/** How long a film may run above its ceiling, s at it. */
export const BUFFER_S = 1;
/** What of a wished size goes to picture and sound; the rest is the container's. */
const PAYLOAD_SHARE = 0.98;
/** Less than this nobody wants to watch: common practice, no source. */
export const LEAST_KBPS = 300;

/**
 * Settings of a preset with an encoder, for a film of a length. A size is kept with libx264 by a ceiling over constant
 * quality, and with all others by encoding at its mean rate.
 *
 * @param ceilingKbps of this part, of a `sizeBudget`; null: none
 */
export function encodingFor(
  preset: Preset,
  encoder: VideoEncoder,
  durationS: number,
  ceilingKbps: number | null = null,
): Encoding {
  const kbps =
    preset.sizeMb === null || encoder === "libx264"
      ? null
      : Math.max(LEAST_KBPS, Math.floor(Math.min(MOST_KBPS, pictureKbps(preset, preset.sizeMb, durationS))));
  const quality = kbps === null ? qualityOptions(preset, encoder) : rateOptions(preset, encoder, kbps);
  const ceiling =
    ceilingKbps === null ? [] : ["-maxrate", `${ceilingKbps}k`, "-bufsize", `${Math.round(ceilingKbps * BUFFER_S)}k`];
  const apple = encoder.includes("265") || encoder.startsWith("hevc") ? ["-tag:v", "hvc1"] : [];
  return { encoder, options: ["-c:v", encoder, ...quality, ...ceiling, "-pix_fmt", "yuv420p", ...apple] };
}

/** The smallest size that a film of this length can be made to fit, MB, whole. */
export function leastSizeMb(preset: Preset, durationS: number): number {
  return Math.ceil(((LEAST_KBPS + preset.audioKbps) * Math.max(1, durationS)) / (8000 * PAYLOAD_SHARE));
}

/** What a size leaves for the picture, sound and container taken off, kbit/s. */
export function pictureKbps(preset: Preset, sizeMb: number, durationS: number): number {
  return (sizeMb * 8000 * PAYLOAD_SHARE) / Math.max(1, durationS) - preset.audioKbps;
}

function rateOptions(preset: Preset, encoder: VideoEncoder, kbps: number): string[] {
  const software = encoder.startsWith("libx26");
  return [
    ...(software ? ["-preset", preset.speed] : []),
    "-b:v",
    `${kbps}k`,
    ...(encoder === "libx265" ? X265_QUIET : []),
  ];
}

const X265_QUIET = ["-x265-params", "log-level=error"];

function qualityOptions(preset: Preset, encoder: VideoEncoder): string[] {
  switch (encoder) {
    case "libx264":
      return ["-preset", preset.speed, "-crf", String(preset.crf)];
    case "libx265":
      return ["-preset", preset.speed, "-crf", String(preset.crf + 4), ...X265_QUIET];
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
export const colourTags = [
  "-color_primaries",
  "bt709",
  "-color_trc",
  "bt709",
  "-colorspace",
  "bt709",
  "-color_range",
  "tv",
];

/** Ticks a second of the video track; a whole multiple of the rate. */
export function trackTimescale(rate: Rational): number {
  return rate.num < 10_000 ? rate.num * Math.ceil(10_000 / rate.num) : rate.num;
}

/** Nothing that a camera wrote about place, time or itself goes into an output. */
export const noMetadata = ["-map_metadata:g", "-1", "-map_metadata:s", "-1", "-map_chapters", "-1"];
