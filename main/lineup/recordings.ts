import type { Clip } from "../contract/footage.ts";
import { claimedStart } from "./claimedStart.ts";

/** Chapters of one recording in order, on one media timeline, or a single clip. */
export interface Recording {
  readonly clips: readonly Clip[];
  /** Start of each clip on the recording's timeline, s: the sum of the picture lengths before it. */
  readonly startS: readonly number[];
  readonly durationS: number;
}

/** Same coding, size, rate and sound: what files of one recording must share. */
function sameKind(a: Clip, b: Clip): boolean {
  return (
    a.camera === b.camera &&
    a.serial === b.serial &&
    a.firmware === b.firmware &&
    a.videoCodec === b.videoCodec &&
    a.codedWidthPx === b.codedWidthPx &&
    a.codedHeightPx === b.codedHeightPx &&
    a.frameRate.num * b.frameRate.den === b.frameRate.num * a.frameRate.den &&
    (a.audio?.codec ?? null) === (b.audio?.codec ?? null) &&
    a.audio?.sampleRateHz === b.audio?.sampleRateHz
  );
}

/** True when the names differ in one number that counts up by one, or by one in its digits before the last four. */
function numberFollows(before: string, after: string): boolean {
  const split = (name: string) => name.replace(/\.[^.]*$/, "").split(/(\d+)/);
  const [a, b] = [split(before), split(after)];
  if (a.length !== b.length) return false;
  const changed = a.map((_, k) => k).filter((k) => a[k] !== b[k]);
  if (changed.length !== 1 || changed[0]! % 2 === 0) return false;
  const step = Number(b[changed[0]!]) - Number(a[changed[0]!]);
  return step === 1 || step === 10_000;
}

function timecodeFollows(before: Clip, after: Clip): boolean {
  if (!before.timecode || !after.timecode) return false;
  const frameS = before.frameRate.den / Math.max(1, before.frameRate.num);
  return Math.abs(after.timecode.timeOfDayS - before.timecode.timeOfDayS - before.durationS) <= 2 * frameS;
}

/**
 * True when `after` goes on where `before` ends. Timecodes that join settle it; else the names must count on and the
 * clocks must fit to 2 s (or stand equal, as in cameras that stamp each chapter with the recording's start).
 */
function continues(before: Clip, after: Clip): boolean {
  if (!sameKind(before, after)) return false;
  if (timecodeFollows(before, after)) return true;
  if (!numberFollows(before.fileName, after.fileName)) return false;
  if (before.createdUtcMs === null || after.createdUtcMs === null) return false;
  if (before.createdUtcMs === after.createdUtcMs) return true;
  return (["start", "end"] as const).some((mark) => {
    const gap = claimedStart(after, mark)! - claimedStart(before, mark)! - before.durationS;
    return Math.abs(gap) <= 2;
  });
}

/**
 * Joins files that are chapters of one recording, in any order given, by timecode, number and time.
 * Every clip is in exactly one recording; recordings come in the order of their first clip.
 */
export function recordings(clips: readonly Clip[]): Recording[] {
  const next = new Map<Clip, Clip>();
  const hasBefore = new Set<Clip>();
  for (const before of clips) {
    const after = clips.find((clip) => clip !== before && !hasBefore.has(clip) && continues(before, clip));
    if (after) {
      next.set(before, after);
      hasBefore.add(after);
    }
  }
  const done = new Set<Clip>();
  const found: Recording[] = [];
  const chainFrom = (first: Clip): void => {
    const chain: Clip[] = [];
    for (let clip: Clip | undefined = first; clip && !done.has(clip); clip = next.get(clip)) {
      chain.push(clip);
      done.add(clip);
    }
    if (chain.length === 0) return;
    const startS: number[] = [];
    let total = 0;
    for (const clip of chain) {
      startS.push(total);
      total += clip.durationS;
    }
    found.push({ clips: chain, startS, durationS: total });
  };
  for (const clip of clips) if (!hasBefore.has(clip)) chainFrom(clip);
  for (const clip of clips) chainFrom(clip);
  return found.sort(
    (a, b) => Math.min(...a.clips.map((c) => clips.indexOf(c))) - Math.min(...b.clips.map((c) => clips.indexOf(c))),
  );
}
