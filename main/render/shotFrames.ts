import type { Clip, Rational } from "../contract/footage.ts";
import type { Shot } from "../contract/film.ts";
import { holdsIn, mediaTimeIn } from "../../overlay/instant/shotTime.ts";

/** What ffmpeg is told so that it shows exactly the source frames that the panels speak of. */
export interface ShotTiming {
  /** Seek to here in the file's own time, s: half-way before the first frame, so that no rounding can miss it. */
  readonly seekS: number;
  /** How much to read from the first delivered frame on, s; some more than is shown. */
  readonly readS: number;
  /** The first frame comes this far after the seek point, s. Sound starts there. */
  readonly firstAfterSeekS: number;
  /** Ticks that the first output frame lies behind its source frame. */
  readonly phaseTicks: number;
  readonly holds: readonly Hold[];
  /** Rate at which delivered source time is sampled: the film's over the speed. */
  readonly sampleRate: Rational;
  /** Read keyframes only. */
  readonly keyframesOnly: boolean;
}

/** A freeze within the stretch. */
interface Hold {
  /** All frames after the nth delivered one come `ticks` of the source later. */
  readonly afterFrame: number;
  readonly ticks: number;
  /** The same for sound: source time from the stretch's first frame, s, and the silence on film, s. */
  readonly afterSourceS: number;
  readonly silenceS: number;
}

export interface ShotFrames {
  readonly timing: ShotTiming;
  /** For each output frame: index into the clip's frames. */
  readonly source: Uint32Array;
}

/** From here on only keyframes are read, where they come densely enough. */
const KEYFRAMES_FROM_SPEED = 15;
/** Longest that one picture may stand in a shot of keyframes, s of film. */
const KEYFRAME_HOLD_S = 0.15;
/** Sums of binary fractions may miss a whole tick by this much. */
const ROUNDING_TICKS = 1e-3;

/**
 * Source frames of a stretch of a shot: at each output frame the last one whose presentation time has come, as sampled
 * by ffmpeg's `fps` filter with `round=up`, reckoned here with the same whole numbers.
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
  const ticksAt = (index: number): number => clip.frames.ticks[delivered === null ? index : delivered[index]];
  const { timescale } = clip.frames;

  const firstItemS = (firstFrame * frameRate.den) / frameRate.num;
  const startTick = wholeTicks(mediaTimeIn(shot, firstItemS).mediaS * timescale);
  const first = lastAtOrBefore(ticksAt, count, startTick);
  const origin = ticksAt(first);
  const phaseTicks = Math.max(0, startTick - origin);
  const speed = speedAsRational(shot.speed);
  const holds = holdsFrom(shot, firstItemS).map(({ atMediaS, heldS }) => ({
    afterFrame: Math.max(0, lastAtOrBefore(ticksAt, count, wholeTicks(atMediaS * timescale)) - first),
    ticks: Math.round(heldS * shot.speed * timescale),
    afterSourceS: Math.max(0, atMediaS - startTick / timescale),
    silenceS: heldS,
  }));
  const sampleRate = reduced(frameRate.num * speed.den, frameRate.den * speed.num);

  const source = new Uint32Array(frames);
  const sampled = (index: number): number => {
    const held = holds.reduce((sum, hold) => sum + (index - first > hold.afterFrame ? hold.ticks : 0), 0);
    return ceilDivide((ticksAt(index) - origin - phaseTicks + held) * sampleRate.num, timescale * sampleRate.den);
  };
  let shown = first;
  for (let frame = 0; frame < frames; frame += 1) {
    while (shown + 1 < count && sampled(shown + 1) <= frame) shown += 1;
    source[frame] = delivered === null ? shown : delivered[shown];
  }

  const interval = first + 1 < count ? ticksAt(first + 1) - origin : timescale / 25;
  const seekTicks = first === 0 ? origin - interval / 2 : (ticksAt(first - 1) + origin) / 2;
  const longestS = Math.max(interval / timescale, ((frameRate.den / frameRate.num) * speed.num) / speed.den);
  return {
    timing: {
      seekS: seekTicks / timescale,
      readS: (ticksAt(shown) - origin) / timescale + 4 * longestS + 0.1,
      firstAfterSeekS: (origin - seekTicks) / timescale,
      phaseTicks,
      holds,
      sampleRate,
      keyframesOnly,
    },
    source,
  };
}

/** True where a shot is so fast, and the clip's keyframes so dense, that they alone give a fluent picture. */
function readsKeyframesOnly(shot: Shot, clip: Clip): boolean {
  const { keyframes, ticks, timescale } = clip.frames;
  if (shot.speed < KEYFRAMES_FROM_SPEED || keyframes.length < 2) return false;
  const startTick = shot.mediaStartS * timescale;
  const endTick = shot.mediaEndS * timescale;
  let longest = 0;
  for (let k = 0; k + 1 < keyframes.length; k += 1) {
    const from = ticks[keyframes[k]];
    const to = ticks[keyframes[k + 1]];
    if (to > startTick && from < endTick) longest = Math.max(longest, to - from);
  }
  return longest > 0 && longest / timescale / shot.speed <= KEYFRAME_HOLD_S;
}

/** What is left of each freeze from a film time within the shot on. */
function holdsFrom(shot: Shot, fromItemS: number): { readonly atMediaS: number; readonly heldS: number }[] {
  return holdsIn(shot).flatMap(({ atMediaS, durationS, startS }) => {
    const heldS = durationS - Math.max(0, fromItemS - startS);
    return heldS > 1e-9 ? [{ atMediaS, heldS }] : [];
  });
}

/** Index of the last frame at or before a tick; the first where none is. */
export function lastAtOrBefore(ticksAt: (index: number) => number, count: number, tick: number): number {
  let low = 0;
  let high = count - 1;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (ticksAt(middle) <= tick) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** The last whole tick that has come, a hair's breadth forgiven. */
export function wholeTicks(ticks: number): number {
  return Math.floor(ticks + ROUNDING_TICKS);
}

/** Speeds are set in steps of a thousandth at most. */
function speedAsRational(speed: number): Rational {
  return reduced(Math.round(speed * 1000), 1000);
}

function reduced(num: number, den: number): Rational {
  let [a, b] = [num, den];
  while (b !== 0) [a, b] = [b, a % b];
  return { num: num / a, den: den / a };
}

/** Ceiling of a quotient of whole numbers, exact beyond 2^53. */
function ceilDivide(num: number, den: number): number {
  const exact = num / den;
  const near = Math.round(exact);
  if (Math.abs(exact - near) > 1e-6) return Math.ceil(exact);
  const n = BigInt(num);
  const d = BigInt(den);
  const whole = n / d;
  return Number(whole * d < n ? whole + 1n : whole);
}
