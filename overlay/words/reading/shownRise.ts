/** Beats from the first to the last heart reading, and their share of the first in percent. */
export interface ShownRise {
  readonly beats: number;
  readonly percent: number;
}

/**
 * Watts between the means of two readings that a meter can tell apart; a smaller step is no reason for anything. Common
 * practice, no source: meters are good to 1 or 2 %.
 */
export const TOLD_APART_W = 5;

/**
 * The rise as it is shown everywhere: the last reading as shown minus the first as shown, both whole beats, so that
 * what stands side by side adds up (153 to 167 is 14, though 152.6 to 167.4 is 14.8). The JSON keeps the unrounded
 * `riseBeats`. Null where a reading is missing.
 */
export function shownRise(firstBpm: number | null, lastBpm: number | null): ShownRise | null {
  if (firstBpm === null || lastBpm === null) return null;
  const first = Math.round(firstBpm);
  const beats = Math.round(lastBpm) - first;
  return { beats, percent: (100 * beats) / first };
}
