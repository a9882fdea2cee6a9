import { type CreationMark, claimedStart } from "./claimedStart.ts";
import type { ClockGroup } from "./clockGroups.ts";

/** One way to read a camera's clock: what its time marks, and how far it runs from UTC by its zone. */
export interface ClockHypothesis {
  readonly mark: CreationMark;
  /** Camera clock minus UTC by the zone it was taken to be in, min: a multiple of 15. */
  readonly zoneMin: number;
  /** Ride time of the first frame of each recording of the group, s; null where a recording has no clock. */
  readonly startsS: readonly (number | null)[];
  /** Probability before anything is heard or seen; all hypotheses together make 1. */
  readonly weight: number;
}

/** Zones run from -12 to +14 h in quarter hours. */
const QUARTERS = Array.from({ length: 105 }, (_, k) => (k - 48) * 15);

/** A camera's time is UTC or the ride's local time as a rule, an hour off it at a change of daylight saving, else anything. */
function zoneWeight(zoneMin: number, rideOffsetMin: number | null): number {
  let weight = 0.1 / QUARTERS.length;
  if (zoneMin === 0) weight += 0.35;
  if (rideOffsetMin === null) return weight + 0.55 / QUARTERS.length;
  if (zoneMin === rideOffsetMin) weight += 0.45;
  if (Math.abs(zoneMin - rideOffsetMin) === 60) weight += 0.05;
  return weight;
}

/**
 * The ways to read a group's clock that put at least 60 % of some recording inside the ride, likeliest first.
 * Empty when the ride or the group has no calendar time, or when none does.
 */
export function clockHypotheses(
  group: ClockGroup,
  ride: { readonly startUtcMs: number | null; readonly elapsedS: number },
  rideOffsetMin: number | null,
): ClockHypothesis[] {
  if (ride.startUtcMs === null) return [];
  const rideStartS = ride.startUtcMs / 1000;
  const marks: readonly CreationMark[] = group.mark ? [group.mark] : ["start", "end"];
  const found: ClockHypothesis[] = [];
  for (const mark of marks) {
    const claimed = group.recordings.map((recording) => claimedStart(recording.clips[0]!, mark));
    for (const zoneMin of QUARTERS) {
      const startsS = claimed.map((at) => (at === null ? null : at - zoneMin * 60 - rideStartS));
      let filmedS = 0;
      let insideS = 0;
      let fits = false;
      startsS.forEach((startS, k) => {
        if (startS === null) return;
        const lengthS = group.recordings[k]!.durationS;
        const inside = Math.max(0, Math.min(startS + lengthS, ride.elapsedS) - Math.max(startS, 0));
        filmedS += lengthS;
        insideS += inside;
        fits = fits || inside >= 0.6 * lengthS;
      });
      if (!fits) continue;
      const markWeight = group.mark ? 1 : mark === "start" ? 0.8 : 0.2;
      found.push({
        mark,
        zoneMin,
        startsS,
        weight: markWeight * zoneWeight(zoneMin, rideOffsetMin) * (insideS / filmedS),
      });
    }
  }
  const total = found.reduce((sum, h) => sum + h.weight, 0);
  return found.map((h) => ({ ...h, weight: h.weight / total })).sort((a, b) => b.weight - a.weight);
}
