import type { StateShares } from "../../../main/contract/reading.ts";
import type { WholeShares } from "../../../main/contract/debriefFacts.ts";

/** A class of road of less than this is no share of anything, s. */
const LEAST_CLASS_S = 60;

/** Whole percents of parts that add up to 100 (largest remainders); the order of the parts is kept. All 0 for nothing. */
function wholePercents(parts: readonly number[]): number[] {
  const total = parts.reduce((sum, part) => sum + part, 0);
  if (total <= 0) return parts.map(() => 0);
  const exact = parts.map((part) => (100 * part) / total);
  const whole = exact.map(Math.floor);
  const order = exact
    .map((value, index) => ({ index, rest: value - Math.floor(value) }))
    .sort((one, other) => other.rest - one.rest);
  const left = 100 - whole.reduce((sum, part) => sum + part, 0);
  for (const { index } of order.slice(0, left)) whole[index]! += 1;
  return whole;
}

/** Seconds of a ride's main part as whole percents of it, as they are shown everywhere; unknown seconds count with it. */
export function shownShares(sums: StateShares, unknownS: number): WholeShares {
  const shares = wholePercents([sums.inBandS, sums.belowS, sums.aboveS, sums.offS, unknownS]);
  return {
    inPercent: shares[0]!,
    belowPercent: shares[1]!,
    abovePercent: shares[2]!,
    offPercent: shares[3]!,
    unknownPercent: shares[4]!,
  };
}

/** The same of one class of road, of what is known there; null for less than a minute. */
export function shownClass(sums: StateShares): WholeShares | null {
  return sums.inBandS + sums.belowS + sums.aboveS + sums.offS < LEAST_CLASS_S ? null : shownShares(sums, 0);
}

/** Pressed or not, where there is no band to say more; whole percents. */
export function shownPressed(
  sums: StateShares,
  unknownS: number,
): { readonly onPercent: number; readonly offPercent: number; readonly unknownPercent: number } {
  const [onPercent, offPercent, unknownPercent] = wholePercents([
    sums.inBandS + sums.belowS + sums.aboveS,
    sums.offS,
    unknownS,
  ]);
  return { onPercent: onPercent!, offPercent: offPercent!, unknownPercent: unknownPercent! };
}
