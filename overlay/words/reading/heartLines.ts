import type { Reading } from "../../../main/contract/reading.ts";
import { signedBeats, spokenMinutes } from "./sentence.ts";
import { shownRise } from "./shownRise.ts";
import { confoundText, riseDiffersText } from "./driftWords.ts";

/** Without a target halves are compared within the usual tolerance of one, W. */
const USUAL_TOLERANCE_W = 12;

/** First and last reading, rise, drift, its start, and what else may play in; one sentence a line. */
export function heartLines(reading: Reading): string[] {
  const { drift } = reading;
  const onset = onsetSentence(reading);
  return [
    ...readingLine("First", drift.firstBpm, drift.firstAtS, drift.firstPowerW),
    ...readingLine("Last", drift.lastBpm, drift.lastAtS, drift.lastPowerW),
    ...riseAndDrift(drift, byCoach(reading)),
    ...wattsForEachBeat(reading),
    ...(onset === null ? [] : [onset]),
    ...(drift.confounds.length > 0
      ? [`What else may play in: ${drift.confounds.map((one) => confoundText(one, "en")).join("; ")}.`]
      : []),
  ];
}

function readingLine(which: string, bpm: number | null, atS: number | null, watts: number | null): string[] {
  return bpm === null || atS === null
    ? []
    : [
        `${which} heart reading ${Math.round(bpm)}${watts === null ? "" : ` at ${Math.round(watts)} W`}, around ${spokenMinutes(atS)} into the ride.`,
      ];
}

/** The two always stand together, with the reason where they differ. */
function riseAndDrift(drift: Reading["drift"], coachSays: boolean): string[] {
  const rise = shownRise(drift.firstBpm, drift.lastBpm);
  if (rise === null) return [];
  const asRecorded = `Rise as recorded: ${signedBeats(rise.beats)} (${rise.percent.toFixed(1)} %)`;
  if (drift.driftBeats === null || drift.uncertaintyBeats === null)
    return [`${asRecorded}; at the same power it can't be told, for power is missing over one of the readings.`];
  const give = Math.max(1, Math.round(drift.uncertaintyBeats));
  const atPower = drift.correctedForPower ? "Drift at the same power" : "Drift, not corrected for power";
  const why = drift.differsByPowerStepW === null ? "" : `; ${riseDiffersText(drift.differsByPowerStepW, "en")}`;
  const claimed =
    drift.verdict === "began" || drift.verdict === "start unclear" || drift.verdict === "rose from the start";
  // What the two readings show and what the minutes between them show is told in one sentence where they part.
  const doubt = drift.isShown
    ? drift.driftBeats < 0 && !coachSays
      ? "; the heart fell, so there is no drift to date"
      : drift.verdict === "no drift shown" && !coachSays
        ? "; yet the minutes between the two readings show no steady rise, so no start of a drift can be told"
        : ""
    : claimed && !coachSays
      ? "; too little for two readings to show, but the minutes between them do rise"
      : "; that is no drift that one ride can show";
  // Without power the drift is the rise itself, and is told as the same whole beats.
  const beats = drift.correctedForPower ? drift.driftBeats : rise.beats;
  return [`${asRecorded}.`, `${atPower}: ${signedBeats(beats)}, give or take ${give}${why}${doubt}.`];
}

function byCoach({ overrides }: Reading): boolean {
  return overrides.some((one) => one.what === "onset");
}

/** Not compared where the halves were ridden differently hard: watts a beat rise with the watts themselves. */
function wattsForEachBeat({ drift, bandW }: Reading): string[] {
  const percent = drift.powerToHeartHalvesPercent;
  if (percent === null) return [];
  const stepW = drift.halvesPowerStepW ?? 0;
  if (Math.abs(stepW) > (bandW === null ? USUAL_TOLERANCE_W : bandW.high - bandW.target)) {
    return [
      `Watts for each beat can't be compared by halves: power was ${Math.abs(Math.round(stepW))} W ${stepW < 0 ? "lower" : "higher"} in the second.`,
    ];
  }
  const direction = percent >= 0 ? "fewer" : "more";
  return [
    `Watts for each beat: ${Math.abs(percent).toFixed(1)} % ${direction} in the second half than in the ` +
      "first (good to about 1.5 %; halves show about half of what builds up from end to end).",
  ];
}

function onsetSentence({ drift, overrides }: Reading): string | null {
  const byCoach = overrides.some((one) => one.what === "onset") ? " (set by coach)" : "";
  switch (drift.verdict) {
    case "began":
      if (drift.onsetS === null || drift.onsetLowS === null || drift.onsetHighS === null) return null;
      if (byCoach) return `Drift began about ${spokenMinutes(drift.onsetS)} into the ride${byCoach}.`;
      return (
        `Drift began about ${spokenMinutes(drift.onsetS)} into the ride, between ` +
        `${spokenMinutes(drift.onsetLowS)} and ${spokenMinutes(drift.onsetHighS)}.`
      );
    case "start unclear":
      return drift.onsetLowS === null || drift.onsetHighS === null
        ? "The heart drifted, with no clear start."
        : `The heart drifted, with no clear start: somewhere between ${spokenMinutes(drift.onsetLowS)} and ${spokenMinutes(drift.onsetHighS)} into the ride.`;
    case "rose from the start":
      return "The heart rose from the start.";
    case "no drift shown":
      // The two readings may differ where the ride between them shows no steady rise.
      return !byCoach && drift.isShown ? null : `No drift that this ride can show${byCoach}.`;
    default:
      return drift.firstBpm === null && drift.lastBpm === null
        ? null
        : "When a drift began can't be told: there is not enough data.";
  }
}
