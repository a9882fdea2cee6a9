import type { Language, UnitSystem } from "../../../main/contract/languageAndUnits.ts";
import type { HourFigures } from "../../../main/contract/reading.ts";
import { clockText } from "../numbers.ts";

/** The table by the hour, ready to be drawn: every cell rounded once, a dash where nothing is known. */
export interface HourTable {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** A figure of an hour: its column, its value, and how the value is written. */
export interface HourColumn {
  readonly heading: string;
  readonly value: (hour: HourFigures) => number | null;
  readonly text: (value: number) => string;
}

/** The figures of an hour in the order in which they are told. */
export function hourColumns(units: UnitSystem): readonly HourColumn[] {
  const imperial = units === "imperial";
  const whole = (value: number) => String(Math.round(value));
  return [
    { heading: "W", value: (hour) => hour.meanW, text: whole },
    { heading: "heart rate", value: (hour) => hour.meanBpm, text: whole },
    { heading: "W a beat", value: (hour) => hour.wattsPerBeat, text: (watts) => watts.toFixed(2) },
    { heading: "cadence", value: (hour) => hour.meanRpm, text: whole },
    {
      heading: imperial ? "mph" : "km/h",
      value: (hour) => hour.meanMps,
      text: (mps) => (mps * (imperial ? 2.236936 : 3.6)).toFixed(1),
    },
    {
      heading: imperial ? "feet up" : "m up",
      value: (hour) => hour.climbM,
      text: (metres) => whole(imperial ? metres / 0.3048 : metres),
    },
    { heading: "left, %", value: (hour) => hour.leftPercent, text: (percent) => percent.toFixed(1) },
  ];
}

/** What columns are called in German. */
const HEADINGS_DE: Readonly<Record<string, string>> = {
  from: "von",
  to: "bis",
  "heart rate": "Puls",
  cadence: "Trittfrequenz",
  "W a beat": "W je Schlag",
  "m up": "m bergauf",
  "feet up": "Fuß bergauf",
  "left, %": "links, %",
};

/** A column's heading in a language. */
export function hourHeading(heading: string, language: Language): string {
  return language === "de" ? (HEADINGS_DE[heading] ?? heading) : heading;
}

/** The table by the hour, with the columns that any of the hours has; no rows where there is one hour only. */
export function hourTable(hours: readonly HourFigures[], units: UnitSystem, language: Language = "en"): HourTable {
  const columns = hourColumns(units).filter(({ value }) => hours.some((hour) => value(hour) !== null));
  const cell = ({ value, text }: HourColumn, hour: HourFigures): string => {
    const known = value(hour);
    return known === null ? "–" : language === "de" ? text(known).replace(".", ",") : text(known);
  };
  return {
    columns: ["from", "to", ...columns.map(({ heading }) => heading)].map((one) => hourHeading(one, language)),
    rows:
      hours.length < 2
        ? []
        : hours.map((hour) => [
            clockText(hour.startS),
            clockText(hour.endS),
            ...columns.map((column) => cell(column, hour)),
          ]),
  };
}
