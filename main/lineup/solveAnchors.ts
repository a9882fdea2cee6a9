import type { FoundClock } from "../contract/lineup.ts";
import type { AnchorTrouble } from "../contract/notices/placement.ts";

/** A mark on a recording's own timeline. */
export interface Mark {
  readonly mediaS: number;
  readonly rideS: number;
  readonly sigmaS: number;
}

export interface SolvedAnchors {
  readonly clock: FoundClock;
  /** Half-width of about 95 % at the middle of the marks, s. */
  readonly uncertaintyS: number;
  /** Ride time given less ride time by the clock, s, one per mark. */
  readonly residualsS: readonly number[];
  /** Index of a mark that the others speak against, or null. */
  readonly badMark: number | null;
  /** Marks that cannot all be right, or null. */
  readonly trouble: AnchorTrouble | null;
}

/** Spread of crystal clocks about their nominal rate: 30 ppm (published pairs of recorders lie between 3 and 273 ppm apart). */
const RATE_SIGMA = 30e-6;
/** A clock further off than this is no clock error. */
const RATE_LIMIT = 200e-6;

interface Line {
  readonly offsetS: number;
  readonly rate: number;
  readonly variance: number;
}

/** Weighted least squares for offset and rate, the rate held to 1 with `RATE_SIGMA`, weights by Huber's function. */
function fitLine(marks: readonly Mark[]): Line {
  let weights = marks.map((mark) => 1 / mark.sigmaS ** 2);
  let line: Line = { offsetS: 0, rate: 1, variance: 0 };
  for (let round = 0; round < 20; round++) {
    const total = weights.reduce((a, b) => a + b, 0);
    const mediaMean = marks.reduce((sum, mark, k) => sum + weights[k]! * mark.mediaS, 0) / total;
    const shiftMean = marks.reduce((sum, mark, k) => sum + weights[k]! * (mark.rideS - mark.mediaS), 0) / total;
    let sxx = 1 / RATE_SIGMA ** 2;
    let sxy = 0;
    marks.forEach((mark, k) => {
      sxx += weights[k]! * (mark.mediaS - mediaMean) ** 2;
      sxy += weights[k]! * (mark.mediaS - mediaMean) * (mark.rideS - mark.mediaS - shiftMean);
    });
    const eps = sxy / sxx;
    line = { offsetS: shiftMean - eps * mediaMean, rate: 1 + eps, variance: 1 / total };
    weights = marks.map((mark) => {
      const pull = Math.abs(mark.rideS - line.offsetS - line.rate * mark.mediaS) / mark.sigmaS;
      return Math.min(1, 1.5 / Math.max(pull, 1e-9)) / mark.sigmaS ** 2;
    });
  }
  return line;
}

function residuals(marks: readonly Mark[], clock: FoundClock): number[] {
  return marks.map((mark) => mark.rideS - clock.offsetS - clock.rate * mark.mediaS);
}

/** The one mark without which the rest agree, when there are at least three; else null. */
function findBadMark(marks: readonly Mark[]): number | null {
  if (marks.length < 3) return null;
  let best: { index: number; worst: number } | null = null;
  for (let index = 0; index < marks.length; index++) {
    const rest = marks.filter((_, k) => k !== index);
    const line = fitLine(rest);
    const worst = Math.max(...residuals(rest, line).map((r, k) => Math.abs(r) / rest[k]!.sigmaS));
    if (!best || worst < best.worst) best = { index, worst };
  }
  return best && best.worst <= 4 ? best.index : null;
}

/**
 * Offset and rate from one or more marks on one recording. One mark gives the offset with rate 1. More give both; the
 * rate is pulled to 1 as far as the marks are too coarse to show it. Marks that a clock within 200 ppm cannot explain give
 * `trouble` (and `badMark` where one is to blame, which is then left out): they are never read as slow motion or time lapse.
 */
export function solveAnchors(marks: readonly Mark[]): SolvedAnchors {
  const settle = (
    used: readonly Mark[],
    badMark: number | null,
    trouble: AnchorTrouble | null,
    line = fitLine(used),
  ): SolvedAnchors => {
    const clock = { offsetS: line.offsetS, rate: line.rate };
    return {
      clock,
      uncertaintyS: Math.max(0.05, 2 * Math.sqrt(line.variance)),
      residualsS: residuals(marks, clock),
      badMark,
      trouble,
    };
  };
  const line = fitLine(marks);
  const worst = Math.max(...residuals(marks, line).map((r, k) => Math.abs(r) / marks[k]!.sigmaS));
  if (marks.length < 2 || (worst <= 4 && Math.abs(line.rate - 1) <= RATE_LIMIT)) return settle(marks, null, null, line);
  const badMark = findBadMark(marks);
  if (badMark !== null) {
    const kept = marks.filter((_, k) => k !== badMark);
    const byS = Math.abs(residuals(marks, fitLine(kept))[badMark]!);
    return settle(kept, badMark, { kind: "one left out", mark: badMark + 1, byS });
  }
  const sorted = marks.map((mark, k) => ({ ...mark, given: k })).sort((a, b) => a.mediaS - b.mediaS);
  // The two that part most for the time between them are the ones to look at.
  let pair = { first: sorted[0]!, last: sorted[1]!, byS: -1 };
  for (const first of sorted) {
    for (const last of sorted) {
      const byS = Math.abs(last.rideS - first.rideS - (last.mediaS - first.mediaS));
      if (first.mediaS < last.mediaS && byS > pair.byS) pair = { first, last, byS };
    }
  }
  const told = (mark: (typeof sorted)[number]) => ({
    mark: mark.given + 1,
    mediaS: mark.mediaS,
    rideS: mark.rideS,
    residualS: mark.rideS - line.offsetS - line.rate * mark.mediaS,
  });
  const byS = Math.abs(pair.last.rideS - pair.first.rideS - (pair.last.mediaS - pair.first.mediaS));
  return settle(marks, null, { kind: "all disagree", byS, pair: [told(pair.first), told(pair.last)] }, line);
}
