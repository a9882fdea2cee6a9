import type { DebriefFacts } from "../contract/debriefFacts.ts";
import type { Plan } from "../contract/plan.ts";
import type { Reading } from "../contract/reading.ts";
import type { Ride } from "../contract/ride.ts";
import type { RideFigures, RoadFigures } from "../contract/rideFigures.ts";

/**
 * The figures of a ride that the weeks compare, from its reading. Breaks that the road excuses enter none of them.
 * @param askedS length that the debrief asks the next ride to have, s
 */
export function rideFigures(
  ride: Ride,
  plan: Plan,
  reading: Reading,
  facts: Pick<DebriefFacts, "shares" | "drift" | "again">,
  askedS: number | null,
): RideFigures {
  const { pressure, drift, target, counted } = reading;
  let sumW = 0;
  let countW = 0;
  for (const stretch of counted.stretches)
    for (const watts of ride.grid.power?.value.subarray(Math.floor(stretch.startS), Math.ceil(stretch.endS)) ?? [])
      if (Number.isFinite(watts)) {
        sumW += watts;
        countW++;
      }
  const judgedS = pressure.inBandS + pressure.belowS + pressure.aboveS + pressure.offS - pressure.excusedOffS;
  return {
    title: plan.title,
    startUtcMs: ride.startUtcMs,
    utcOffsetMin: ride.utcOffsetMin,
    setting: reading.setting,
    countedS: counted.stretches.reduce((sum, stretch) => sum + stretch.endS - stretch.startS, 0),
    meanW: countW === 0 ? null : sumW / countW,
    targetW: reading.bandW?.target ?? null,
    meterOffsetW: plan.meterOffsetW,
    firstBpm: drift.firstBpm,
    firstPowerW: drift.firstPowerW,
    lastBpm: drift.lastBpm,
    riseBeats: drift.riseBeats,
    driftBeats: drift.driftBeats,
    uncertaintyBeats: drift.uncertaintyBeats,
    correctedForPower: drift.correctedForPower,
    driftCanTell: facts.drift?.canTell ?? false,
    verdict: drift.verdict,
    heldLowS: target.heldLowS,
    heldHighS: target.heldHighS,
    eventS: target.eventS,
    eventName: plan.eventName,
    leastS: target.minimumS,
    aimS: target.aimS,
    inBandPercent: pressure.judgedBy === null || judgedS <= 0 ? null : (100 * pressure.inBandS) / judgedS,
    inMainPercent: facts.shares?.inPercent ?? null,
    askedS,
    lapses: pressure.cranksKnown ? pressure.lapses : null,
    roads: roadFigures(facts),
  };
}

/** What is kept of the roads that were ridden before. */
export function roadFigures({ again }: Pick<DebriefFacts, "again">): RoadFigures[] {
  return again.map(({ kind, lengthM, startUtcMs, now, before }) => ({ kind, lengthM, startUtcMs, now, before }));
}
