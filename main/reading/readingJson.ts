import type { Moment, Reading, StateShares } from "../contract/reading.ts";
import type { Notice } from "../contract/notice.ts";
import type { Lap, Span } from "../contract/ride.ts";
import { reasonText } from "./overrides.ts";
import { noticeTexts } from "../../overlay/words/notices/noticeText.ts";
import type { Language } from "../contract/languageAndUnits.ts";
import { confoundText, heldText, riseDiffersText } from "../../overlay/words/reading/driftWords.ts";

/**
 * The object that `followcar read --json` prints, with the keys of the contract. Times are seconds from the ride's first
 * record; what can't be known is null, never 0, and no number is ever NaN.
 *
 * @param summary the `ride` block, as main/ride makes it
 * @param language of what is said in words
 * @param file the ride's laps, and what is odd about its file
 */
export function readingJson(
  summary: object,
  reading: Reading,
  language: Language,
  file: { readonly laps: readonly Lap[]; readonly warnings: readonly Notice[] } = { laps: [], warnings: [] },
): Record<string, unknown> {
  const { counted, pressure, drift, target } = reading;
  const shares = (sums: StateShares) => ({
    inBandS: pressure.judgedBy === null ? null : sums.inBandS,
    belowS: pressure.judgedBy === null ? null : sums.belowS,
    aboveS: pressure.judgedBy === null ? null : sums.aboveS,
    offS: reading.pressure.cranksKnown ? sums.offS : null,
  });
  const known = <Value>(value: Value) => (pressure.cranksKnown ? value : null);
  return finite({
    ride: summary,
    counted: {
      startS: counted.startS,
      endS: counted.endS,
      source: counted.source,
      stretches: counted.stretches.map(spanJson),
    },
    pressure: {
      ...shares(pressure),
      unknownS: pressure.unknownS,
      excusedOffS: known(pressure.excusedOffS),
      cannotTellOffS: known(pressure.cannotTellOffS),
      breaks: known(pressure.breaks),
      lapses: known(pressure.lapses),
      surges: pressure.judgedBy === "power" ? pressure.surges : null,
      longestUnbrokenS: known(pressure.longestUnbrokenS),
      longestUnbrokenStrictS: known(pressure.longestUnbrokenStrictS),
      byGradient: pressure.byGradient && {
        up: shares(pressure.byGradient.up),
        flat: shares(pressure.byGradient.flat),
        down: shares(pressure.byGradient.down),
      },
      swing: pressure.swing,
      swingPedalling: pressure.swingPedalling,
    },
    cadence: reading.cadence,
    drift: {
      firstBpm: drift.firstBpm,
      firstAtS: drift.firstAtS,
      firstPowerW: drift.firstPowerW,
      lastPowerW: drift.lastPowerW,
      lastBpm: drift.lastBpm,
      lastAtS: drift.lastAtS,
      riseBeats: drift.riseBeats,
      risePercent: drift.risePercent,
      driftBeats: drift.driftBeats,
      driftPercent: drift.driftPercent,
      uncertaintyBeats: drift.uncertaintyBeats,
      correctedForPower: drift.correctedForPower,
      whyRiseDiffers: drift.differsByPowerStepW === null ? null : riseDiffersText(drift.differsByPowerStepW, language),
      powerToHeartHalvesPercent: drift.powerToHeartHalvesPercent,
      halvesPowerStepW: drift.halvesPowerStepW,
      onsetS: drift.onsetS,
      onsetLowS: drift.onsetLowS,
      onsetHighS: drift.onsetHighS,
      verdict: drift.verdict,
      confounds: drift.confounds.map((one) => confoundText(one, language)),
    },
    base: reading.base,
    parts: reading.parts.map(({ startS, endS, told, drift: of }) => ({
      startS,
      endS,
      told,
      firstBpm: of.firstBpm,
      lastBpm: of.lastBpm,
      riseBeats: of.riseBeats,
      driftBeats: of.driftBeats,
      uncertaintyBeats: of.uncertaintyBeats,
      verdict: of.verdict,
    })),
    target: {
      eventS: target.eventS,
      minimumS: target.minimumS,
      aimS: target.aimS,
      heldLowS: target.heldLowS,
      heldHighS: target.heldHighS,
      heldWords: heldText(target.held, language),
      doubt: reading.targetDoubt,
    },
    moments: reading.moments.map(momentJson),
    overrides: reading.overrides.map((one) => ({
      what: one.what,
      ...(one.what === "break"
        ? { startS: one.at.startS, endS: one.at.endS, computed: reasonText(one.computed), set: reasonText(one.set) }
        : { computed: one.computed, set: one.set }),
      reason: one.reason,
    })),
    laps: file.laps.map(({ startS, endS, trigger }) => ({ startS, endS, trigger })),
    warnings: noticeTexts([...file.warnings, ...reading.warnings], language, "command"),
  }) as Record<string, unknown>;
}

/** One moment with the keys of the contract. */
function momentJson(moment: Moment): Record<string, unknown> {
  return {
    kind: moment.kind,
    startS: moment.startS,
    endS: moment.endS,
    reason: moment.reason,
    excused: moment.excused,
    rank: moment.rank,
    numbers: moment.numbers,
    setBy: moment.setBy,
  };
}

function spanJson(span: Span): { startS: number; endS: number } {
  return { startS: span.startS, endS: span.endS };
}

/** The same value with every number that is not finite turned into null, all the way down. */
function finite(value: unknown): unknown {
  if (typeof value === "number") return Number.isFinite(value) ? value : null;
  if (Array.isArray(value)) return value.map(finite);
  if (value !== null && typeof value === "object") {
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, finite(inner)]));
  }
  return value;
}
