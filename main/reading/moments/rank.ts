import type { Moment } from "../../contract/reading.ts";
import { sharedS } from "../spans.ts";
import { thresholds } from "../thresholds.ts";
import type { Candidate } from "./momentContext.ts";

/**
 * Where a kind starts in the order, and how far its heaviest moment climbs. Own choice: what the rider marked first, then
 * patterns, then single events, then what is only worth practising.
 */
const orderOf: Readonly<Record<string, readonly [base: number, climb: number]>> = {
  marked: [1000, 0],
  riseThenOff: [120, 10],
  breakRun: [100, 10],
  driftOnset: [95, 0],
  effortShort: [90, 5],
  lapse: [70, 22],
  steadyStretch: [72, 10],
  surge: [58, 20],
  oddHeart: [55, 10],
  cadenceBlock: [45, 10],
  turn: [35, 5],
};
/** Each further moment of a kind steps back so far, so that the first ten show more than one thing. */
const stepBack = 10;

/** Moments of one kind and reason that lie close together become one, as long as both; durations and times off add up. */
export function mergeNearby(candidates: readonly Candidate[]): Candidate[] {
  const merged: Candidate[] = [];
  for (const next of [...candidates].sort((one, other) => one.startS - other.startS)) {
    const index = merged.findLastIndex(
      (one) =>
        one.kind === next.kind && one.reason === next.reason && one.setBy === next.setBy && next.kind !== "marked",
    );
    const last = merged[index];
    if (last && next.startS - last.endS <= thresholds.moment.mergeS) merged[index] = joined(last, next);
    else merged.push(next);
  }
  return merged;
}

function joined(one: Candidate, other: Candidate): Candidate {
  const numbers: Record<string, number | null> = { ...one.numbers };
  const heavier = other.weight > one.weight ? other : one;
  for (const [key, value] of Object.entries(heavier.numbers)) numbers[key] = value;
  for (const key of ["durationS", "offS", "breaks"]) {
    const first = one.numbers[key];
    const second = other.numbers[key];
    if (typeof first === "number" && typeof second === "number") numbers[key] = first + second;
  }
  return {
    ...heavier,
    startS: one.startS,
    endS: Math.max(one.endS, other.endS),
    numbers,
    weight: Math.min(1, one.weight + other.weight),
  };
}

/** Leaves out what a pattern already shows: a lapse inside a run of breaks, or in the pattern's own place. */
export function absorb(candidates: readonly Candidate[]): Candidate[] {
  const patterns = candidates.filter((one) => one.kind === "breakRun" || one.kind === "riseThenOff");
  const within = (one: Candidate) => patterns.some((pattern) => sharedS(pattern, one) >= 0.8 * (one.endS - one.startS));
  return candidates.filter((one) => !(one.kind === "lapse" && one.setBy === "computed" && within(one)));
}

/** The list with its ranks, 1 the one to see first; of equal ones the earlier goes first. */
export function ranked(candidates: readonly Candidate[]): Moment[] {
  const seen = new Map<string, number>();
  const scored = [...candidates]
    .sort((one, other) => other.weight - one.weight || one.startS - other.startS)
    .map((one) => {
      const nth = seen.get(one.kind) ?? 0;
      seen.set(one.kind, nth + 1);
      const [base, climb] = orderOf[one.kind] ?? [80, 0];
      return { one, score: base + climb * one.weight - (one.kind === "marked" ? 0 : stepBack * nth) };
    })
    .sort((one, other) => other.score - one.score || one.one.startS - other.one.startS);
  return scored.map(({ one: { weight: _weight, ...moment } }, index) => ({ ...moment, rank: index + 1 }));
}
