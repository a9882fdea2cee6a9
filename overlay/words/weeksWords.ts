import type { Language } from "../../main/contract/languageAndUnits.ts";
import { durationText, fixedText, wholeText } from "./numbers.ts";

/** What the weeks page says, to the coach. */
export interface WeeksPhrases {
  readonly title: string;
  readonly road: string;
  readonly trainer: string;
  offset(watts: readonly number[]): string;
  readonly drift: string;
  readonly driftAxis: string;
  readonly held: string;
  readonly heldAxis: string;
  readonly columns: readonly string[];
  readonly atLeast: string;
  readonly unknown: string;
  /** No time at all. */
  readonly none: string;
  readonly least: string;
  readonly alike: string;
  readonly notAlike: string;
  trend(
    trend: {
      readonly rides: number;
      readonly beatsPerWeek: number;
      readonly changeBeats: number;
      readonly shown: boolean;
    } | null,
    alike: number,
  ): string;
  leftOut(name: string, because: "no figures" | "no date"): string;
  readonly empty: string;
  readonly honest: string;
  readonly roads: string;
  /** A stretch by the newest ride's time there. */
  roadName(kind: "rise" | "road", lengthText: string, dayText: string, fromText: string): string;
  readonly roadColumns: readonly string[];
  readonly roadsHonest: string;
}

/** `3 beats less`, `1 beat more`, `as much as before`. */
function changeEn(changeBeats: number): string {
  const whole = Math.round(changeBeats);
  if (whole === 0) return "as much as before";
  return `${Math.abs(whole)} ${Math.abs(whole) === 1 ? "beat" : "beats"} ${whole < 0 ? "less" : "more"}`;
}

/** `wurde die Drift um 3 Schläge kleiner`, `blieb die Drift gleich`. */
function changeDe(changeBeats: number): string {
  const whole = Math.round(changeBeats);
  if (whole === 0) return "blieb die Drift gleich";
  const unit = Math.abs(whole) === 1 ? "Schlag" : "Schläge";
  return `wurde die Drift um ${Math.abs(whole)} ${unit} ${whole < 0 ? "kleiner" : "größer"}`;
}

const en: WeeksPhrases = {
  title: "Weeks",
  road: "On the road",
  trainer: "On the trainer",
  offset: (watts) =>
    watts.length === 1 && watts[0] === 0
      ? "No meter offset."
      : `Meter offset: ${watts.map((one) => `${wholeText(one)} W`).join(", ")}.`,
  drift: "Drift, ride by ride",
  driftAxis: "drift (beats)",
  held: "Drift-free time against the event",
  heldAxis: "drift-free time (h:mm)",
  columns: ["day", "main part", "power", "drift", "drift-free time", "in band", "lapses"],
  atLeast: "at least",
  unknown: "can't tell",
  none: "none",
  least: "asked for by the event",
  alike: "like the newest ride in duration and power",
  notAlike: "not alike: not compared",
  trend: (trend, alike) =>
    trend === null
      ? `Rides alike that could tell: ${alike}. Under 5 there is no line.`
      : trend.shown
        ? `Over ${trend.rides} rides alike, the heart drifts ${changeEn(trend.changeBeats)} ` +
          `(${fixedText(Math.abs(trend.beatsPerWeek), 1)} a week).`
        : `Over ${trend.rides} rides alike, the heart drifts ${changeEn(trend.changeBeats)}` +
          (Math.round(trend.changeBeats) === 0 ? "." : "; it differs by as much from day to day anyway."),
  leftOut: (name, because) =>
    `${name}: left out, ${because === "no date" ? "its ride has no date" : "it was not read yet"}`,
  empty: "No debrief here yet.",
  honest:
    "Heat, food, sleep and the meter all move these numbers. In band: of the whole main part, as in the debrief. " +
    "Lapses: those that nothing excuses. Not medical advice.",
  roads: "Roads ridden more than once",
  roadName: (kind, lengthText, dayText, fromText) =>
    `${kind === "rise" ? "Rise" : "Road"} of ${lengthText}, on ${dayText} from ${fromText} on`,
  roadColumns: ["day", "time", "power", "heart rate at like power", "breaks", "drift of the ride"],
  roadsHonest:
    "A heart rate stands only where power was within 5 % of the newest ride's; on another day it differs by 4 beats of itself. " +
    "Breaks stand only where every reason is known.",
};

