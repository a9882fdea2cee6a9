import type { Language, UnitSystem } from "../../../main/contract/languageAndUnits.ts";
import type { Reading } from "../../../main/contract/reading.ts";
import { clockText, durationText } from "../numbers.ts";
import { parted, said, sayIn, signedBeats, spokenMinutes, type Say } from "./sentence.ts";
import { hourColumns, hourHeading } from "./hourTable.ts";
import { shownRise } from "./shownRise.ts";

/** Below this fall from the first to the last whole hour no fade is told, percent. */
const FADE_PERCENT = 5;

/** Means and work of the main part, the table by the hour, a fade, time in the band by unbroken length, and the parts. */
export function baseLines(reading: Reading, units: UnitSystem, hours: boolean, language: Language): string[] {
  const say = sayIn(language);
  const { base } = reading;
  const main = parted([
    said(base.meanW, (watts) => `${say("mean power", "Leistung im Mittel")} ${Math.round(watts)} W`),
    said(base.meanBpm, (bpm) => `${say("mean heart rate", "Puls im Mittel")} ${Math.round(bpm)}`),
    said(base.meanRpm, (rpm) =>
      say(`mean cadence ${Math.round(rpm)} while pedalling`, `Trittfrequenz beim Treten im Mittel ${Math.round(rpm)}`),
    ),
    said(base.workKj, (kj) => `${say("work", "Arbeit")} ${Math.round(kj)} kJ`),
  ]);
  return [
    ...(main === "" || reading.counted.stretches.length === 0
      ? []
      : [`${say("In the main part", "Im Hauptteil")}: ${main}`]),
    ...(hours ? hourLines(reading, units, language) : []),
    ...fadeLines(reading, say),
    ...exposureLines(reading, say),
    ...partLines(reading, language),
  ];
}

function hourLines({ base }: Reading, units: UnitSystem, language: Language): string[] {
  const say = sayIn(language);
  if (base.hours.length < 2) return [];
  const columns = hourColumns(units);
  const lines = base.hours.map((hour) => {
    const parts = columns.map(({ heading, value, text }) =>
      said(value(hour), (known) => spokenFigure(heading, text(known), language)),
    );
    return `  ${clockText(hour.startS)} ${say("to", "bis")} ${clockText(hour.endS)}  ${parted(parts)}`;
  });
  return [say("By the hour:", "Nach Stunden:"), ...lines];
}

/** A figure of the table as it is said: `heart rate 129`, `1.37 W a beat`, `left 51.5 %`. */
function spokenFigure(heading: string, text: string, language: Language): string {
  const say = sayIn(language);
  const figure = say(text, text.replace(".", ","));
  if (heading === "left, %") return `${say("left", "links")} ${figure} %`;
  const name = hourHeading(heading, language);
  return heading === "heart rate" || heading === "cadence" ? `${name} ${figure}` : `${figure} ${name}`;
}

function fadeLines({ base }: Reading, say: Say): string[] {
  if (base.fadePercent === null || base.fadePercent < FADE_PERCENT) return [];
  const percent = Math.round(base.fadePercent);
  return [
    say(
      `Power faded by ${percent} % from the first to the last whole hour.`,
      `Von der ersten zur letzten vollen Stunde fiel die Leistung um ${percent} %.`,
    ),
  ];
}

function exposureLines({ base }: Reading, say: Say): string[] {
  const exposure = base.exposure;
  if (exposure === null) return [];
  const total = exposure.inBandS.reduce((sum, one) => sum + one, 0);
  if (total < 60) return [];
  const parts = exposure.inBandS.map((seconds, k) => {
    const from = exposure.fromS[k]!;
    const to = exposure.fromS[k + 1]!;
    const name =
      k === 0
        ? `${say("under", "unter")} ${durationText(to)}`
        : to === undefined
          ? `${durationText(from)} ${say("or more", "oder mehr")}`
          : `${durationText(from)} ${say("to", "bis")} ${durationText(to)}`;
    return seconds === 0 ? null : `${durationText(seconds)} ${say("in stretches of", "in Stücken von")} ${name}`;
  });
  return [
    `${say("Time in the band by unbroken length", "Zeit im Band nach Länge am Stück")}: ${parted(parts).replace(/\.$/, "")} ` +
      `(${say("exposure variation analysis, Mathiassen and Winkel 1991", "Auswertung nach Mathiassen und Winkel 1991")}).`,
  ];
}

/** Each part between long stops, with the one that the readings above are of and why. */
function partLines({ parts }: Reading, language: Language): string[] {
  const say = sayIn(language);
  if (!parts.some(({ drift }) => drift.firstBpm !== null && drift.lastBpm !== null)) return [];
  const lines = parts.map(({ startS, endS, told, drift }) => {
    const rise = shownRise(drift.firstBpm, drift.lastBpm);
    const heart =
      rise === null || drift.firstBpm === null || drift.lastBpm === null
        ? say("no pair of heart readings", "keine zwei Pulswerte")
        : `${say("heart rate", "Puls")} ${Math.round(drift.firstBpm)} ${say("to", "bis")} ${Math.round(drift.lastBpm)}, ${
            drift.driftBeats === null || drift.uncertaintyBeats === null
              ? signedBeats(rise.beats, language)
              : `${say("drift", "Drift")} ${signedBeats(drift.driftBeats, language)}, ` +
                say(`give or take ${Math.round(drift.uncertaintyBeats)}`, `± ${Math.round(drift.uncertaintyBeats)}`)
          }`;
    return (
      `  ${clockText(startS)} ${say("to", "bis")} ${clockText(endS)}, ${spokenMinutes(endS - startS)}: ${heart}` +
      `${told ? say(" (the readings told here: the longest part shows most)", " (die Pulswerte oben: das längste Stück zeigt am meisten)") : ""}.`
    );
  });
  return [
    say("Parts between stops of more than 5 minutes:", "Stücke zwischen Halten von mehr als 5 Minuten:"),
    ...lines,
  ];
}
