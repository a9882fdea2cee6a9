import type { Language } from "../../../main/contract/languageAndUnits.ts";
import type { Reading, StateShares } from "../../../main/contract/reading.ts";
import { durationText } from "../numbers.ts";
import { breakReasonWords } from "./momentWords.ts";
import { count, sayIn, sentence, type Say } from "./sentence.ts";
import { shownClass, shownPressed, shownShares } from "./shownShares.ts";

/** Pressure on the cranks and cadence, one sentence a line; none where nothing was judged. */
export function pressureLines(reading: Reading, language: Language): string[] {
  const say = sayIn(language);
  const { pressure, counted } = reading;
  if (counted.stretches.length === 0) return [];
  return [
    ...shareLines(reading, say),
    ...(pressure.cranksKnown ? [breakSentence(reading, language), ...unbrokenLines(pressure, say)] : []),
    ...(pressure.judgedBy === "power" ? [surgeSentence(pressure, say)] : []),
    ...gradientLines(pressure, say),
    ...swingLines(pressure, say),
    ...cadenceLines(reading.cadence, say),
  ];
}

function surgeSentence({ surges, surgeFrom }: Reading["pressure"], say: Say): string {
  const length = durationText(surgeFrom.lengthS);
  const percent = Math.round(100 * surgeFrom.overTarget);
  return say(
    `${count(surges, "surge").replace(/^n/, "N")} of ${length} or more, more than ${percent} % over the target.`,
    `${surges === 0 ? "Kein Antritt" : surges === 1 ? "1 Antritt" : `${surges} Antritte`} von ${length} oder mehr, ` +
      `mehr als ${percent} % über der Zielleistung.`,
  );
}

function shareLines({ pressure }: Reading, say: Say): string[] {
  if (pressure.judgedBy !== null) {
    const shares = shownShares(pressure, pressure.unknownS);
    const parts = [
      say(`in the band ${shares.inPercent} % of the main part`, `${shares.inPercent} % des Hauptteils im Band`),
      say(`below it ${shares.belowPercent} %`, `${shares.belowPercent} % darunter`),
      say(`above it ${shares.abovePercent} %`, `${shares.abovePercent} % darüber`),
      say(`off ${shares.offPercent} %`, `${shares.offPercent} % ohne Druck`),
      shares.unknownPercent > 0
        ? say(`not known ${shares.unknownPercent} %`, `${shares.unknownPercent} % nicht bekannt`)
        : null,
    ];
    const by =
      pressure.judgedBy === "power"
        ? say("power", "der Leistung über 30 s")
        : say("heart rate", "des Pulses über 30 s");
    return [sentence(parts).replace(/\.$/, ` ${say(`(by the 30 s mean of ${by})`, `(nach dem Mittel ${by})`)}.`)];
  }
  if (!pressure.cranksKnown) return [];
  const { onPercent, offPercent, unknownPercent } = shownPressed(pressure, pressure.unknownS);
  return [
    sentence([
      say(
        `pressure on the pedals ${onPercent} % of the main part`,
        `${onPercent} % des Hauptteils Druck auf den Pedalen`,
      ),
      say(`off ${offPercent} %`, `${offPercent} % ohne Druck`),
      unknownPercent > 0 ? say(`not known ${unknownPercent} %`, `${unknownPercent} % nicht bekannt`) : null,
    ]),
  ];
}

