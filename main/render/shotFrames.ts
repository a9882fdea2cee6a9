import type { Clip, Rational } from "../contract/footage.ts";
import type { Shot } from "../contract/film.ts";
import { holdsIn } from "../../overlay/instant/shotTime.ts";

/** What ffmpeg is told so that it shows exactly the source frames that the panels speak of. */
export interface ShotTiming {
  /** Seek to here in the file's own time, s: half-way before the first frame, so that no rounding can miss it. */
  readonly seekS: number;
  /** How much to read from the first delivered frame on, s; some more than is shown. */
  readonly readS: number;
  /** The sound of the first output frame begins this far after the seek point, s. */
  readonly soundAfterSeekS: number;
  readonly steps: FrameSteps;
  readonly holds: readonly Hold[];
  /** Read keyframes only. */
  readonly keyframesOnly: boolean;
}

/**
 * How delivered frames are numbered and spread over the film's frames. A frame's number is its place on the clip's even
 * grid; a time base too coarse for the frame length, or a clock that jitters, does not move it from there (`nextStep`).
 */
interface FrameSteps {
  /** The grid's interval, ticks of the clip. */
  readonly intervalTicks: number;
  /** Ticks and number of the stretch's first delivered frame, counted from the shot's first frame. */
  readonly fromTicks: number;
  readonly fromStep: number;
  /** Frame number `step` comes on at film frame ceil(step * filmFrames - sooner), counted from the shot's first. */
  readonly filmFrames: number;
  readonly sooner: number;
  /** The stretch's own first film frame, holds before it left out. */
  readonly firstFrame: number;
}

/** A freeze within the stretch. */
interface Hold {
  /** All frames after the nth delivered one come so many film frames later. */
  readonly afterFrame: number;
  readonly frames: number;
  /** The same for sound: source time from the stretch's first frame, s, and the silence on film, s. */
  readonly afterSourceS: number;
  readonly silenceS: number;
}

export interface ShotFrames {
  readonly timing: ShotTiming;
  /** For each output frame of the stretch: index into the clip's frames. */
  readonly source: Uint32Array;
  /** The same from the shot's own first output frame on. */
  readonly sourceFromStart: Uint32Array;
}

/** From here on only keyframes are read, where they come densely enough. */
const KEYFRAMES_FROM_SPEED = 15;
/** Longest that one picture may stand in a shot of keyframes, s of film. */
const KEYFRAME_HOLD_S = 0.15;
/** So far may a frame stand off its place on the even grid and still be counted as the next one, intervals. */
export const STEP_SLACK = 0.7;
/** A time that a container rounded, or a sum of binary fractions, may miss a frame by so much, ticks. */
const ROUNDING_TICKS = 1.5;

/**
 * Source frames of a stretch of a shot, reckoned here with the same sums that ffmpeg is given (`stepsExpression`).
 *
 * A shot begins with the frame nearest to its start. From there on, at each output frame, the picture is the nearest one
 * in time on the clip's even grid; where a picture stands for several output frames, the last one that has come. So no
 * frame is lost or doubled but where the rates themselves, or a frame more than 0.7 of an interval off the grid, ask it.
 *
 * @param firstFrame of the shot, in output frames
 * @param frames output frames of the stretch
 */
