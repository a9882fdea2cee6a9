import type { Clip } from "../contract/footage.ts";

/** What a camera's creation time marks: the first frame, or the moment the file was closed. */
export type CreationMark = "start" | "end";

/** A camera's clock is set by hand or from a phone: so far off beyond its zone as a rule, s (one standard error). */
export const CLOCK_SIGMA_S = 30;

const QUARTER_S = 900;

/** Difference of two clock times, s, folded into +-7.5 min, so that a time zone does not count. */
function foldedS(a: number, b: number): number {
  const d = a - b;
  return d - QUARTER_S * Math.round(d / QUARTER_S);
}

/**
 * When the clip's first frame was, by the camera's own clock read as UTC, s since 1970, if the creation time marks
 * `mark`. A timecode track that agrees with it (to 2 s, zones aside) makes it exact to a frame. Null without a clock.
 */
export function claimedStart(clip: Clip, mark: CreationMark): number | null {
  if (clip.createdUtcMs === null) return null;
  const start = clip.createdUtcMs / 1000 - (mark === "end" ? clip.durationS : 0);
  if (!clip.timecode) return start;
  const off = foldedS(clip.timecode.timeOfDayS, start);
  return Math.abs(off) <= 2 ? start + off : start;
}

/** What the creation time marks, where the clip's own timecode track tells; else null. */
export function markByTimecode(clip: Clip): CreationMark | null {
  if (clip.createdUtcMs === null || !clip.timecode) return null;
  const at = (mark: CreationMark) =>
    Math.abs(foldedS(clip.timecode!.timeOfDayS, clip.createdUtcMs! / 1000 - (mark === "end" ? clip.durationS : 0)));
  const [start, end] = [at("start"), at("end")];
  if (start <= 2 === end <= 2) return null;
  return start <= 2 ? "start" : "end";
}
