import type { Clip } from "../contract/footage.ts";
import { claimedStart, markByTimecode, type CreationMark } from "./claimedStart.ts";
import { recordings, type Recording } from "./recordings.ts";

/** Recordings of one camera whose clock is taken for one and the same. */
export interface ClockGroup {
  readonly name: string;
  readonly recordings: readonly Recording[];
  /** What the creation time marks where the files themselves tell; null when both remain possible. */
  readonly mark: CreationMark | null;
}

/** Recordings further apart than this are taken for another day out, with a clock of its own, s. */
const SAME_OUTING_S = 20 * 3600;

function claimedOf(recording: Recording): number | null {
  return claimedStart(recording.clips[0]!, "start");
}

/** A file name without its numbers: what a camera counts up. */
function namePattern(fileName: string): string {
  return fileName.replace(/\d+/g, "#").toLowerCase();
}

/** How a camera codes and names its clips. */
function habitsOf(clip: Clip): string {
  const size = `${clip.codedWidthPx}x${clip.codedHeightPx}`;
  return `${clip.videoCodec} ${size} ${clip.audio?.codec ?? "mute"} ${namePattern(clip.fileName)}`;
}

function cameraKey(clip: Clip): string {
  // A camera films at several sizes and rates in one day, so only its number or name counts where it has one.
  return clip.serial ?? `${clip.camera ?? `unnamed ${habitsOf(clip)}`} ${clip.firmware ?? ""}`;
}

/** Numbers of neighbouring clips of one camera differ by at most this: one or two were deleted, or not given. */
const MOST_NUMBERS = 3;

/** By how much the one number in which two names differ is larger in the second; NaN where something else differs. */
function numbersBetween(before: string, after: string): number {
  const split = (name: string) => name.replace(/\.[^.]*$/, "").split(/(\d+)/);
  const [a, b] = [split(before), split(after)];
  const changed = a.map((_, k) => k).filter((k) => a[k] !== b[k]);
  return a.length === b.length && changed.length === 1 ? Number(b[changed[0]!]) - Number(a[changed[0]!]) : NaN;
}

/** Whether the names count on from the earlier of two clips to the later, as far as one camera's do. */
function countsOn(a: Clip, b: Clip): boolean {
  const [first, second] = claimedStart(a, "start")! <= claimedStart(b, "start")! ? [a, b] : [b, a];
  const by = numbersBetween(first.fileName, second.fileName);
  return by >= 1 && by <= MOST_NUMBERS;
}

/**
 * Whether two clips of one group are told to be of one camera: by its serial number; else they are coded and named alike
 * and their names count on as the clock does, from one of `all` to the next. Model, firmware and settings alone are those of
 * every camera of its kind.
 */
export function toldAsOneCamera(a: Clip, b: Clip, all: readonly Clip[]): boolean {
  if (a.serial !== undefined && b.serial !== undefined) return a.serial === b.serial;
  const alike = all.filter((clip) => habitsOf(clip) === habitsOf(a) && clip.createdUtcMs !== null);
  const reached = new Set([a]);
  for (const from of reached) for (const to of alike) if (countsOn(from, to)) reached.add(to);
  return reached.has(b);
}

/** Which marks do not make one camera film two things at once (2 s of slack for whole seconds). */
function possibleMarks(group: readonly Recording[]): CreationMark[] {
  return (["start", "end"] as const).filter((mark) => {
    const spans = group
      .map((recording) => ({
        from: claimedStart(recording.clips[0]!, mark),
        lengthS: recording.durationS / (recording.clips[0]!.slowedBy ?? 1),
      }))
      .filter((span): span is { from: number; lengthS: number } => span.from !== null)
      .sort((a, b) => a.from - b.from);
    return spans.every((span, k) => k === 0 || span.from >= spans[k - 1]!.from + spans[k - 1]!.lengthS - 2);
  });
}

/** The mark that chapters of one recording tell: only one makes each start where the one before ends. */
function markByChapters(group: readonly Recording[]): CreationMark | null {
  for (const { clips } of group) {
    for (let k = 1; k < clips.length; k++) {
      const [before, after] = [clips[k - 1]!, clips[k]!];
      if (before.createdUtcMs === null || after.createdUtcMs === null || before.createdUtcMs === after.createdUtcMs)
        continue;
      const fits = (mark: CreationMark) =>
        Math.abs(claimedStart(after, mark)! - claimedStart(before, mark)! - before.durationS) <= 2;
      if (fits("start") !== fits("end")) return fits("start") ? "start" : "end";
    }
  }
  return null;
}

function markOf(group: readonly Recording[]): CreationMark | null {
  for (const recording of group)
    for (const clip of recording.clips) {
      const mark = markByTimecode(clip);
      if (mark) return mark;
    }
  const byChapters = markByChapters(group);
  if (byChapters) return byChapters;
  const possible = possibleMarks(group);
  return possible.length === 1 ? possible[0]! : null;
}

/**
 * Clips sorted by the clock they carry: chapters of a recording certainly share one; recordings of one camera share it
 * until the date jumps. A recording without a clock stands alone.
 */
export function clockGroups(clips: readonly Clip[]): ClockGroup[] {
  const byCamera = new Map<string, Recording[]>();
  const groups: Recording[][] = [];
  for (const recording of recordings(clips)) {
    if (claimedOf(recording) === null) {
      groups.push([recording]);
      continue;
    }
    const key = cameraKey(recording.clips[0]!);
    byCamera.set(key, [...(byCamera.get(key) ?? []), recording]);
  }
  for (const ofCamera of byCamera.values()) {
    const sorted = [...ofCamera].sort((a, b) => claimedOf(a)! - claimedOf(b)!);
    let current: Recording[] = [];
    for (const recording of sorted) {
      const last = current[current.length - 1];
      if (last && claimedOf(recording)! - claimedOf(last)! > SAME_OUTING_S) {
        groups.push(current);
        current = [];
      }
      current.push(recording);
    }
    if (current.length > 0) groups.push(current);
  }
  const order = (group: readonly Recording[]) =>
    Math.min(...group.flatMap((r) => r.clips.map((c) => clips.indexOf(c))));
  return groups
    .sort((a, b) => order(a) - order(b))
    .map((group, k) => ({ name: `camera ${k + 1}`, recordings: group, mark: markOf(group) }));
}
