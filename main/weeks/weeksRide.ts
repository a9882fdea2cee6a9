import type { RideFigures } from "../contract/rideFigures.ts";

/** A drift with a wider error told nothing, where an older debrief does not say itself whether it could tell, beats. */
const TELLS_WITHIN_BEATS = 5;

/** One ride of the log. */
export interface WeeksRide {
  readonly figures: RideFigures;
  /** Folder name of the debrief. */
  readonly name: string;
  readonly startUtcMs: number;
  /** True where duration and power are like the newest ride's: only such rides are compared. */
  readonly like: boolean;
}

/** True where a ride could tell its drift: only such rides are counted and drawn; a wide error is no figure. */
export function couldTell({ figures }: Pick<WeeksRide, "figures">): boolean {
  const { driftBeats, uncertaintyBeats, correctedForPower, driftCanTell } = figures;
  if (driftBeats === null) return false;
  return driftCanTell ?? (correctedForPower && uncertaintyBeats !== null && uncertaintyBeats <= TELLS_WITHIN_BEATS);
}
