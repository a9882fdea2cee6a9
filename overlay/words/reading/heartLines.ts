import type { Reading } from "../../../main/contract/reading.ts";
import { signedBeats, spokenMinutes } from "./sentence.ts";
import { shownRise } from "./shownRise.ts";
import { confoundText, riseDiffersText } from "./driftWords.ts";

/** First and last reading, rise, drift, its start, and what else may play in; one sentence a line. */
export function heartLines(reading: Reading): string[] {
  const { drift } = reading;
  const onset = onsetSentence(reading);
  return [
    ...readingLine("First", drift.firstBpm, drift.firstAtS),
    ...readingLine("Last", drift.lastBpm, drift.lastAtS),
    ...riseAndDrift(drift),
    ...wattsForEachBeat(drift.powerToHeartHalvesPercent),
    ...(onset === null ? [] : [onset]),
    ...(drift.confounds.length > 0
      ? [`What else may play in: ${drift.confounds.map((one) => confoundText(one, "en")).join("; ")}.`]
      : []),
  ];
}

function readingLine(which: string, bpm: number | null, atS: number | null): string[] {
  return bpm === null || atS === null
    ? []
    : [`${which} heart reading ${Math.round(bpm)}, around ${spokenMinutes(atS)} into the ride.`];
}

/** The two always stand together, with the reason where they differ. */
function riseAndDrift(drift: Reading["drift"]): string[] {
  const rise = shownRise(drift.firstBpm, drift.lastBpm);
  if (rise === null) return [];
  const asRecorded = `Rise as recorded: ${signedBeats(rise.beats)} (${rise.percent.toFixed(1)} %)`;
  if (drift.driftBeats === null || drift.uncertaintyBeats === null)
    return [`${asRecorded}; at the same power it can't be told, for power is missing over one of the readings.`];
  const give = Math.max(1, Math.round(drift.uncertaintyBeats));
  const atPower = drift.correctedForPower ? "Drift at equal power" : "Drift, not corrected for power";
  const why =
    drift.differsByPowerStepW === null
      ? ""
      : `; it differs from the rise because ${riseDiffersText(drift.differsByPowerStepW, "en")}`;
  const doubt = drift.isShown ? "" : "; that is no drift that one ride can show";
  // Without power the drift is the rise itself, and is told as the same whole beats.
  const beats = drift.correctedForPower ? drift.driftBeats : rise.beats;
  return [`${asRecorded}.`, `${atPower}: ${signedBeats(beats)}, give or take ${give}${why}${doubt}.`];
}

function wattsForEachBeat(percent: number | null): string[] {
  if (percent === null) return [];
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
      return !byCoach && drift.isShown
        ? "Between the two readings the ride shows no steady rise, so no start of a drift can be told."
        : `No drift that this ride can show${byCoach}.`;
    default:
      return drift.firstBpm === null && drift.lastBpm === null
        ? null
        : "When a drift began can't be told: there is not enough data.";
  }
}
