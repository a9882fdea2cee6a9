import type { Language } from "../../../main/contract/languageAndUnits.ts";
import type { Reading } from "../../../main/contract/reading.ts";
import { decimal, sayIn, signedBeats, spokenMinutes } from "./sentence.ts";
import { shownRise } from "./shownRise.ts";
import { confoundText, riseDiffersText } from "./driftWords.ts";

/** Without a target halves are compared within the usual tolerance of one, W. */
const USUAL_TOLERANCE_W = 12;

/** First and last reading, rise, drift, its start, and what else may play in; one sentence a line. */
export function heartLines(reading: Reading, language: Language): string[] {
  const say = sayIn(language);
  const { drift } = reading;
  const onset = onsetSentence(reading, language);
  return [
    ...readingLine(
      say("First heart reading", "Erster Pulswert"),
      drift.firstBpm,
      drift.firstAtS,
      drift.firstPowerW,
      language,
    ),
    ...readingLine(
      say("Last heart reading", "Letzter Pulswert"),
      drift.lastBpm,
      drift.lastAtS,
      drift.lastPowerW,
      language,
    ),
    ...riseAndDrift(drift, byCoach(reading), language),
    ...wattsForEachBeat(reading, language),
    ...(onset === null ? [] : [onset]),
    ...(drift.confounds.length > 0 && (drift.firstBpm ?? drift.lastBpm) !== null
      ? [
          `${say("What else may play in", "Was sonst mitspielen kann")}: ` +
            `${drift.confounds.map((one) => confoundText(one, language)).join("; ")}.`,
        ]
      : []),
  ];
}

function readingLine(
  which: string,
  bpm: number | null,
  atS: number | null,
  watts: number | null,
  language: Language,
): string[] {
  const say = sayIn(language);
  return bpm === null || atS === null
    ? []
    : [
        `${which} ${Math.round(bpm)}${watts === null ? "" : ` ${say("at", "bei")} ${Math.round(watts)} W`}, ` +
          say(`around ${spokenMinutes(atS)} into the ride.`, `etwa ${spokenMinutes(atS)} nach dem Start.`),
      ];
}

/** The two always stand together, with the reason where they differ. */
function riseAndDrift(drift: Reading["drift"], coachSays: boolean, language: Language): string[] {
  const say = sayIn(language);
  const rise = shownRise(drift.firstBpm, drift.lastBpm);
  if (rise === null) return [];
  const asRecorded =
    `${say("Rise as recorded", "Pulsanstieg, wie aufgezeichnet")}: ` +
    `${signedBeats(rise.beats, language)} (${decimal(rise.percent, 1, language)} %)`;
  if (drift.driftBeats === null || drift.uncertaintyBeats === null)
    return [
      asRecorded +
        say(
          "; at the same power it can't be told, for power is missing over one of the readings.",
          "; bei gleicher Leistung ist er nicht zu sagen, denn bei einem der Pulswerte fehlt die Leistung.",
        ),
    ];
  const give = Math.max(1, Math.round(drift.uncertaintyBeats));
  const atPower = drift.correctedForPower
    ? say("Drift at the same power", "Drift bei gleicher Leistung")
    : say("Drift, not corrected for power", "Drift, nicht um die Leistung bereinigt");
  const why = drift.differsByPowerStepW === null ? "" : `; ${riseDiffersText(drift.differsByPowerStepW, language)}`;
  const claimed =
    drift.verdict === "began" || drift.verdict === "start unclear" || drift.verdict === "rose from the start";
  // What the two readings show and what the minutes between them show is told in one sentence where they part.
  const doubt = drift.isShown
    ? drift.driftBeats < 0 && !coachSays
      ? say("; the heart fell, so no drift began", "; der Puls fiel, also hat keine Drift begonnen")
      : drift.verdict === "no drift shown" && !coachSays
        ? say(
            "; yet the minutes between the two readings show no steady rise, so no start of a drift can be told",
            "; doch die Minuten zwischen den beiden Pulswerten zeigen keinen stetigen Anstieg, also ist kein Beginn zu sagen",
          )
        : ""
    : claimed && !coachSays
      ? say(
          "; too little for two readings to show, but the minutes between them do rise",
          "; zu wenig, als dass zwei Pulswerte es zeigen, aber in den Minuten dazwischen steigt er",
        )
      : say("; that is no drift that one ride can show", "; eine einzelne Fahrt kann so wenig nicht zeigen");
  // Without power the drift is the rise itself, and is told as the same whole beats.
  const beats = drift.correctedForPower ? drift.driftBeats : rise.beats;
  return [
    `${asRecorded}.`,
    `${atPower}: ${signedBeats(beats, language)}, ${say(`give or take ${give}`, `± ${give}`)}${why}${doubt}.`,
  ];
}

