import { shownRise, TOLD_APART_W } from "../../../overlay/words/reading/shownRise.ts";
import type { Plan } from "../../contract/plan.ts";
import type { CountedPart, DriftReading } from "../../contract/reading.ts";
import type { Ride, Span } from "../../contract/ride.ts";
import { meanOf } from "../../maths/statistics.ts";
import { planBand } from "../band.ts";
import { joinSpans, lengthS, maskOf } from "../spans.ts";
import { stopsOf } from "../stops.ts";
import { thresholds } from "../thresholds.ts";
import { confoundsOf, missingShare } from "./confounds.ts";
import { firstReading, lastReading, readingOver, type HeartColumns, type HeartReading } from "./heartReadings.ts";
import { laggedPowerW } from "./laggedPower.ts";
import { findOnset, type Onset } from "./onset.ts";
import { note, type Note } from "../../contract/notice.ts";
import type { Confound, HeartTrouble } from "../../contract/notices/reading.ts";

const limits = thresholds.drift;

/** Readings and onset that the coach set; null where the program's own hold. */
export interface DriftChoices {
  /** Middle of the first and of the last reading, ride time, s. */
  readonly firstAtS: number | null;
  readonly lastAtS: number | null;
  /** `undefined`: not set; null: the coach says that there is none. */
  readonly onsetS: number | null | undefined;
}

/** The drift with what panels and words need beside it. */
export interface DriftFound {
  readonly drift: DriftReading;
  readonly first: HeartReading | null;
  /** The judged stretch that readings and onset come from; null when nothing is judged. */
  readonly stretch: Span | null;
  readonly laggedW: Float64Array | null;
  readonly onset: Onset;
  readonly warnings: readonly Note[];
}

/** The parts between long stops; stretches parted by no more than a planned rest or a stop of 5 min count as one. */
export function driftStretches(counted: CountedPart): Span[] {
  return joinSpans(counted.stretches, thresholds.counted.longStopS);
}

/** The longest judged stretch; stretches parted by no more than a planned rest or a stop of 5 min count as one. */
function driftStretch(counted: CountedPart): Span | null {
  return driftStretches(counted).reduce<Span | null>(
    (best, next) => (best && lengthS(best) >= lengthS(next) ? best : next),
    null,
  );
}

