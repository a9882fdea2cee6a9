import type { UnitSystem } from "../../../main/contract/languageAndUnits.ts";
import type { Reading } from "../../../main/contract/reading.ts";
import { clockText, durationText } from "../numbers.ts";
import { parted, said, signedBeats, spokenMinutes } from "./sentence.ts";
import { hourColumns } from "./hourTable.ts";
import { shownRise } from "./shownRise.ts";

/** Below this fall from the first to the last whole hour no fade is told, percent. */
const FADE_PERCENT = 5;

/** Means and work of the main part, the table by the hour, a fade, time in the band by unbroken length, and the parts. */
export function baseLines(reading: Reading, units: UnitSystem, hours: boolean): string[] {
  const { base } = reading;
  const main = parted([
    said(base.meanW, (watts) => `mean power ${Math.round(watts)} W`),
    said(base.meanBpm, (bpm) => `mean heart rate ${Math.round(bpm)}`),
    said(base.meanRpm, (rpm) => `mean cadence ${Math.round(rpm)} while pedalling`),
    said(base.workKj, (kj) => `work ${Math.round(kj)} kJ`),
  ]);
  return [
    ...(main === "" || reading.counted.stretches.length === 0 ? [] : [`In the main part: ${main}`]),
    ...(hours ? hourLines(reading, units) : []),
    ...fadeLines(reading),
    ...exposureLines(reading),
    ...partLines(reading),
  ];
}

function hourLines({ base }: Reading, units: UnitSystem): string[] {
  if (base.hours.length < 2) return [];
  const columns = hourColumns(units);
  const lines = base.hours.map((hour) => {
    const parts = columns.map(({ heading, value, text }) =>
      said(value(hour), (known) => spokenFigure(heading, text(known))),
    );
    return `  ${clockText(hour.startS)} to ${clockText(hour.endS)}  ${parted(parts)}`;
  });
  return ["By the hour:", ...lines];
}

/** A figure of the table as it is said: `heart rate 129`, `1.37 W a beat`, `left 51.5 %`. */
function spokenFigure(heading: string, text: string): string {
  if (heading === "left, %") return `left ${text} %`;
  return heading === "heart rate" || heading === "cadence" ? `${heading} ${text}` : `${text} ${heading}`;
}

function fadeLines({ base }: Reading): string[] {
  if (base.fadePercent === null || base.fadePercent < FADE_PERCENT) return [];
  return [`Power faded by ${Math.round(base.fadePercent)} % from the first to the last whole hour.`];
}

function exposureLines({ base }: Reading): string[] {
  const exposure = base.exposure;
  if (exposure === null) return [];
  const total = exposure.inBandS.reduce((sum, one) => sum + one, 0);
  if (total < 60) return [];
  const parts = exposure.inBandS.map((seconds, k) => {
    const from = exposure.fromS[k];
    const to = exposure.fromS[k + 1];
    const name =
      k === 0
        ? `under ${durationText(to)}`
        : to === undefined
          ? `${durationText(from)} or more`
          : `${durationText(from)} to ${durationText(to)}`;
    return seconds === 0 ? null : `${durationText(seconds)} in stretches of ${name}`;
  });
  return [
    `Time in the band by unbroken length: ${parted(parts).replace(/\.$/, "")} (exposure variation analysis, Mathiassen and Winkel 1991).`,
  ];
}

/** Each part between long stops, with the one that the readings above are of and why. */
function partLines({ parts }: Reading): string[] {
  if (parts.length === 0) return [];
  const lines = parts.map(({ startS, endS, told, drift }) => {
    const rise = shownRise(drift.firstBpm, drift.lastBpm);
    const heart =
      rise === null || drift.firstBpm === null || drift.lastBpm === null
        ? "no pair of heart readings"
        : `heart rate ${Math.round(drift.firstBpm)} to ${Math.round(drift.lastBpm)}, ${
            drift.driftBeats === null || drift.uncertaintyBeats === null
              ? signedBeats(rise.beats)
              : `drift ${signedBeats(drift.driftBeats)}, give or take ${Math.round(drift.uncertaintyBeats)}`
          }`;
    return (
      `  ${clockText(startS)} to ${clockText(endS)}, ${spokenMinutes(endS - startS)}: ${heart}` +
      `${told ? " (the readings told here: the longest part shows most)" : ""}.`
    );
  });
  return ["Parts between stops of more than 5 minutes:", ...lines];
}
