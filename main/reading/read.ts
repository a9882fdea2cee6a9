import type { Plan } from "../contract/plan.ts";
import type { AppliedOverride, Override, Reading, CountedPart, PartReading } from "../contract/reading.ts";
import type { Ride, Span } from "../contract/ride.ts";
import { note } from "../contract/notice.ts";
import { meanOf, quantileOf } from "../maths/statistics.ts";
import { askedOf, planBand } from "./band.ts";
import { readingColumns } from "./columns.ts";
import { baseFigures } from "./baseFigures.ts";
import { lengthS } from "./spans.ts";
import { countedPart } from "./counted.ts";
import { driftReading, driftStretches, type DriftFound } from "./drift/driftReading.ts";
import type { EarlierReading } from "./moments/momentContext.ts";
import { momentsOf } from "./moments/moments.ts";
import { applyBreakOverrides, sortOverrides } from "./overrides.ts";
import { breaksOf } from "./pressure/breaks.ts";
import { Cranks, cranksOf } from "./pressure/cranks.ts";
import { longestUnbroken, pressureReading } from "./pressure/pressureReading.ts";
import { judgedBy, pressureStates, summedStates } from "./pressure/pressureStates.ts";
import { roadOf } from "./pressure/road.ts";
import { surgesOf } from "./pressure/surges.ts";
import { notSteady, targetReading } from "./target.ts";
import { targetDoubt } from "./targetDoubt.ts";
import { thresholds } from "./thresholds.ts";
import { readingWarnings } from "./warnings.ts";

/**
 * Judges a ride against its plan, with what the coach overruled.
 *
 * Every ride can be read: what needs a channel or a target that is not there is null or absent, and the warnings say so
 * once. Nothing is random: the same ride, plan and overrides give the same reading.
 *
 * @param earlier first readings of the rider's earlier rides; without five at like power no heart level is called unusual
 */
export function read(
  ride: Ride,
  plan: Plan,
  overrides: readonly Override[],
  earlier: readonly EarlierReading[] = [],
): Reading {
  const sorted = sortOverrides(overrides);
  const counted = countedPart(ride, plan, sorted.counted);
  const askedAt = askedOf(plan);
  const band = planBand(plan);
  const cranks = cranksOf(ride, plan, askedAt);
  const road = roadOf(ride, levelPowerW(ride, cranks, band?.targetW ?? null));

  const computedBreaks = breaksOf({ ride, plan, cranks, road, askedAt, stretches: counted.stretches });
  const overruled = applyBreakOverrides(plan, computedBreaks, sorted);
  const breaks = overruled.breaks;
  const surges = surgesOf(ride, askedAt, road, counted.stretches);
  const states = pressureStates(ride, plan, cranks, askedAt, breaks);
  const by = judgedBy(ride, plan);
  const summed = {
    ride,
    stretches: counted.stretches,
    states: summedStates(ride, plan, states, cranks, counted.stretches),
    cranks,
    breaks,
    surges,
    judgedBy: by,
    roadKnown: plan.setting !== "trainer",
  };

  const found = driftReading(ride, plan, counted, sorted);
  const parts = partReadings(ride, plan, counted, found);
  const base = baseFigures(ride, counted.stretches, states, by !== null, plan.setting !== "trainer");
  const pressure = pressureReading(summed);
  const target = targetReading(
    plan,
    found.drift,
    found.stretch,
    counted.stretches.length <= 1,
    sorted.onsetS !== undefined,
    "seenUntilS" in found.onset ? found.onset.seenUntilS : null,
    notSteady(pressure, found.drift),
  );
  const doubt = targetDoubt(ride, plan, counted.stretches, cranks, askedAt, by);
  const moments = momentsOf({
    ride,
    plan,
    counted,
    breaks,
    surges,
    states,
    judgedBy: by,
    askedAt,
    drift: found.drift,
    earlier,
    onsetSetBy: sorted.onsetS === undefined ? "computed" : "coach",
    longestUnbroken: longestUnbroken(summed, false),
  });

  return {
    setting: plan.setting,
    bandW: band && ride.grid.power ? { low: band.lowW, high: band.highW, target: band.targetW } : null,
    counted,
    pressure,
    cadence: cadenceOf(ride, counted.stretches),
    drift: found.drift,
    base,
    parts,
    target,
    targetDoubt: doubt,
    breaks,
    surges,
    moments,
    overrides: [...appliedOf(ride, plan, sorted), ...overruled.applied],
    unsureOverrides: overruled.unsure,
    columns: readingColumns(ride, states, counted, surges, found),
    warnings: [
      ...(doubt === null ? [] : [note("reading-target-doubt", doubt)]),
      ...readingWarnings(ride, plan, counted, base.steadiestHour, pressure.cranksKnown),
      ...found.warnings,
      ...sorted.warnings,
    ],
  };
}

/** The readings of the parts between long stops that are long enough for one; empty where there are not two. */
function partReadings(ride: Ride, plan: Plan, counted: CountedPart, found: DriftFound): PartReading[] {
  const long = driftStretches(counted).filter((part) => lengthS(part) >= thresholds.base.partS);
  if (long.length < 2) return [];
  const none = { firstAtS: null, lastAtS: null, onsetS: undefined };
  return long.map((part) => {
    const told = part.startS === found.stretch?.startS;
    return { ...part, told, drift: told ? found.drift : driftReading(ride, plan, counted, none, part).drift };
  });
}

/** What this ride's pressure is, W: the target, else the mean while the cranks are pressed, else the usual figure. */
function levelPowerW(ride: Ride, cranks: Uint8Array, targetW: number | null): number {
  if (targetW !== null) return targetW;
  const mean = meanOf(ride.grid.power?.value.filter((_, s) => cranks[s] === Cranks.pressed) ?? []);
  return mean > 0 ? mean : thresholds.excuse.levelW;
}

/** The coach's overrides of counted part, readings and onset, each with what the program computes without any of them. */
function appliedOf(ride: Ride, plan: Plan, sorted: ReturnType<typeof sortOverrides>): AppliedOverride[] {
  if (sorted.values.length === 0) return [];
  const counted = countedPart(ride, plan, null);
  const { drift } = driftReading(ride, plan, counted, { firstAtS: null, lastAtS: null, onsetS: undefined });
  const computed = {
    counted: { startS: counted.startS, endS: counted.endS },
    first: drift.firstAtS,
    last: drift.lastAtS,
    onset: drift.onsetS,
  };
  return sorted.values.map((one) => ({ ...one, computed: computed[one.what] }));
}

/** Cadence of the judged stretches: mean while pedalling, 5th and 95th percentiles. */
function cadenceOf(ride: Ride, stretches: readonly Span[]): Reading["cadence"] {
  const cadence = ride.grid.cadence;
  const turning: number[] = [];
  for (const stretch of cadence ? stretches : []) {
    for (let s = stretch.startS; s < stretch.endS; s++) {
      const rpm = cadence?.value[s] ?? NaN;
      if (rpm > 0) turning.push(rpm);
    }
  }
  const orNull = (value: number) => (Number.isFinite(value) ? value : null);
  return {
    meanRpm: orNull(meanOf(turning)),
    lowRpm: orNull(quantileOf(turning, 0.05)),
    highRpm: orNull(quantileOf(turning, 0.95)),
  };
}
