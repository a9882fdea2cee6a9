import type { Fit, PictureSize, SlowSound } from "../contract/presets.ts";
import type { Clip, Rational } from "../contract/footage.ts";
import type { Cover } from "../contract/framing.ts";
import type { Film } from "../contract/film.ts";
import { bt709Params, pictureFilters } from "./pictureFilters.ts";
import { closeUpFilters } from "./closeUpFilters.ts";
import { coverChains } from "./coverFilters.ts";
import type { Part, Piece } from "./planParts.ts";
import type { Rect } from "../../overlay/surface.ts";
import type { PacedTiming } from "./pacedFrames.ts";
import { STEP_SLACK, type ShotTiming } from "./shotFrames.ts";
import { SAMPLE_RATE_HZ, soundFilters, type SoundPiece } from "./soundFilters.ts";
import type { ShotSource } from "./planFilm.ts";

/** One source of a part, in the order of ffmpeg's inputs. */
interface PartInput {
  readonly source: string;
  readonly options: readonly string[];
}

/** Where a stream of pictures is laid over the film's. */
interface OverlayPlace {
  readonly x: number;
  readonly y: number;
}

/** A spoken comment of an item. */
export interface PieceComment {
  readonly path: string;
  /** Frames of the item that pass before it begins. */
  readonly startFrame: number;
  /** Null: not known. */
  readonly lengthS: number | null;
}

/** Footage on one half of a pair. */
interface PairHalf {
  readonly clip: Clip;
  readonly covers: readonly Cover[];
  readonly timing: PacedTiming;
  readonly rect: Rect;
}

export interface GraphPiece {
  readonly piece: Piece;
  /** Footage, or the file with a card's one raw picture. */
  readonly source:
    | ShotSource
    /** `groundPath`: the file with the raw picture beneath the footage. */
    | { readonly kind: "pair"; readonly groundPath: string; readonly sides: readonly (PairHalf | null)[] }
    | { readonly kind: "card"; readonly picturePath: string };
  /** A spoken comment, or null. */
  readonly comment: (PieceComment & { readonly gainDb: number }) | null;
}

export interface GraphJob {
  readonly part: Part;
  readonly film: Film;
  readonly pieces: readonly GraphPiece[];
  readonly fit: Fit;
  /** Colour around a padded picture, #rrggbb. */
  readonly margin: string;
  /** The panels' stream on stdin, or null where the part has none. */
  readonly panels: OverlayPlace | null;
  /** A file with the drawings' stream, or null. */
  readonly drawings: (OverlayPlace & { readonly path: string }) | null;
  /** Of slowed shots; null: the part has no sound. */
  readonly sound: SlowSound | null;
}

export interface PartGraph {
  readonly inputs: readonly PartInput[];
  readonly filterGraph: string;
  readonly videoLabel: string;
  readonly audioLabel: string | null;
}

/** Inputs and filter graph of one part: footage at the film's rate and size, crossfades, drawings, panels, sound. */
export function partGraph(job: GraphJob): PartGraph {
  const size: PictureSize = job.film;
  const inputs: PartInput[] = [];
  const chains: string[] = [];
  const add = (input: PartInput): number => inputs.push(input) - 1;

  const pictures = job.pieces.map((graphPiece, k) => {
    const input = add(pieceInput(graphPiece, job.film));
    const { source } = graphPiece;
    if (source.kind !== "pair") {
      const covered = source.kind === "shot" ? coveredInput(source, input) : { chains: [], label: `${input}:v` };
      chains.push(...covered.chains, `[${covered.label}]${pieceFilters(graphPiece, job, size).join(",")}[v${k}]`);
      return input;
    }
    const halves = source.sides.map((half) => (half === null ? null : add(footageInput(half))));
    chains.push(...pairChains(graphPiece, source.sides, input, halves, job, `v${k}`));
    return halves[0] ?? input;
  });
  let video = joinPictures(job, chains);

  if (job.drawings !== null) {
    const input = add({ source: job.drawings.path, options: ["-f", "matroska"] });
    chains.push(
      `[${video}][${input}:v]overlay=${job.drawings.x}:${job.drawings.y}:format=yuv420:eof_action=repeat[vd]`,
    );
    video = "vd";
  }
  if (job.panels !== null) {
    const input = add({ source: "pipe:0", options: ["-f", "matroska"] });
    // Cut here and not by `-frames:v`, which would end the sound with the last picture, wherever it then stood.
    const place = `${job.panels.x}:${job.panels.y}`;
    chains.push(
      `[${video}][${input}:v]overlay=${place}:format=yuv420:eof_action=endall,trim=end_frame=${job.part.frames}[vp]`,
    );
    video = "vp";
  }

  let audioLabel: string | null = null;
  const { sound: slowSound } = job;
  if (slowSound !== null) {
    const sounds = job.pieces.map((graphPiece, k) => {
      const comment = graphPiece.comment === null ? null : add({ source: graphPiece.comment.path, options: [] });
      return soundPiece(graphPiece, job.film.frameRate, pictures[k]!, comment, slowSound);
    });
    const sound = soundFilters(sounds);
    chains.push(...sound.chains);
    audioLabel = sound.label;
  }
  return { inputs, filterGraph: chains.join(";"), videoLabel: video, audioLabel };
}