export function shotFrames(
  shot: Shot,
  clip: Clip,
  frameRate: Rational,
  firstFrame: number,
  frames: number,
): ShotFrames {
  const keyframesOnly = readsKeyframesOnly(shot, clip);
  const delivered = keyframesOnly ? clip.frames.keyframes : null;
  const count = delivered === null ? clip.frames.ticks.length : delivered.length;
  const ticksAt = (index: number): number => clip.frames.ticks[delivered === null ? index : delivered[index]!]!;
  const { timescale } = clip.frames;
  const perFilmFrame = (shot.speed * timescale * frameRate.den) / frameRate.num;

  const startTick = shot.mediaStartS * timescale;
  const anchor = nearestTo(ticksAt, count, startTick, keyframesOnly);
  const grid = keyframesOnly ? null : evenGrid(clip, perFilmFrame);
  const { intervalTicks, filmFrames, sooner, phaseTicks } =
    grid === null
      ? byTime(perFilmFrame, startTick - ticksAt(anchor), keyframesOnly ? null : clip)
      : onGrid(grid, perFilmFrame, startTick - ticksAt(anchor));
  const stretchEnd = firstFrame + frames;
  const frameOf = (itemS: number): number => Math.round((itemS * frameRate.num) / frameRate.den);
  // A hold lasts whole film frames. They are rounded on the whole, so that what several of them add or take never is more
  // than half a frame.
  let [heldS, heldFrames] = [0, 0];
  const holds = holdsIn(shot).map(({ atMediaS, startS, endS }) => {
    const before = heldFrames;
    heldS += endS - startS;
    heldFrames = frameOf(heldS);
    return {
      firstFrame: frameOf(startS),
      frames: heldFrames - before,
      after: nearestTo(ticksAt, count, atMediaS * timescale, keyframesOnly),
    };
  });

  const delivers = new Uint32Array(stretchEnd);
  let shown = anchor;
  let step = 0;
  let [nextShown, nextStepped] = [anchor, 0];
  const comesOn = (index: number, at: number): number =>
    Math.ceil(at * filmFrames - sooner) + holds.reduce((sum, hold) => sum + (index > hold.after ? hold.frames : 0), 0);
  let fromStep = 0;
  for (let frame = 0; frame < stretchEnd; frame += 1) {
    for (;;) {
      if (nextShown === shown && shown + 1 < count) {
        nextShown = shown + 1;
        nextStepped = nextStep(step, (ticksAt(nextShown) - ticksAt(anchor)) / intervalTicks);
      }
      if (nextShown === shown || comesOn(nextShown, nextStepped) > frame) break;
      [shown, step] = [nextShown, nextStepped];
    }
    delivers[frame] = shown;
    if (frame === firstFrame) fromStep = step;
  }

  const first = delivers[firstFrame] ?? anchor;
  const origin = ticksAt(first);
  const last = delivers[stretchEnd - 1] ?? first;
  // Film frames of the shot that a hold took, up to one of them.
  const heldBefore = (frame: number): number =>
    holds.reduce((sum, hold) => sum + Math.max(0, Math.min(hold.frames, frame - hold.firstFrame)), 0);
  const sourceTicksAt = (frame: number): number =>
    ticksAt(anchor) + phaseTicks + (frame - heldBefore(frame)) * perFilmFrame;
  const filmFrameS = frameRate.den / frameRate.num;
  const interval = first + 1 < count ? ticksAt(first + 1) - origin : timescale / 25;
  const seekTicks = first === 0 ? origin - interval / 2 : (ticksAt(first - 1) + origin) / 2;
  const longestTicks = Math.max(interval, perFilmFrame);
  const inClip = delivered === null ? delivers : delivers.map((index) => delivered[index]!);
  return {
    timing: {
      seekS: seekTicks / timescale,
      readS: (ticksAt(last) - origin + 4 * longestTicks) / timescale + 0.1,
      soundAfterSeekS: Math.max(0, sourceTicksAt(firstFrame) - seekTicks) / timescale,
      steps: {
        intervalTicks,
        fromTicks: origin - ticksAt(anchor),
        fromStep,
        filmFrames,
        sooner,
        firstFrame: firstFrame - heldBefore(firstFrame),
      },
      holds: holds.flatMap((hold) => {
        const left = hold.frames - Math.max(0, Math.min(hold.frames, firstFrame - hold.firstFrame));
        if (left <= 0 || hold.firstFrame >= stretchEnd) return [];
        const fromFrame = Math.max(hold.firstFrame, firstFrame);
        return {
          afterFrame: Math.max(0, hold.after - first),
          frames: left,
          afterSourceS: Math.max(0, sourceTicksAt(fromFrame) - sourceTicksAt(firstFrame)) / timescale,
          silenceS: left * filmFrameS,
        };
      }),
      keyframesOnly,
    },
    source: inClip.subarray(firstFrame),
    sourceFromStart: inClip,
  };
}

/**
 * Number of the next frame on the even grid.
 *
 * @param step number of the frame before
 * @param at its own time, intervals from the shot's first frame
 */
function nextStep(step: number, at: number): number {
  return Math.abs(at - step - 1) <= STEP_SLACK ? step + 1 : Math.max(step, Math.floor(at + 0.5));
}

/** How a shot's frames come on, as `FrameSteps` has it, and how far the shot's start lies behind its first frame. */
interface ShotSteps {
  readonly intervalTicks: number;
  readonly filmFrames: number;
  readonly sooner: number;
  readonly phaseTicks: number;
}

/** Film frames to an interval of the clip, as a quotient of whole numbers. */
interface EvenGrid {
  readonly p: number;
  readonly q: number;
}

/**
 * On an even grid. `step * p / q - sooner` is never a whole number: whichever way a binary fraction is rounded, the
 * frame is the same. For that the shot's start moves by less than a frame, and its sound with it.
 */
function onGrid({ p, q }: EvenGrid, perFilmFrame: number, startsAfterTicks: number): ShotSteps {
  const intervalTicks = (perFilmFrame * p) / q;
  const filmFrames = p / q;
  const nearest = Math.min(1, filmFrames) / 2;
  const off = Math.max(-0.5, Math.min(0.5, startsAfterTicks / intervalTicks));
  const wished = off * filmFrames + nearest;
  // The nearest odd multiple of 1/(2q), at which the first frame is still the first.
  const sooner = (2 * Math.min(Math.floor(wished * q), p - 1) + 1) / (2 * q);
  const phase = (sooner - nearest) / filmFrames;
  return { intervalTicks, filmFrames, sooner, phaseTicks: phase * intervalTicks };
}