function byCoach({ overrides }: Reading): boolean {
  return overrides.some((one) => one.what === "onset");
}

/** Not compared where the halves were ridden differently hard: watts a beat rise with the watts themselves. */
function wattsForEachBeat({ drift, bandW }: Reading, language: Language): string[] {
  const say = sayIn(language);
  const percent = drift.powerToHeartHalvesPercent;
  if (percent === null) return [];
  const stepW = drift.halvesPowerStepW ?? 0;
  if (Math.abs(stepW) > (bandW === null ? USUAL_TOLERANCE_W : bandW.high - bandW.target)) {
    const step = Math.abs(Math.round(stepW));
    return [
      say(
        `Watts for each beat can't be compared by halves: power was ${step} W ${stepW < 0 ? "lower" : "higher"} in the second.`,
        `Watt je Schlag lassen sich nicht nach Hälften vergleichen: in der zweiten war die Leistung ${step} W ${stepW < 0 ? "niedriger" : "höher"}.`,
      ),
    ];
  }
  const direction = percent >= 0 ? say("fewer", "weniger") : say("more", "mehr");
  const by = `${decimal(Math.abs(percent), 1, language)} % ${direction}`;
  return [
    say(
      `Watts for each beat: ${by} in the second half than in the first (good to about 1.5 %; halves show about half of what builds up from end to end).`,
      `Watt je Schlag: in der zweiten Hälfte ${by} als in der ersten (auf etwa 1,5 % genau; Hälften zeigen ` +
        "etwa die Hälfte dessen, was sich von Anfang bis Ende aufbaut).",
    ),
  ];
}

function onsetSentence({ drift, overrides }: Reading, language: Language): string | null {
  const say = sayIn(language);
  const byCoach = overrides.some((one) => one.what === "onset") ? say(" (set by coach)", " (vom Trainer gesetzt)") : "";
  switch (drift.verdict) {
    case "began":
      if (drift.onsetS === null || drift.onsetLowS === null || drift.onsetHighS === null) return null;
      return (
        say("Drift began about ", "Die Drift begann etwa ") +
        spokenMinutes(drift.onsetS) +
        say(" into the ride", " nach dem Start") +
        (byCoach ||
          say(", between ", ", zwischen ") +
            spokenMinutes(drift.onsetLowS) +
            say(" and ", " und ") +
            spokenMinutes(drift.onsetHighS)) +
        "."
      );
    case "start unclear":
      return drift.onsetLowS === null || drift.onsetHighS === null
        ? say("The heart drifted, with no clear start.", "Der Puls stieg, ohne dass ein Beginn klar wäre.")
        : say(
            `The heart drifted, with no clear start: somewhere between ${spokenMinutes(drift.onsetLowS)} and ${spokenMinutes(drift.onsetHighS)} into the ride.`,
            "Der Puls stieg, ohne dass ein Beginn klar wäre: irgendwo zwischen " +
              `${spokenMinutes(drift.onsetLowS)} und ${spokenMinutes(drift.onsetHighS)} nach dem Start.`,
          );
    case "rose from the start":
      return say("The heart rose from the start.", "Der Puls stieg von Anfang an.");
    case "no drift shown":
      // The two readings may differ where the ride between them shows no steady rise.
      return !byCoach && drift.isShown
        ? null
        : `${say("No drift that this ride can show", "Keine Drift, die diese Fahrt zeigen kann")}${byCoach}.`;
    default:
      return drift.firstBpm === null && drift.lastBpm === null
        ? null
        : say(
            "When a drift began can't be told: there is not enough data.",
            "Wann eine Drift begann, ist nicht zu sagen: es fehlt an Daten.",
          );
  }
}