function pieceInput(graphPiece: GraphPiece, film: Film): PartInput {
  const { source } = graphPiece;
  if (source.kind !== "shot") {
    const layout = ["-f", "rawvideo", "-pixel_format", "yuv420p", "-video_size", `${film.widthPx}x${film.heightPx}`];
    const path = source.kind === "pair" ? source.groundPath : source.picturePath;
    return { source: path, options: [...layout, "-framerate", fraction(film.frameRate)] };
  }
  const { timing } = source;
  // Not `-discard`: with reordered frames ffmpeg 5.1 then reads wrong times off the container's tables.
  const skip = timing.keyframesOnly ? ["-skip_frame", "nokey"] : [];
  const input = footageInput(source);
  return { ...input, options: [...skip, ...input.options] };
}

function footageInput({ clip, timing }: { readonly clip: Clip; readonly timing: { seekS: number; readS: number } }) {
  const seek = ["-seek_timestamp", "1", "-ss", seconds(timing.seekS), "-t", seconds(timing.readS)];
  return { source: clip.path, options: seek };
}

function coveredInput(
  { clip, covers, timing }: { clip: Clip; covers: readonly Cover[]; timing: { seekS: number } },
  input: number,
) {
  return coverChains(clip, covers, `${input}:v`, timing.seekS);
}

/** Each half's footage at its pace, laid on the ground. */
function pairChains(
  graphPiece: GraphPiece,
  sides: readonly (PairHalf | null)[],
  ground: number,
  inputs: readonly (number | null)[],
  job: GraphJob,
  label: string,
): string[] {
  const { frames } = graphPiece.piece;
  const rate = job.film.frameRate;
  const numbered = [`settb=${rate.den}/${rate.num}`, "setpts=N"];
  const halves = sides.flatMap((half, which) => (half === null ? [] : [{ ...half, input: inputs[which]!, which }]));
  const under = `${label}${halves.length === 0 ? "" : "g"}`;
  const still = frames > 1 ? [`loop=loop=${frames - 1}:size=1:start=0`] : [];
  const chains = [`[${ground}:v]${[...still, ...numbered, "setsar=1", bt709Params].join(",")}[${under}]`];
  halves.forEach((half, k) => {
    const { clip, timing, rect, input, which } = half;
    const covered = coveredInput(half, input);
    const size = { widthPx: rect.width, heightPx: rect.height };
    const paced = [
      `settb=${rate.den}/${rate.num}`,
      `setpts='${pacedTicks(timing)}'`,
      `fps=${fraction(rate)}:start_time=0`,
      ...numbered,
      `tpad=stop_mode=clone:stop=${frames}`,
      `trim=end_frame=${frames}`,
      ...pictureFilters(clip, size, "crop", job.margin),
    ];
    const beneath = k === 0 ? under : `${label}o${k - 1}`;
    const out = k === halves.length - 1 ? label : `${label}o${k}`;
    chains.push(
      ...covered.chains,
      `[${covered.label}]${paced.join(",")}[${label}h${which}]`,
      `[${beneath}][${label}h${which}]overlay=${rect.x}:${rect.y}:format=yuv420[${out}]`,
    );
  });
  return chains;
}

/** Film frame at which each delivered frame comes on, as ticks of a film frame. */
function pacedTicks({ shifts }: PacedTiming): string {
  return `N+(${balancedSum(shifts.map(({ from, by }) => `${by}*gte(N,${from})`))})`;
}

/** A sum of any length whose brackets are no deeper than ffmpeg's reader of expressions allows. */
function balancedSum(terms: readonly string[]): string {
  if (terms.length < 3) return terms.join("+") || "0";
  const half = terms.length >> 1;
  return `(${balancedSum(terms.slice(0, half))})+(${balancedSum(terms.slice(half))})`;
}

/** Ticks of the time base in which a clip's frames are put on the film's, at least; no film frame is off by one. */
const FINE_TICKS_A_SECOND = 1e9;

/**
 * The sums of `shotFrames` for ffmpeg's `setpts`, whose registers last from frame to frame: the whole film frame at which
 * each delivered frame comes on, as ticks.
 *
 * @param finer parts of a tick of the clip @param perFrame such parts to a film frame
 */
