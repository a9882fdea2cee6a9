import { basename, resolve } from "node:path";
import { Failure } from "../contract/failure.ts";
import type { Clip, ClipTimecode, Rational } from "../contract/footage.ts";
import type { Tools } from "../contract/tools.ts";
import { clipFacts } from "./clipFacts.ts";
import { ffprobeStreams } from "./ffprobeStreams.edge.ts";
import { fingerprintSource } from "./fingerprint.edge.ts";
import { frameRate } from "./frameRate.ts";
import { topBoxes } from "./mp4/boxes.ts";
import { fileSource, type FileSource } from "./mp4/fileSource.edge.ts";
import { frameTimes } from "./mp4/frameTimes.ts";
import type { Movie, Track } from "./mp4/movie.ts";
import { movieTimeUtcMs } from "./mp4/movieTime.ts";
import { parseMovie } from "./mp4/parseMovie.ts";
import { sampleOffsets, samplesPresent } from "./mp4/sampleOffsets.ts";
import { timecodeOf } from "./mp4/timecode.ts";
import { cameraMarks } from "./telemetry/cameraMarks.ts";
import { telemetryTrack } from "./telemetry/telemetryTrack.edge.ts";
import { orientation } from "./orientation.ts";
import { note, type Note } from "../contract/notice.ts";

/** Box types that may stand first in an MP4 or MOV file (ISO/IEC 14496-12; QuickTime File Format). */
const FIRST_BOXES = new Set(["ftyp", "moov", "mdat", "free", "skip", "wide", "pnot", "uuid", "styp"]);
/** A `moov` box above this is taken for damage: 20 million samples need less. */
const MOOV_LIMIT_BYTES = 512 * 1024 * 1024;

const WHY_NOT: Readonly<Record<string, "missing" | "folder" | "no file">> = {
  ENOENT: "missing",
  EISDIR: "folder",
  ENOTFILE: "no file",
};

async function openClip(path: string): Promise<FileSource> {
  try {
    return await fileSource(path);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    const why = WHY_NOT[code ?? ""] ?? "not opened";
    // Where it was looked for tells a wrong folder from a wrong name.
    throw new Failure("clip-file-unreadable", { path: why === "missing" ? resolve(path) : path, why }, error);
  }
}

/** How a still picture begins: PNG (ISO/IEC 15948, 5.2) and JPEG (ITU-T T.81, B.1: start of image, then a marker). */
const PICTURE_STARTS = [Buffer.from("\x89PNG\r\n\x1a\n", "latin1"), Buffer.from("\xff\xd8\xff", "latin1")];

async function isPicture(source: FileSource): Promise<boolean> {
  const start = Buffer.from(await source.read(0, Math.min(8, source.size)));
  return PICTURE_STARTS.some((known) => start.subarray(0, known.length).equals(known));
}

/** The `moov` box of an MP4 or MOV file, parsed. Failures for an empty file, another kind of file and a missing index. */
export async function readMovie(source: FileSource, fileName: string): Promise<Movie> {
  if (source.size === 0) {
    throw new Failure("clip-empty", { fileName });
  }
  const boxes = await topBoxes(source);
  if (!boxes[0] || !FIRST_BOXES.has(boxes[0].type)) {
    throw new Failure((await isPicture(source)) ? "clip-is-picture" : "clip-no-mp4", { fileName });
  }
  const moov = boxes.find((box) => box.type === "moov");
  if (!moov || moov.cut || moov.end - moov.start > MOOV_LIMIT_BYTES) {
    throw new Failure("clip-without-index", { fileName });
  }
  const movie = parseMovie(await source.read(moov.start, moov.end - moov.start));
  if (!movie) {
    throw new Failure("clip-index-damaged", { fileName });
  }
  return movie;
}

/** `slowedBy` where pictures were taken at more than a tenth above the rate at which they play. */
function slowed(takenPerS: number | null, plays: Rational): Pick<Clip, "slowedBy"> {
  const times = takenPerS === null || plays.num === 0 ? 1 : (takenPerS * plays.den) / plays.num;
  return times > 1.1 ? { slowedBy: times } : {};
}