const de: WeeksPhrases = {
  title: "Wochen",
  road: "Auf der Straße",
  trainer: "Auf der Rolle",
  offset: (watts) =>
    watts.length === 1 && watts[0] === 0
      ? "Kein Messversatz."
      : `Messversatz: ${watts.map((one) => `${wholeText(one)} W`).join(", ")}.`,
  drift: "Pulsdrift, Fahrt für Fahrt",
  driftAxis: "Drift (Schläge)",
  held: "Zeit ohne Drift gegen das Ziel",
  heldAxis: "Zeit ohne Drift (h:mm)",
  columns: ["Tag", "Hauptteil", "Leistung", "Drift", "Zeit ohne Drift", "im Band", "Druckpausen"],
  atLeast: "mindestens",
  unknown: "nicht zu sagen",
  none: "keine",
  least: "verlangt vom Ziel",
  alike: "wie die neueste Fahrt in Dauer und Leistung",
  notAlike: "nicht ähnlich: nicht verglichen",
  trend: (trend, alike) =>
    trend === null
      ? `Ähnliche Fahrten, die es sagen konnten: ${alike}. Unter 5 gibt es keine Linie.`
      : trend.shown
        ? `Über ${trend.rides} ähnliche Fahrten ${changeDe(trend.changeBeats)} ` +
          `(${fixedText(Math.abs(trend.beatsPerWeek), 1, { decimal: "," })} je Woche).`
        : `Über ${trend.rides} ähnliche Fahrten ${changeDe(trend.changeBeats)}` +
          (Math.round(trend.changeBeats) === 0 ? "." : "; so viel schwankt sie von Tag zu Tag ohnehin."),
  leftOut: (name, because) =>
    `${name}: weggelassen, ${because === "no date" ? "die Fahrt hat kein Datum" : "noch nicht gelesen"}`,
  empty: "Hier ist noch keine Besprechung.",
  honest:
    "Hitze, Essen, Schlaf und das Messgerät beeinflussen diese Zahlen. Im Band: vom ganzen Hauptteil, wie in der Nachbesprechung. " +
    "Druckpausen: nur die ohne Grund. Kein ärztlicher Rat.",
  roads: "Straßen, die mehr als einmal gefahren wurden",
  roadName: (kind, lengthText, dayText, fromText) =>
    `${kind === "rise" ? "Anstieg" : "Straße"} von ${lengthText}, am ${dayText} ab ${fromText}`,
  roadColumns: ["Tag", "Zeit", "Leistung", "Puls bei ähnlicher Leistung", "Druckpausen", "Drift der Fahrt"],
  roadsHonest:
    "Ein Puls steht nur, wo die Leistung höchstens 5 % von der neuesten Fahrt abwich; an einem anderen Tag weicht er von selbst um 4 Schläge ab. " +
    "Druckpausen stehen nur, wo jeder Grund bekannt ist.",
};

/** The weeks page's phrases in one language. */
export function weeksWords(language: Language): WeeksPhrases {
  return language === "de" ? de : en;
}

/** `1 h 3 min to 1 h 17 min`, `at least 1 h 40 min`, or that it can't be known. */
export function heldWords(words: WeeksPhrases, lowS: number | null, highS: number | null): string {
  if (lowS === null) return words.unknown;
  if (highS === null) return `${words.atLeast} ${durationText(lowS)}`;
  if (highS === 0) return words.none;
  return highS === lowS ? durationText(lowS) : `${durationText(lowS)} – ${durationText(highS)}`;
}
