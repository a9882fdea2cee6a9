import type { Moment } from "../contract/reading.ts";

/** Moments that may leave the coach's desk: all but those dropped and odd heart readings that nobody picked. */
export function openMoments(
  moments: readonly Moment[],
  picked: readonly number[],
  dropped: ReadonlySet<number>,
): Moment[] {
  return moments.filter((moment, index) => picked.includes(index) || (!moment.coachOnly && !dropped.has(index)));
}

/** The moments as JSON, with the keys of the reading's own contract; times are ride seconds, null can't be known. */
export function momentsJson(moments: readonly Moment[]): string {
  const rows = moments.map(({ kind, startS, endS, reason, excused, rank, numbers, setBy }) => ({
    kind,
    startS,
    endS,
    reason,
    excused,
    rank,
    numbers,
    setBy,
  }));
  return `${JSON.stringify({ moments: rows }, (_key, value: unknown) => (typeof value === "number" && !Number.isFinite(value) ? null : value), 2)}\n`;
}
