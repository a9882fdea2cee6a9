import type { Reading, StateShares } from "../../../main/contract/reading.ts";
import { durationText } from "../numbers.ts";
import { breakReasonWords } from "./momentWords.ts";
import { count, sentence } from "./sentence.ts";
import { shownClass, shownPressed, shownShares } from "./shownShares.ts";

/** Pressure on the cranks and cadence, one sentence a line; none where nothing was judged. */
export function pressureLines(reading: Reading): string[] {
  const { pressure, counted } = reading;
  if (counted.stretches.length === 0) return [];
  return [
    ...shareLines(reading),
    ...(pressure.cranksKnown ? [breakSentence(reading), ...unbrokenLines(pressure)] : []),
    ...(pressure.judgedBy === "power"
      ? [`${count(pressure.surges, "surge").replace(/^n/, "N")} of 5 s or more, a quarter or more over the target.`]
      : []),
    ...gradientLines(pressure),
    ...swingLines(pressure),
    ...cadenceLines(reading.cadence),
  ];
}

function shareLines({ pressure }: Reading): string[] {
  if (pressure.judgedBy !== null) {
    const shares = shownShares(pressure, pressure.unknownS);
    const parts = [
      `in the band ${shares.inPercent} % of the main part`,
      `below it ${shares.belowPercent} %`,
      `above it ${shares.abovePercent} %`,
      `off ${shares.offPercent} %`,
      shares.unknownPercent > 0 ? `not known ${shares.unknownPercent} %` : null,
    ];
    return [
      sentence(parts).replace(
        /\.$/,
        ` (by the 30 s mean of ${pressure.judgedBy === "power" ? "power" : "heart rate"}).`,
      ),
    ];
  }
  if (!pressure.cranksKnown) return [];
  const { onPercent, offPercent, unknownPercent } = shownPressed(pressure, pressure.unknownS);
  return [
    sentence([
      `pressure on the pedals ${onPercent} % of the main part`,
      `off ${offPercent} %`,
      unknownPercent > 0 ? `not known ${unknownPercent} %` : null,
    ]),
  ];
}

function breakSentence({ breaks, pressure }: Reading): string {
  if (breaks.length === 0) return "No break in pressure of 3 s or more.";
  const byReason = new Map<string, number>();
  for (const one of breaks) {
    const reason = typeof one.reason === "string" ? breakReasonWords(one.reason) : `${one.reason.coach} (set by coach)`;
    byReason.set(reason, (byReason.get(reason) ?? 0) + 1);
  }
  const told = [...byReason].sort((one, other) => other[1] - one[1]).map(([reason, times]) => `${times} ${reason}`);
  const all = byReason.size > 1 ? told.join(", ") : `${breaks.length > 1 ? "all " : ""}${[...byReason.keys()][0]}`;
  const lapses =
    pressure.lapses === 0
      ? "none of 10 s or more is without a fair reason"
      : `${pressure.lapses} of 10 s or more with nothing to excuse ${pressure.lapses === 1 ? "it (a lapse)" : "them (lapses)"}`;
  return `${count(breaks.length, "break")} of 3 s or more: ${all}; ${lapses}.`;
}

function unbrokenLines({ longestUnbrokenS, longestUnbrokenStrictS }: Reading["pressure"]): string[] {
  if (longestUnbrokenS <= 0) return [];
  const passedOver =
    longestUnbrokenStrictS === longestUnbrokenS
      ? ""
      : `; ${durationText(longestUnbrokenS)} if short breaks with a fair reason are passed over`;
  return [`Longest stretch without a break: ${durationText(longestUnbrokenStrictS)}${passedOver}.`];
}

function gradientLines({ judgedBy, byGradient }: Reading["pressure"]): string[] {
  if (judgedBy === null || !byGradient) return [];
  const tell = (name: string, shares: StateShares): string | null => {
    const shown = shownClass(shares);
    if (shown === null) return null;
    const { inPercent, belowPercent, abovePercent, offPercent } = shown;
    return `${name} in ${inPercent} %, below ${belowPercent} %, above ${abovePercent} %, off ${offPercent} %`;
  };
  const line = sentence(
    [tell("uphill", byGradient.up), tell("on the flat", byGradient.flat), tell("downhill", byGradient.down)],
    "; ",
  );
  return line === "" ? [] : [line];
}

function swingLines({ swing, swingPedalling }: Reading["pressure"]): string[] {
  if (swing === null) return [];
  const percent = (value: number): string => `${Math.round(100 * value)} %`;
  return [
    `From second to second power swings ${percent(swing)} about its mean` +
      `${swingPedalling === null ? "" : `, ${percent(swingPedalling)} while pedalling`} (standard deviation).`,
  ];
}

function cadenceLines({ meanRpm, lowRpm, highRpm }: Reading["cadence"]): string[] {
  if (meanRpm === null || lowRpm === null || highRpm === null) return [];
  return [
    `Cadence while pedalling: ${Math.round(meanRpm)}, mostly between ${Math.round(lowRpm)} and ${Math.round(highRpm)}.`,
  ];
}
