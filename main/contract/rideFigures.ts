/** The figures of one debriefed ride that the weeks compare; kept in `debrief.json`. Null: cannot be known. */
import type { RiddenAgain } from "./debriefFacts.ts";
import type { Setting } from "./plan.ts";
import type { DriftVerdict } from "./reading.ts";

export interface RideFigures {
  readonly title: string | null;
  /** Start, UTC, ms since 1970; null for a ride without a calendar date, which the weeks leave out. */
  readonly startUtcMs: number | null;
  readonly utcOffsetMin: number | null;
  readonly setting: Setting;
  readonly countedS: number;
  /** Mean power of the counted part as the meter gave it, zeros counted, W. */
  readonly meanW: number | null;
  readonly targetW: number | null;
  /** What the meter reads too low (positive), W. */
  readonly meterOffsetW: number;
  readonly firstBpm: number | null;
  /** Power that the heart answered to over the first reading, as the meter gave it, W. */
  readonly firstPowerW: number | null;
  readonly lastBpm: number | null;
  readonly riseBeats: number | null;
  readonly driftBeats: number | null;
  readonly uncertaintyBeats: number | null;
  readonly correctedForPower: boolean;
  /** What the debrief said of it: false where its error was too wide to tell. Null: saved before that was kept. */
  readonly driftCanTell: boolean | null;
  readonly verdict: DriftVerdict;
  /** Drift-free time, s; high null with a low: at least so long. */
  readonly heldLowS: number | null;
  readonly heldHighS: number | null;
  readonly eventS: number | null;
  readonly eventName: string | null;
  readonly leastS: number | null;
  readonly aimS: number | null;
  /** Share of the counted part, excused off seconds left out of the whole, percent. */
  readonly inBandPercent: number | null;
  /** Share of the whole main part, as the debrief says it, whole percent. */
  readonly inMainPercent: number | null;
  /** Length of the main part that the debrief asks the next ride to have, s; null: nothing is asked. */
  readonly askedS: number | null;
  readonly lapses: number | null;
  /** Roads that were ridden before, as both rides rode them. Missing: not looked for. */
  readonly roads?: readonly RoadFigures[];
}

export type RoadFigures = Pick<RiddenAgain, "kind" | "lengthM" | "startUtcMs" | "now" | "before">;