function filmTicks({ steps, holds }: ShotTiming, finer: number, perFrame: number): string {
  const at = `((PTS-STARTPTS)/${finer}+${steps.fromTicks})/${steps.intervalTicks}`;
  const next = `if(lte(abs(${at}-ld(0)-1),${STEP_SLACK}),ld(0)+1,max(ld(0),floor(${at}+0.5)))`;
  const held = holds.map((hold) => `+gt(N,${hold.afterFrame})*${hold.frames}`).join("");
  const comesOn = `ceil(ld(0)*${steps.filmFrames}-(${steps.sooner}))-${steps.firstFrame}${held}`;
  return `st(0,if(eq(N,0),${steps.fromStep},${next}));round(max(0,${comesOn})*${perFrame})`;
}

function pieceFilters(graphPiece: GraphPiece, job: GraphJob, size: PictureSize): string[] {
  const { piece, source } = graphPiece;
  const rate = job.film.frameRate;
  const numbered = [`settb=${rate.den}/${rate.num}`, "setpts=N"];
  if (source.kind !== "shot") {
    const still = piece.frames > 1 ? [`loop=loop=${piece.frames - 1}:size=1:start=0`] : [];
    return [...still, ...numbered, "setsar=1", bt709Params];
  }
  const { timing, clip, shot } = source;
  const closeUp =
    shot.closeUp === undefined ? null : closeUpFilters(clip, shot, shot.closeUp, size, rate, piece.firstFrame);
  // Past the clip's end its last frame stands; without it the sampler would drop that frame.
  const spareS = (2 * rate.den) / rate.num + 0.1;
  const finer = Math.max(1, Math.floor(FINE_TICKS_A_SECOND / clip.frames.timescale));
  return [
    `settb=1/${clip.frames.timescale * finer}`,
    `setpts='${filmTicks(timing, finer, (clip.frames.timescale * finer * rate.den) / rate.num)}'`,
    `tpad=stop_mode=clone:stop_duration=${spareS.toFixed(3)}`,
    `fps=${fraction(rate)}:start_time=0`,
    ...numbered,
    `tpad=stop_mode=clone:stop=${piece.frames}`,
    `trim=end_frame=${piece.frames}`,
    ...pictureFilters(clip, size, job.fit, job.margin, closeUp),
  ];
}

/** Joins the pieces of a part by crossfades; returns the label of the whole. */
function joinPictures(job: GraphJob, chains: string[]): string {
  const { num, den } = job.film.frameRate;
  const secondsOf = (frames: number): string => ((frames * den) / num).toFixed(6);
  let label = "v0";
  let frames = job.pieces[0]?.piece.frames ?? 0;
  for (let k = 1; k < job.pieces.length; k += 1) {
    const { piece } = job.pieces[k]!;
    const fading = piece.crossfadeFrames;
    const joined = `x${k}`;
    chains.push(
      fading > 0
        ? `[${label}][v${k}]xfade=transition=fade:duration=${secondsOf(fading)}:offset=${secondsOf(frames - fading)}[${joined}]`
        : `[${label}][v${k}]concat=n=2:v=1:a=0[${joined}]`,
    );
    frames += piece.frames - fading;
    label = joined;
  }
  return label;
}

function soundPiece(
  graphPiece: GraphPiece,
  rate: Rational,
  footage: number,
  input: number | null,
  slowSound: SlowSound,
): SoundPiece {
  const { piece, source } = graphPiece;
  const ownSound = soundOf(source, slowSound);
  const samples = (frames: number): number => Math.round((frames * SAMPLE_RATE_HZ * rate.den) / rate.num);
  return {
    samples: samples(piece.frames),
    crossfadeSamples: samples(piece.crossfadeFrames),
    footage: ownSound && { input: footage, ...ownSound },
    comment:
      input === null || graphPiece.comment === null
        ? null
        : {
            input,
            startSample: samples(graphPiece.comment.startFrame) - samples(piece.firstFrame),
            samples:
              graphPiece.comment.lengthS === null ? null : Math.round(graphPiece.comment.lengthS * SAMPLE_RATE_HZ),
            gainDb: graphPiece.comment.gainDb,
          },
    keepRideSound: source.kind === "shot" && source.shot.keepRideSound === true,
  };
}

/** The sound of a piece's own footage; of a pair the first side's, where that runs as filmed. Null: silence. */
function soundOf(
  source: GraphPiece["source"],
  slowSound: SlowSound,
): Omit<SoundPiece["footage"] & object, "input"> | null {
  if (source.kind === "card") return null;
  if (source.kind === "pair") {
    const first = source.sides[0];
    if (!first?.timing.asFilmed || first.clip.audio === null) return null;
    return { startS: first.timing.soundAfterSeekS, speed: 1, channels: first.clip.audio.channels, holds: [] };
  }
  const { shot, clip, timing } = source;
  if (clip.audio === null || (shot.speed < 1 && slowSound !== "stretched")) return null;
  return { startS: timing.soundAfterSeekS, speed: shot.speed, channels: clip.audio.channels, holds: timing.holds };
}

function fraction(value: Rational): string {
  return `${value.num}/${value.den}`;
}

function seconds(value: number): string {
  return value.toFixed(6);
}
