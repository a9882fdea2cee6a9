import type { DebriefFacts, LastLikeRide } from "../../contract/debriefFacts.ts";
import type { Plan } from "../../contract/plan.ts";
import type { Reading } from "../../contract/reading.ts";
import type { Ride } from "../../contract/ride.ts";
import type { RideFigures } from "../../contract/rideFigures.ts";
import { DAY_TO_DAY_BEATS, LIKE_LENGTH, LIKE_POWER } from "../../contract/likeRides.ts";

/** Shares and counts that differ by less say nothing: percent of the main part, breaks an hour. Own choice. */
const SHARE_POINTS = 5;
const BREAKS_AN_HOUR = 1;
const DAY_MS = 86_400_000;

const near = (value: number, other: number, share: number): boolean =>
  Math.abs(value - other) <= share * Math.abs(other);

/** Days between this ride and the athlete's last before it, whole; null: none known. */
export function daysSince(ride: Ride, earlier: readonly RideFigures[]): number | null {
  const starts = earlier.flatMap(({ startUtcMs }) => startUtcMs ?? []);
  if (ride.startUtcMs === null || starts.length === 0) return null;
  return Math.floor((ride.startUtcMs - Math.max(...starts)) / DAY_MS);
}

/** Length that the athlete's last ride before this one asked for, s; null where nothing was asked. */
export function askedLast(earlier: readonly RideFigures[]): number | null {
  const dated = earlier.filter(({ startUtcMs }) => startUtcMs !== null);
  return dated.length === 0
    ? null
    : dated.reduce((last, one) => (one.startUtcMs! > last.startUtcMs! ? one : last)).askedS;
}

/** What this ride is beside the last like it; null: there is none. Only differences larger than chance are told. */
export function lastLikeRide(
  plan: Plan,
  reading: Pick<Reading, "drift" | "pressure">,
  facts: Pick<DebriefFacts, "mainS" | "shares" | "meanW">,
  earlier: readonly RideFigures[],
): LastLikeRide | null {
  const meanW = facts.meanW;
  const like = earlier
    .filter(
      (one) =>
        one.startUtcMs !== null &&
        near(one.countedS, facts.mainS, LIKE_LENGTH) &&
        (one.meanW === null || meanW === null
          ? one.meanW === meanW
          : near(one.meanW + one.meterOffsetW, meanW + plan.meterOffsetW, LIKE_POWER)),
    )
    .reduce<RideFigures | null>(
      (newest, one) => (newest === null || one.startUtcMs! > newest.startUtcMs! ? one : newest),
      null,
    );
  if (like === null) return null;
  const hours = facts.mainS / 3600;
  const now = facts.shares === null ? null : facts.shares.inPercent;
  const before = like.inMainPercent;
  const lapsesNow = reading.pressure.cranksKnown && hours > 0 ? reading.pressure.lapses / hours : null;
  const lapsesBefore = like.lapses === null || like.countedS <= 0 ? null : like.lapses / (like.countedS / 3600);
  const tenth = (value: number): number => Math.round(10 * value) / 10;
  const { firstBpm, firstPowerW } = reading.drift;
  const samePower =
    firstPowerW !== null &&
    like.firstPowerW !== null &&
    near(like.firstPowerW + like.meterOffsetW, firstPowerW + plan.meterOffsetW, LIKE_POWER);
  const beats = firstBpm === null || like.firstBpm === null ? 0 : Math.round(firstBpm) - Math.round(like.firstBpm);
  return {
    startUtcMs: like.startUtcMs!,
    inBand: now !== null && before !== null && Math.abs(now - before) >= SHARE_POINTS ? { before, now } : null,
    breaksAnHour:
      lapsesNow !== null && lapsesBefore !== null && Math.abs(lapsesNow - lapsesBefore) >= BREAKS_AN_HOUR
        ? { before: tenth(lapsesBefore), now: tenth(lapsesNow) }
        : null,
    heart: samePower && Math.abs(beats) > DAY_TO_DAY_BEATS ? { beats, giveOrTake: DAY_TO_DAY_BEATS } : null,
  };
}