/** Readings, rise, drift at equal power and onset of a ride. Values that the data can't show are null. */
export function driftReading(
  ride: Ride,
  plan: Plan,
  counted: CountedPart,
  choices: DriftChoices,
  stretch: Span | null = driftStretch(counted),
): DriftFound {
  const heart = ride.grid.heartRate;
  const none: Omit<DriftFound, "warnings"> = {
    drift: emptyDrift(ride.grid.power !== null, confoundsOf(ride, plan, stretch)),
    first: null,
    stretch,
    laggedW: null,
    onset: { verdict: "not enough data", notes: [] },
  };
  if (!heart || !stretch) return { ...none, warnings: [] };
  const missing = missingShare(ride, heart.value, stretch);
  if (missing > limits.missingShare) {
    return { ...none, warnings: [note("heart-mostly-missing", { percent: 100 * missing })] };
  }

  const stops = stopsOf(ride, limits.disturbingStopS);
  const standing = maskOf(stopsOf(ride, 1), ride.grid.seconds);
  // A recorder that stops by itself keeps no heart rate of a stand: nobody's is used, so that both read the same.
  const riding = heart.value.map((bpm, s) => (standing[s] === 1 ? NaN : bpm));
  const power = ride.grid.power?.value ?? null;
  const meanW = power ? meanOf(power, stretch.startS, stretch.endS) : NaN;
  const referenceW = (power && planBand(plan)?.targetW) ?? (Number.isFinite(meanW) ? meanW : 0);
  const onset = findOnset({
    heartBpm: riding,
    powerW: power,
    standing,
    stops,
    stretch,
    referenceW,
    variable: ride.mode === "variable",
  });
  const fit = "fit" in onset ? onset.fit : null;
  const laggedW = power ? laggedPowerW(power, fit?.tauS ?? limits.lagS, standing) : null;
  const beatsPerWatt = fit?.beatsPerWatt ?? limits.beatsPerWatt;
  const adjustedBpm = laggedW ? riding.map((bpm, s) => bpm - beatsPerWatt * (laggedW[s] - referenceW)) : riding;
  const columns: HeartColumns = { heartBpm: riding, adjustedBpm, laggedW, stops };

  const warnings: Note[] = [];
  if (counted.stretches.reduce((sum, one) => sum + lengthS(one), 0) - lengthS(stretch) > limits.readingS) {
    warnings.push(note("heart-of-longest-part", { startS: stretch.startS, endS: stretch.endS }));
  }
  const foundFirst = firstReading(columns, stretch);
  const first = choices.firstAtS === null ? foundFirst.reading : readingOver(columns, around(choices.firstAtS));
  const foundLast = lastReading(columns, stretch, (foundFirst.reading?.span.endS ?? stretch.startS) + limits.readingS);
  const last = choices.lastAtS === null ? foundLast.reading : readingOver(columns, around(choices.lastAtS));
  if (choices.firstAtS === null) warnings.push(...saidOf("first", foundFirst.reading, foundFirst.moved));
  if (choices.lastAtS === null) warnings.push(...saidOf("last", foundLast.reading, foundLast.moved));

  const rise = first && last ? last.bpm - first.bpm : null;
  const difference = first && last ? last.adjustedBpm - first.adjustedBpm : NaN;
  // Without power over one of the readings nothing is known at equal power.
  const drift = Number.isFinite(difference) ? difference : null;
  const uncertainty =
    drift === null
      ? null
      : uncertaintyBeats(fit?.sigmaBeats, fit?.rho, fit?.beatsPerWattError ?? limits.beatsPerWattError, first, last);
  const coachOnset = choices.onsetS;
  const verdict = coachOnset === undefined ? onset.verdict : coachOnset === null ? "no drift shown" : "began";
  const computed = onset.verdict === "began" || onset.verdict === "start unclear" ? onset : null;
  return {
    drift: {
      firstBpm: first?.bpm ?? null,
      firstAtS: first ? (first.span.startS + first.span.endS) / 2 : null,
      firstPowerW: first && Number.isFinite(first.laggedW) ? first.laggedW : null,
      lastBpm: last?.bpm ?? null,
      lastAtS: last ? (last.span.startS + last.span.endS) / 2 : null,
      lastPowerW: last && Number.isFinite(last.laggedW) ? last.laggedW : null,
      riseBeats: rise,
      risePercent: first && rise !== null ? (100 * rise) / first.bpm : null,
      driftBeats: drift,
      driftPercent: first && drift !== null ? (100 * drift) / first.adjustedBpm : null,
      uncertaintyBeats: uncertainty,
      // In whole beats, as both are told: shown is what its own range parts from 0.
      isShown: drift !== null && uncertainty !== null && Math.abs(Math.round(drift)) > Math.round(uncertainty),
      correctedForPower: laggedW !== null,
      differsByPowerStepW: powerStepW(drift, first, last),
      ...halves(ride, stretch),
      onsetS: coachOnset === undefined ? (computed && onset.verdict === "began" ? computed.onsetS : null) : coachOnset,
      onsetLowS: coachOnset === undefined ? (computed?.lowS ?? null) : coachOnset,
      onsetHighS: coachOnset === undefined ? (computed?.highS ?? null) : coachOnset,
      verdict,
      confounds: confoundsOf(ride, plan, stretch),
    },
    first,
    stretch,
    laggedW,
    onset,
    warnings: shortOnce([...warnings, ...onset.notes]),
  };
}

/** A part too short for both readings is said once, not a line for each thing that it can't show. */
function shortOnce(notes: readonly Note[]): readonly Note[] {
  const tooShort = notes.filter((one) => one.code === "heart-reading-absent" && one.facts.why === null);
  if (tooShort.length < 2) return notes;
  const said: ReadonlySet<string> = new Set([
    "heart-reading-absent",
    "onset-too-few-minutes",
    "onset-minutes-left-out",
  ]);
  return [...notes.filter(({ code }) => !said.has(code)), note("heart-part-too-short", {})];
}

function around(middleS: number): Span {
  const startS = Math.round(middleS - limits.readingS / 2);
  return { startS, endS: startS + limits.readingS };
}