/** Frames at times of their own: the last that has come; where they are not keyframes, the nearest on the whole. */
function byTime(perFilmFrame: number, startsAfterTicks: number, clip: Clip | null): ShotSteps {
  const phaseTicks = Math.max(0, startsAfterTicks);
  const spanTicks = clip === null ? 0 : (clip.frames.ticks.at(-1) ?? 0) - (clip.frames.ticks[0] ?? 0);
  const meanTicks = clip === null ? 0 : spanTicks / Math.max(1, clip.frames.ticks.length - 1);
  const soonerTicks = Math.max(ROUNDING_TICKS, Math.min(meanTicks, perFilmFrame) / 2);
  return {
    intervalTicks: 1,
    filmFrames: 1 / perFilmFrame,
    sooner: (phaseTicks + soonerTicks) / perFilmFrame,
    phaseTicks,
  };
}

/** A variable rate is taken for a simple share of the film's where it is as near as this. */
const SIMPLE_WITHIN = 0.004;
const SIMPLE_UP_TO = 8;
/** Nearer than this, the rates of clip and film are in the proportion of whole numbers: a frame in 100,000. */
const EXACT_WITHIN = 1e-5;

/** The clip's even grid beside the film's; null where its frames keep to none. */
function evenGrid(clip: Clip, perFilmFrame: number): EvenGrid | null {
  const interval = intervalOf(clip);
  if (interval === null) return null;
  const ratio = interval / perFilmFrame;
  if (clip.variableRate) {
    for (let q = 1; q <= SIMPLE_UP_TO; q += 1) {
      const p = Math.round(ratio * q);
      if (p > 0 && Math.abs(p / q / ratio - 1) < SIMPLE_WITHIN) return { p, q };
    }
  }
  return simplestNear(ratio);
}

/** The simplest quotient within `EXACT_WITHIN` of a ratio, by its continued fraction. */
function simplestNear(ratio: number): EvenGrid {
  let [p, q, before] = [Math.floor(ratio), 1, { p: 1, q: 0 }];
  let rest = ratio - p;
  while (p === 0 || Math.abs(p / q / ratio - 1) > EXACT_WITHIN) {
    const whole = Math.floor(1 / rest);
    rest = 1 / rest - whole;
    [p, q, before] = [whole * p + before.p, whole * q + before.q, { p, q }];
  }
  return { p, q };
}

/** Share of a clip's frames that must follow the one before by a whole number of intervals, for it to have a grid. */
const EVEN_SHARE = 0.7;
const EVEN_WITHIN = 0.3;

/** A clip's usual distance from frame to frame, ticks: the mean of those that are whole numbers of it; null: it has none. */
function intervalOf({ variableRate, frameRate, frames: { ticks, timescale } }: Clip): number | null {
  if (!variableRate && frameRate.num > 0) return (timescale * frameRate.den) / frameRate.num;
  const steps = Float64Array.from({ length: Math.max(0, ticks.length - 1) }, (_, k) => ticks[k + 1]! - ticks[k]!);
  const middle = steps.slice().sort()[Math.floor(steps.length / 2)] ?? 0;
  if (!(middle > 0)) return null;
  let [span, intervals, even] = [0, 0, 0];
  for (const step of steps) {
    const whole = Math.round(step / middle);
    if (whole < 1 || whole > 2 || Math.abs(step / middle - whole) > EVEN_WITHIN) continue;
    [span, intervals, even] = [span + step, intervals + whole, even + 1];
  }
  return even >= EVEN_SHARE * steps.length ? span / intervals : null;
}

/** True where a shot is so fast, and the clip's keyframes so dense, that they alone give a fluent picture. */
function readsKeyframesOnly(shot: Shot, clip: Clip): boolean {
  const { keyframes, ticks, timescale } = clip.frames;
  if (shot.speed < KEYFRAMES_FROM_SPEED || keyframes.length < 2) return false;
  const startTick = shot.mediaStartS * timescale;
  const endTick = shot.mediaEndS * timescale;
  let longest = 0;
  for (let k = 0; k + 1 < keyframes.length; k += 1) {
    const from = ticks[keyframes[k]!]!;
    const to = ticks[keyframes[k + 1]!]!;
    if (to > startTick && from < endTick) longest = Math.max(longest, to - from);
  }
  return longest > 0 && longest / timescale / shot.speed <= KEYFRAME_HOLD_S;
}

/** Index of the frame nearest to a tick, the earlier of two; with `past`, of the last that has come. */
function nearestTo(ticksAt: (index: number) => number, count: number, tick: number, past: boolean): number {
  const before = lastAtOrBefore(ticksAt, count, tick + ROUNDING_TICKS);
  if (past || before + 1 >= count) return before;
  return ticksAt(before + 1) - tick < tick - ticksAt(before) ? before + 1 : before;
}

/** Index of the last frame at or before a tick; the first where none is. */
function lastAtOrBefore(ticksAt: (index: number) => number, count: number, tick: number): number {
  let low = 0;
  let high = count - 1;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (ticksAt(middle) <= tick) low = middle;
    else high = middle - 1;
  }
  return low;
}
