import type { Reading } from "../contract/reading.ts";
import type { Ride, Span } from "../contract/ride.ts";
import type { PageFacts } from "../../overlay/words/debriefPhrases.ts";
import type { HandoverData } from "./handoverData.ts";

function meanOver(
  column: Float64Array | undefined,
  spans: readonly Span[],
  keep: (value: number) => boolean,
): number | null {
  if (column === undefined) return null;
  let sum = 0;
  let count = 0;
  for (const span of spans)
    for (const value of column.subarray(Math.floor(span.startS), Math.ceil(span.endS)))
      if (Number.isFinite(value) && keep(value)) {
        sum += value;
        count++;
      }
  return count === 0 ? null : sum / count;
}

function shares(reading: Reading): Pick<PageFacts, "inBandPercent" | "belowPercent" | "abovePercent" | "offPercent"> {
  const { pressure } = reading;
  const knownS = pressure.inBandS + pressure.belowS + pressure.aboveS + pressure.offS;
  const percent = (seconds: number, known: boolean): number | null =>
    known && knownS > 0 ? (100 * seconds) / knownS : null;
  const judged = pressure.judgedBy !== null;
  return {
    inBandPercent: percent(pressure.inBandS, judged),
    belowPercent: percent(pressure.belowS, judged),
    abovePercent: percent(pressure.aboveS, judged),
    offPercent: percent(pressure.offS, pressure.cranksKnown),
  };
}

/** The figures of the page's table, over the main part: zeros of power counted, cadence while pedalling. */
export function pageFacts(data: HandoverData): PageFacts {
  const { ride, reading }: { ride: Ride; reading: Reading } = data;
  const spans = reading.counted.stretches.length > 0 ? reading.counted.stretches : [reading.counted];
  return {
    plan: data.planFacts,
    distanceM: data.distanceM,
    elapsedS: ride.elapsedS,
    units: data.units,
    meanW: meanOver(ride.grid.power?.value, spans, () => true),
    ...shares(reading),
    meanBpm: meanOver(ride.grid.heartRate?.value, spans, () => true),
    meanRpm: meanOver(ride.grid.cadence?.value, spans, (value) => value > 0),
    longestUnbrokenS:
      reading.pressure.cranksKnown && reading.pressure.longestUnbrokenS > 0 ? reading.pressure.longestUnbrokenS : null,
  };
}
