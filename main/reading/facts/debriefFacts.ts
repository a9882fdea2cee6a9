import type { BlockFacts, DebriefFacts, DriftFacts } from "../../contract/debriefFacts.ts";
import type { Plan } from "../../contract/plan.ts";
import { PressureState, type DriftReading, type Reading } from "../../contract/reading.ts";
import type { Ride, Span } from "../../contract/ride.ts";
import { meanOf } from "../../maths/statistics.ts";
import { shownRise } from "../../../overlay/words/reading/shownRise.ts";
import { shownClass, shownPressed, shownShares } from "../../../overlay/words/reading/shownShares.ts";
import type { RideFigures } from "../../contract/rideFigures.ts";
import { lengthS } from "../spans.ts";
import { bestHour, evenPower, evenRise } from "./bestOf.ts";
import { askableBreaks } from "./askable.ts";
import { askedLast, daysSince, lastLikeRide } from "./lastLikeRide.ts";
import { noteHold } from "./noteHold.ts";

/** Length of the centred mean that shares are judged by, s. */
const MEAN_OVER_S = 30;
/** Shares of a main part of which less is known say nothing. Own choice. */
const KNOWN_SHARE = 0.5;
/** Shares of a main part shorter than this say nothing, s. Own choice. */
const LEAST_SHARES_S = 60;
/** Readings at powers further apart than this are not compared: what a beat is worth is not known so well. W, own choice. */
const COMPARED_W = 25;
/** A planned effort is done from this share of its length at the band or above; own choice. */
const DONE_SHARE = 0.8;

/** All that a debrief says of a ride in figures, from its reading. Docstrings of the figures stand in the contract. */
export function debriefFacts(
  ride: Ride,
  plan: Plan,
  reading: Reading,
  earlier: readonly RideFigures[] = [],
  again: DebriefFacts["again"] = [],
): DebriefFacts {
  const { pressure, counted, breaks, surges, columns } = reading;
  const { byGradient } = pressure;
  const spans = counted.stretches;
  const efforts = plan.blocks.filter(({ kind }) => kind === "effort");
  const whole = (value: number | null): number | null => (value === null ? null : Math.round(value));
  const { inBandS, belowS, aboveS, offS } = pressure;
  const mainS = spans.reduce((sum, span) => sum + lengthS(span), 0);
  const mostlyKnown =
    pressure.judgedBy !== null && mainS >= LEAST_SHARES_S && inBandS + belowS + aboveS + offS >= KNOWN_SHARE * mainS;
  const base = {
    judgedBy: pressure.judgedBy,
    meanOverS: MEAN_OVER_S,
    mainS,
    shares: mostlyKnown ? shownShares(pressure, pressure.unknownS) : null,
    sharesByRoad:
      !mostlyKnown || byGradient === null
        ? null
        : { up: shownClass(byGradient.up), flat: shownClass(byGradient.flat), down: shownClass(byGradient.down) },
    pressed: pressure.cranksKnown && mainS >= LEAST_SHARES_S ? shownPressed(pressure, pressure.unknownS) : null,
    meanW: whole(reading.base.meanW),
    meanBpm: whole(reading.base.meanBpm),
    meanRpm: whole(reading.base.meanRpm),
    longestUnbrokenS: pressure.cranksKnown && pressure.longestUnbrokenS > 0 ? pressure.longestUnbrokenS : null,
    askable: askableBreaks(ride, plan.setting, breaks, surges, columns.pressureState, efforts),
    bestHour: pressure.judgedBy === null ? null : bestHour(spans, columns.pressureState),
    evenRise: pressure.judgedBy === "power" && plan.setting !== "trainer" ? evenRise(ride, reading) : null,
    evenPower: evenPower(ride, reading),
    drift: driftFacts(reading.drift, plan.driftLimitBeats),
    blocks: plan.blocks.flatMap((block): BlockFacts[] =>
      block.kind === "rest" ? [] : [blockFacts(ride, plan, block, columns.pressureState)],
    ),
    hold: noteHold(plan.note),
    targetDoubt: reading.targetDoubt,
    askedLastS: askedLast(earlier),
    daysSinceLast: daysSince(ride, earlier),
    again,
  };
  return { ...base, lastLike: lastLikeRide(plan, reading, base, earlier) };
}

/** What a ride can say of the heart at the same power; null where a reading or power over it is missing. */
export function driftFacts(
  drift: Pick<
    DriftReading,
    "firstBpm" | "lastBpm" | "driftBeats" | "uncertaintyBeats" | "firstPowerW" | "lastPowerW" | "correctedForPower"
  >,
  limitBeats: number,
): DriftFacts | null {
  const rise = shownRise(drift.firstBpm, drift.lastBpm);
  if (rise === null || drift.driftBeats === null || drift.uncertaintyBeats === null) return null;
  const stepW = Math.abs((drift.lastPowerW ?? 0) - (drift.firstPowerW ?? 0));
  return {
    // Without power the drift is the rise itself, and is told as the same whole beats.
    beats: drift.correctedForPower ? Math.round(drift.driftBeats) : rise.beats,
    giveOrTake: Math.max(1, Math.round(drift.uncertaintyBeats)),
    canTell: drift.correctedForPower && drift.uncertaintyBeats <= limitBeats && stepW <= COMPARED_W,
  };
}

function blockFacts(ride: Ride, plan: Plan, block: Plan["blocks"][number], states: Uint8Array): BlockFacts {
  const startS = Math.max(0, Math.floor(block.startS));
  const endS = Math.min(ride.grid.seconds, Math.ceil(block.endS));
  const span: Span = { startS: block.startS, endS: block.endS };
  const power = ride.grid.power?.value;
  const targetW = block.targetW ?? plan.targetW;
  const mean = (from: number, to: number): number | null => {
    const watts = power === undefined ? NaN : meanOf(power, from, to);
    return Number.isFinite(watts) ? Math.round(watts) : null;
  };
  const seconds = states.subarray(startS, Math.max(startS, endS));
  const count = (...wanted: readonly PressureState[]): number =>
    seconds.reduce((sum, state) => sum + (wanted.includes(state as PressureState) ? 1 : 0), 0);
  const known = seconds.length - count(PressureState.unknown);
  const meanW = mean(startS, endS);
  const middleS = Math.floor((startS + endS) / 2);
  const first = mean(startS, middleS);
  const second = mean(middleS, endS);
  const atOrAbove = count(PressureState.in, PressureState.above);
  const lowW =
    targetW === null ? null : targetW - plan.meterOffsetW - (block.toleranceW ?? plan.toleranceW ?? 0.05 * targetW);
  return {
    ...span,
    kind: block.kind === "effort" ? "effort" : "steady",
    targetW: targetW === null ? null : Math.round(targetW - plan.meterOffsetW),
    meanW,
    inPercent: targetW === null || known === 0 ? null : Math.round((100 * count(PressureState.in)) / known),
    halvesStepW: first === null || second === null ? null : second - first,
    done:
      lowW === null || meanW === null || known < 0.5 * (block.endS - block.startS)
        ? null
        : meanW >= lowW && atOrAbove >= DONE_SHARE * (block.endS - block.startS),
  };
}
