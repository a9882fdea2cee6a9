import type { Athlete, DatedTarget } from "../../contract/athlete.ts";
import type { Setting } from "../../contract/plan.ts";
import type { Ride } from "../../contract/ride.ts";
import { thresholds } from "../thresholds.ts";
import { note, type Note } from "../../contract/notice.ts";

/** A target that holds on a ride's day. */
export interface ChosenTarget extends Omit<DatedTarget, "date"> {
  /** Day it was found, `YYYY-MM-DD`; null: not said. */
  readonly date: string | null;
}

const DAY_MS = 86_400_000;

/** Start of a ride on the rider's own clock, as ms since 1970 of that clock; null when the file has no date. */
export function localStartMs(ride: Pick<Ride, "startUtcMs" | "utcOffsetMin">): number | null {
  return ride.startUtcMs === null ? null : ride.startUtcMs + (ride.utcOffsetMin ?? 0) * 60_000;
}

/** Road for the road and for a group, trainer for the trainer. */
export function whereOf(setting: Setting): "road" | "trainer" {
  return setting === "trainer" ? "trainer" : "road";
}

/**
 * The newest of the athlete's targets found on or before the ride's day for its setting; null where there is none. One
 * in force without a day is taken to be newer than all before it.
 *
 * @param rideLocalMs start of the ride on the local clock, as ms since 1970 (UTC plus the offset); null when the file has no date: then the newest target holds
 */
export function targetFor(athlete: Athlete, setting: Setting, rideLocalMs: number | null): ChosenTarget | null {
  const { targetW, toleranceW, foundDate, foundHow, foundMeter, earlier } = athlete[whereOf(setting)];
  const before = [...earlier].sort((one, other) => Date.parse(one.date) - Date.parse(other.date));
  const now: ChosenTarget[] =
    targetW === null ? [] : [{ date: foundDate, targetW, toleranceW, source: foundHow, meter: foundMeter }];
  const untilMs = rideLocalMs ?? Infinity;
  let lastMs = -Infinity;
  const dated = [...before, ...now].map((target) => ({
    target,
    foundMs: (lastMs = target.date === null ? lastMs : Date.parse(target.date)),
  }));
  return (
    dated
      .filter(({ foundMs }) => foundMs <= untilMs)
      .sort((one, other) => one.foundMs - other.foundMs)
      .at(-1)?.target ?? null
  );
}

/**
 * What should be said about the athlete's target where a ride is judged by it: more than 8 weeks old, or found with
 * another meter than the one ridden with. Empty where the plan asks for something else.
 *
 * @param askedW target of the plan in force, W; null: none
 */
export function targetWarnings(
  athlete: Athlete,
  setting: Setting,
  rideLocalMs: number | null,
  askedW: number | null,
): Note[] {
  const where = whereOf(setting);
  const { targetW, meter, earlier } = athlete[where];
  const target = targetFor(athlete, setting, rideLocalMs);
  if (target === null) {
    const any = targetW !== null || earlier.length > 0;
    return any && askedW === null ? [note("target-all-later", { where })] : [];
  }
  if (askedW !== target.targetW) return [];
  const found: Note[] = [];
  const ageDays =
    rideLocalMs === null || target.date === null ? 0 : Math.floor((rideLocalMs - Date.parse(target.date)) / DAY_MS);
  if (ageDays > thresholds.target.oldDays && target.date !== null) {
    const { source, date } = target;
    found.push(note("target-old", { where, targetW: target.targetW, source, date, weeks: Math.floor(ageDays / 7) }));
  }
  if (target.meter !== null && meter !== null && target.meter.trim() !== meter.trim()) {
    found.push(note("target-other-meter", { where, targetW: target.targetW, foundMeter: target.meter, meter }));
  }
  return found;
}
