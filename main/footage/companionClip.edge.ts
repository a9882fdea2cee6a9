import { readdir } from "node:fs/promises";
import { dirname, join, parse } from "node:path";
import type { Clip } from "../contract/footage.ts";
import { fileSource } from "./mp4/fileSource.edge.ts";
import { frameTimes } from "./mp4/frameTimes.ts";
import { movieTimeUtcMs } from "./mp4/movieTime.ts";
import { samplesPresent } from "./mp4/sampleOffsets.ts";
import { readMovie } from "./probeClip.edge.ts";

/** More files of kindred names than this are not opened. */
const MOST_TRIED = 12;
/** The two may end this many frames apart, and their clocks this far, s. */
const FRAMES_APART = 2;
const CLOCK_APART_S = 2;
const CODECS: Readonly<Record<string, string>> = { avc1: "h264", avc3: "h264", hvc1: "hevc", hev1: "hevc" };

/** Same name under another ending, or the same recording number (the last four digits or more). */
function kindred(a: string, b: string): boolean {
  const number = (name: string) => /\d{4,}(?=\D*$)/.exec(parse(name).name)?.[0] ?? null;
  return parse(a).name.toLowerCase() === parse(b).name.toLowerCase() || (number(a) !== null && number(a) === number(b));
}

async function asCompanion(clip: Clip, path: string): Promise<Clip | null> {
  const source = await fileSource(path);
  try {
    if (source.size === 0 || source.size >= clip.bytes) return null;
    const movie = await readMovie(source, parse(path).base);
    const video = movie.tracks
      .filter(({ handler, samples }) => handler === "vide" && samples.count > 0)
      .sort((a, b) => b.samples.count - a.samples.count)[0];
    if (movie.fragmented || !video?.entry || video.entry.bytes.length < 20) return null;
    // Width and height of a visual sample entry (ISO/IEC 14496-12, 12.1.3).
    const entry = new DataView(video.entry.bytes.buffer, video.entry.bytes.byteOffset);
    const [codedWidthPx, codedHeightPx] = [entry.getUint16(16), entry.getUint16(18)];
    const { timescale, ticks, keyframes, endTicks } = frameTimes(
      video,
      movie.timescale,
      samplesPresent(video.samples, source.size),
    );
    const durationS = endTicks / timescale;
    const frameS = Math.max(clip.durationS / clip.frames.ticks.length, durationS / ticks.length);
    const created = movieTimeUtcMs(movie.created);
    const clocks =
      created === null || clip.createdUtcMs === null
        ? created === clip.createdUtcMs
        : Math.abs(created - clip.createdUtcMs) <= CLOCK_APART_S * 1000;
    if (codedWidthPx >= clip.codedWidthPx || Math.abs(durationS - clip.durationS) > FRAMES_APART * frameS || !clocks)
      return null;
    return {
      ...clip,
      path,
      bytes: source.size,
      durationS,
      codedWidthPx,
      codedHeightPx,
      frames: { timescale, ticks, keyframes, endTicks },
      videoCodec: CODECS[video.entry.format] ?? video.entry.format,
      audio: movie.tracks.some(({ handler }) => handler === "soun") ? clip.audio : null,
      hasTelemetry: movie.tracks.some((track) => track.entry?.format === "gpmd"),
    };
  } finally {
    await source.close();
  }
}

/**
 * The small clip that a camera wrote beside a big one, told by what it holds: a kindred name in the same folder, a
 * smaller picture, the same length to two frames and the same creation time. Null when there is none.
 *
 * It stands for the big clip wherever a small picture will do: name, id, fingerprint and shown size are the big one's;
 * path, frames, codec and telemetry its own. Media times are the same to two frames. Where it has sound, `audio` describes the big one's.
 */
export async function companionClip(clip: Clip): Promise<Clip | null> {
  const folder = dirname(clip.path);
  const own = parse(clip.path).base;
  const names = await readdir(folder).catch((): string[] => []);
  const found: Clip[] = [];
  for (const name of names
    .filter((n) => n !== own && kindred(n, own))
    .sort()
    .slice(0, MOST_TRIED)) {
    // Whatever else is called alike and is no clip is none of our business.
    const companion = await asCompanion(clip, join(folder, name)).catch(() => null);
    if (companion) found.push(companion);
  }
  return found.sort((a, b) => a.bytes - b.bytes)[0] ?? null;
}