function breakSentence({ breaks, pressure }: Reading, language: Language): string {
  const say = sayIn(language);
  if (breaks.length === 0) return say("No break in pressure of 3 s or more.", "Keine Druckpause von 3 s oder mehr.");
  const byReason = new Map<string, number>();
  for (const one of breaks) {
    const reason =
      typeof one.reason === "string"
        ? breakReasonWords(one.reason, language)
        : `${one.reason.coach} ${say("(set by coach)", "(vom Trainer gesetzt)")}`;
    byReason.set(reason, (byReason.get(reason) ?? 0) + 1);
  }
  const told = [...byReason].sort((one, other) => other[1] - one[1]).map(([reason, times]) => `${times} ${reason}`);
  const all =
    byReason.size > 1 ? told.join(", ") : `${breaks.length > 1 ? say("all ", "alle ") : ""}${[...byReason.keys()][0]}`;
  const { lapses } = pressure;
  if (language === "de") {
    const without =
      lapses === 0
        ? "keine von 10 s oder mehr ist ohne guten Grund"
        : `${lapses} von 10 s oder mehr, die nichts entschuldigt`;
    return `${breaks.length} ${breaks.length === 1 ? "Druckpause" : "Druckpausen"} von 3 s oder mehr: ${all}; ${without}.`;
  }
  const without =
    lapses === 0
      ? "none of 10 s or more is without a fair reason"
      : `${lapses} of 10 s or more with nothing to excuse ${lapses === 1 ? "it (a lapse)" : "them (lapses)"}`;
  return `${count(breaks.length, "break")} of 3 s or more: ${all}; ${without}.`;
}

function unbrokenLines({ longestUnbrokenS, longestUnbrokenStrictS }: Reading["pressure"], say: Say): string[] {
  if (longestUnbrokenS <= 0) return [];
  const passedOver =
    longestUnbrokenStrictS === longestUnbrokenS
      ? ""
      : say(
          `; ${durationText(longestUnbrokenS)} if short breaks with a fair reason are passed over`,
          `; ${durationText(longestUnbrokenS)}, wenn kurze Druckpausen mit gutem Grund nicht zählen`,
        );
  const longest = say("Longest stretch without a break", "Längste Zeit mit Druck");
  return [`${longest}: ${durationText(longestUnbrokenStrictS)}${passedOver}.`];
}

function gradientLines({ judgedBy, byGradient }: Reading["pressure"], say: Say): string[] {
  if (judgedBy === null || !byGradient) return [];
  const tell = (name: string, shares: StateShares): string | null => {
    const shown = shownClass(shares);
    if (shown === null) return null;
    const { inPercent, belowPercent, abovePercent, offPercent } = shown;
    return say(
      `${name} in ${inPercent} %, below ${belowPercent} %, above ${abovePercent} %, off ${offPercent} %`,
      `${name} ${inPercent} % im Band, ${belowPercent} % darunter, ${abovePercent} % darüber, ${offPercent} % ohne Druck`,
    );
  };
  const line = sentence(
    [
      tell(say("uphill", "bergauf"), byGradient.up),
      tell(say("on the flat", "in der Ebene"), byGradient.flat),
      tell(say("downhill", "bergab"), byGradient.down),
    ],
    "; ",
  );
  return line === "" ? [] : [line];
}

function swingLines({ swing, swingPedalling }: Reading["pressure"], say: Say): string[] {
  if (swing === null) return [];
  const percent = (value: number): string => `${Math.round(100 * value)} %`;
  return [
    say("From second to second power swings ", "Von Sekunde zu Sekunde schwankt die Leistung um ") +
      percent(swing) +
      say(" about its mean", " um ihr Mittel") +
      (swingPedalling === null ? "" : `, ${percent(swingPedalling)} ${say("while pedalling", "beim Treten")}`) +
      say(" (standard deviation).", " (Standardabweichung)."),
  ];
}

function cadenceLines({ meanRpm, lowRpm, highRpm }: Reading["cadence"], say: Say): string[] {
  if (meanRpm === null || lowRpm === null || highRpm === null) return [];
  const [mean, low, high] = [meanRpm, lowRpm, highRpm].map(Math.round);
  return [
    say(
      `Cadence while pedalling: ${mean}, mostly between ${low} and ${high}.`,
      `Trittfrequenz beim Treten: ${mean}, meist zwischen ${low} und ${high}.`,
    ),
  ];
}