async function readTimecode(source: FileSource, movie: Movie, video: Track): Promise<ClipTimecode | null> {
  const named = movie.tracks.filter((track) => track.entry?.format === "tmcd");
  const track = named.find((t) => video.timecodeTracks.includes(t.id)) ?? named[0];
  if (!track?.entry) return null;
  const { offsets } = sampleOffsets(track.samples);
  if (offsets.length === 0) return null;
  return timecodeOf(track.entry, await source.read(offsets[0]!, 4));
}

/**
 * What a clip's container says: size, turn, colour, exact frame times after edit lists, claimed time, sound.
 *
 * Reads the container's tables and the file's first and last MiB, never all packets. Throws a `Failure` for a file that
 * is missing, empty, no MP4 or MOV, without index, in fragments, or without a video track.
 */
export async function probeClip(path: string, id: string, tools: Tools): Promise<Clip> {
  const fileName = basename(path);
  const source = await openClip(path);
  try {
    const movie = await readMovie(source, fileName);
    if (movie.fragmented) {
      throw new Failure("clip-in-fragments", { fileName });
    }
    // A still picture attached as a track has one sample; the footage is the longest video track.
    const videos = movie.tracks.filter((track) => track.handler === "vide" && track.samples.count > 0);
    const video = videos.sort((a, b) => b.samples.count - a.samples.count)[0];
    if (!video) {
      throw new Failure("clip-without-picture", { fileName });
    }
    const present = samplesPresent(video.samples, source.size);
    const { timescale, ticks, keyframes, endTicks } = frameTimes(video, movie.timescale, present);
    const frames = { timescale, ticks, keyframes, endTicks };
    if (frames.ticks.length === 0) {
      throw new Failure("clip-without-frames", { fileName });
    }
    const warnings: Note[] = [];
    const durationS = frames.endTicks / frames.timescale;
    if (present < video.samples.count) {
      warnings.push(note("clip-cut-off", { fileName, seconds: durationS }));
    }
    const claimed = [movie.created, video.tkhdCreated, video.mdhdCreated].filter((t) => t !== 0);
    if (claimed.some((t) => Math.abs(t - claimed[0]!) > 2)) {
      warnings.push(note("clip-times-differ", { fileName }));
    }
    const facts = clipFacts(await ffprobeStreams(tools.ffprobe, path, fileName), video.id, fileName);
    const { rate, variable } = frameRate(frames);
    const turn = orientation(video.matrix);
    // Even, as encoders of 4:2:0 pictures need it; coded sizes are even already.
    const squareWidth = 2 * Math.round((facts.widthPx * facts.pixelAspect.num) / facts.pixelAspect.den / 2);
    const sideways = turn.rotationDeg === 90 || turn.rotationDeg === 270;
    return {
      id,
      path,
      fileName,
      bytes: source.size,
      fingerprint: await fingerprintSource(source),
      durationS,
      widthPx: sideways ? facts.heightPx : squareWidth,
      heightPx: sideways ? squareWidth : facts.heightPx,
      codedWidthPx: facts.widthPx,
      codedHeightPx: facts.heightPx,
      rotationDeg: turn.rotationDeg,
      mirrored: turn.mirrored,
      pixelAspect: facts.pixelAspect,
      frameRate: rate,
      variableRate: variable,
      ...slowed(facts.takenPerS, rate),
      frames,
      videoCodec: facts.videoCodec,
      colour: facts.colour,
      audio: facts.audio,
      createdUtcMs: movieTimeUtcMs(movie.created),
      timecode: await readTimecode(source, movie, video),
      camera: facts.camera,
      ...cameraMarks(movie.userTelemetry),
      ...(facts.rewritten ? { rewritten: true as const } : {}),
      ...(facts.filmedAt === null ? {} : { filmedAt: facts.filmedAt }),
      hasTelemetry: (await telemetryTrack(source, movie)) !== null,
      warnings,
    };
  } finally {
    await source.close();
  }
}