function saidOf(which: "first" | "last", reading: HeartReading | null, moved: HeartTrouble | null): Note[] {
  if (!reading) return [note("heart-reading-absent", { which, why: moved })];
  return moved ? [note("heart-reading-moved", { which, why: moved })] : [];
}

/**
 * Half-width of about 95 % of a difference of two five-minute means of 60 s blocks with AR(1) noise:
 * Var(mean of m) = s2/m2 (m + 2 sum (m - k) r^k), how far a heart wanders by itself, and what the beats-per-watt figure
 * leaves open. Calibrated by test/bench/calibration.bench.ts: the printed range holds the true drift in 90 % of rides.
 */
function uncertaintyBeats(
  sigmaBeats: number = limits.noiseBeats,
  rho: number = limits.noiseCorrelation,
  beatsPerWattError = 0,
  first: HeartReading | null = null,
  last: HeartReading | null = null,
): number {
  const blocks = limits.readingS / 60;
  let sum = blocks;
  for (let k = 1; k < blocks; k++) sum += 2 * (blocks - k) * rho ** k;
  const ofMean = (sigmaBeats ** 2 / blocks ** 2) * sum + limits.wanderBeats ** 2;
  const stepW = (last?.laggedW ?? NaN) - (first?.laggedW ?? NaN);
  const ofPower = Number.isFinite(stepW) ? (stepW * beatsPerWattError) ** 2 : 0;
  return Math.max(limits.shownBeats, 1.96 * Math.sqrt(2 * ofMean + ofPower));
}

/**
 * How much higher power was over the last reading, whole W; null where rise and drift show the same whole beats, 0 where
 * whole beats and what a meter can't tell apart are all that parts them.
 */
function powerStepW(drift: number | null, first: HeartReading | null, last: HeartReading | null): number | null {
  const rise = shownRise(first?.bpm ?? null, last?.bpm ?? null);
  if (rise === null || drift === null || rise.beats === Math.round(drift)) return null;
  const stepW = Math.round((last?.laggedW ?? NaN) - (first?.laggedW ?? NaN));
  if (!Number.isFinite(stepW) || !first || !last) return null;
  const exactBeats = last.bpm - first.bpm - drift;
  return Math.abs(stepW) < TOLD_APART_W && Math.abs(exactBeats) < limits.roundingBeats ? 0 : stepW;
}

/** Mean power over mean heart rate of each half, on seconds that hold both: 100 (first - second) / first. Null without both. */
function halves(ride: Ride, stretch: Span): Pick<DriftReading, "powerToHeartHalvesPercent" | "halvesPowerStepW"> {
  const none = { powerToHeartHalvesPercent: null, halvesPowerStepW: null };
  const { power, heartRate } = ride.grid;
  if (!power || !heartRate) return none;
  const middle = Math.floor((stretch.startS + stretch.endS) / 2);
  const ratio = (from: number, to: number) => {
    let watts = 0;
    let beats = 0;
    let count = 0;
    for (let s = from; s < to; s++) {
      const p = power.value[s];
      const h = heartRate.value[s];
      if (!Number.isFinite(p + h)) continue;
      watts += p;
      beats += h;
      count++;
    }
    return count >= limits.readingValidS && beats > 0
      ? { ratio: watts / beats, meanW: watts / count }
      : { ratio: NaN, meanW: NaN };
  };
  const one = ratio(stretch.startS, middle);
  const other = ratio(middle, stretch.endS);
  const percent = (100 * (one.ratio - other.ratio)) / one.ratio;
  return Number.isFinite(percent)
    ? { powerToHeartHalvesPercent: percent, halvesPowerStepW: other.meanW - one.meanW }
    : none;
}

function emptyDrift(hasPower: boolean, confounds: readonly Confound[]): DriftReading {
  return {
    firstBpm: null,
    firstAtS: null,
    firstPowerW: null,
    lastBpm: null,
    lastAtS: null,
    lastPowerW: null,
    riseBeats: null,
    risePercent: null,
    driftBeats: null,
    driftPercent: null,
    uncertaintyBeats: null,
    isShown: false,
    correctedForPower: hasPower,
    differsByPowerStepW: null,
    powerToHeartHalvesPercent: null,
    halvesPowerStepW: null,
    onsetS: null,
    onsetLowS: null,
    onsetHighS: null,
    verdict: "not enough data",
    confounds,
  };
}
