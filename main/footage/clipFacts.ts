import { Failure } from "../contract/failure.ts";
import type { ClipAudio, ClipColour, Place, Rational } from "../contract/footage.ts";
import { iso6709Place } from "./telemetry/placeText.ts";
import type { Probed, ProbedStream } from "./probed.ts";

export interface ClipFacts {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly pixelAspect: Rational;
  readonly videoCodec: string;
  readonly colour: ClipColour;
  readonly audio: ClipAudio | null;
  readonly camera: string | null;
  readonly filmedAt: Place | null;
  /** Pictures a second at which it was taken, where the file states that apart from the rate at which it plays; else null. */
  readonly takenPerS: number | null;
  /** The file was written by ffmpeg's library, as cameras' own files are not: it may have been trimmed. */
  readonly rewritten: boolean;
}

/** ffprobe's words for "not said". */
const UNSAID = new Set(["unknown", "unspecified", "reserved", "N/A", ""]);

function said(value: string | undefined): string | null {
  return value === undefined || UNSAID.has(value) ? null : value;
}

function pixelAspectOf(text: string | undefined): Rational {
  const [num, den] = (text ?? "").split(":").map(Number);
  return num && den && num > 0 && den > 0 ? { num, den } : { num: 1, den: 1 };
}

function colourOf(stream: ProbedStream): ClipColour {
  const transfer = said(stream.color_transfer);
  const pixels = stream.pix_fmt ?? "";
  return {
    range: stream.color_range === "pc" || pixels.startsWith("yuvj") ? "pc" : "tv",
    primaries: said(stream.color_primaries),
    transfer,
    matrix: said(stream.color_space),
    bitDepth: /p1[0-6](le|be)?$|^p01[0-6]/.test(pixels) ? 10 : 8,
    hdr: transfer === "smpte2084" || transfer === "arib-std-b67",
  };
}

/** The rate of taking that Android's open source recorder writes (`com.android.capture.fps`; from memory). */
function takenPerSOf(probed: Probed): number | null {
  const stated = Object.entries(probed.format?.tags ?? {}).find(
    ([key]) => key.toLowerCase() === "com.android.capture.fps",
  );
  const perS = Number(stated?.[1]);
  return stated && perS > 0 && perS < 100_000 ? perS : null;
}

/** The point that phones write (ISO 6709), under the keys of QuickTime's metadata and of its user data (`\u00a9xyz`). */
function filmedAtOf(probed: Probed): Place | null {
  for (const [key, value] of Object.entries(probed.format?.tags ?? {})) {
    const place = /^(location(-\w+)?|com\.apple\.quicktime\.location\.iso6709)$/i.test(key)
      ? iso6709Place(value)
      : null;
    if (place) return place;
  }
  return null;
}

/** Maker and model from the tags that cameras write; the handler's name where it is a camera's own. */
function cameraOf(probed: Probed, video: ProbedStream): string | null {
  const tags: Record<string, string> = {};
  for (const [key, value] of Object.entries(probed.format?.tags ?? {})) tags[key.toLowerCase()] = value.trim();
  const first = (...names: string[]) => names.map((name) => tags[name]).find((value) => value);
  const make = first("make", "com.apple.quicktime.make", "com.android.manufacturer");
  const model = first("model", "com.apple.quicktime.model", "com.android.model");
  const named = [make, model].filter(Boolean).join(" ");
  if (named) return named;
  const firmware = first("firmware");
  if (firmware) return firmware;
  const handler = video.tags?.["handler_name"]?.trim() ?? "";
  return handler && !/video ?handler?e?r?$|core media|media handler|mainconcept|^vide$/i.test(handler) ? handler : null;
}

/**
 * Coding, colour, pixel shape, sound and camera of a clip from ffprobe's answer, for the video track with container id
 * `trackId`. Throws a `Failure` when ffprobe knows no decodable video there.
 */
export function clipFacts(probed: Probed, trackId: number, fileName: string): ClipFacts {
  const videos = probed.streams.filter(
    (stream) => stream.codec_type === "video" && stream.disposition?.attached_pic !== 1,
  );
  const video = videos.find((stream) => Number(stream.id) === trackId) ?? videos[0];
  if (!video?.width || !video.height || !video.codec_name) {
    throw new Failure("clip-unknown-coding", { fileName });
  }
  const audio = probed.streams.find(
    (stream) => stream.codec_type === "audio" && stream.codec_name && Number(stream.sample_rate) > 0,
  );
  return {
    widthPx: video.width,
    heightPx: video.height,
    pixelAspect: pixelAspectOf(video.sample_aspect_ratio),
    videoCodec: video.codec_name,
    colour: colourOf(video),
    audio: audio
      ? { codec: audio.codec_name!, sampleRateHz: Number(audio.sample_rate), channels: audio.channels ?? 1 }
      : null,
    camera: cameraOf(probed, video),
    filmedAt: filmedAtOf(probed),
    takenPerS: takenPerSOf(probed),
    rewritten: Object.entries(probed.format?.tags ?? {}).some(
      ([key, value]) => key.toLowerCase() === "encoder" && value.startsWith("Lavf"),
    ),
  };
}
