import type { Confound, HeldFinding, NotSteady, RiderNote } from "../../../main/contract/notices/reading.ts";
import type { Language } from "../../../main/contract/languageAndUnits.ts";
import { spokenMinutes } from "./sentence.ts";

const NOTES: Readonly<Record<Language, Readonly<Record<RiderNote, string>>>> = {
  en: {
    heat: "heat",
    foodAndDrink: "food and drink",
    sleep: "sleep",
    illness: "illness",
    medicine: "medicine",
    feel: "feel",
    kit: "kit",
  },
  de: {
    heat: "Hitze",
    foodAndDrink: "Essen und Trinken",
    sleep: "Schlaf",
    illness: "Krankheit",
    medicine: "Medikamente",
    feel: "Gefühl",
    kit: "Ausrüstung",
  },
};

/** How long the heart held, as it stands behind `Held without drift:`. */
export function heldText(held: HeldFinding, language: Language): string {
  return language === "de" ? heldDe(held) : heldEn(held);
}

function heldEn(held: HeldFinding): string {
  switch (held.kind) {
    case "unknown": {
      const blind =
        held.blindBeats === null ? "" : `: a drift of less than ${Math.round(held.blindBeats)} beats would not show`;
      return `this ride can't tell how long the heart held${blind}`;
    }
    case "not steady":
      return `this ride was not steady enough to tell: ${unsteadyEn(held)}`;
    case "to the end": {
      const what = held.whole ? "the main part" : "the part between long stops";
      const but = held.yetApart ? "; the two readings differ all the same" : "";
      return `at least ${spokenMinutes(held.leastS)}, ${what} was no longer${but}`;
    }
    case "as far as known":
      return `at least ${spokenMinutes(held.leastS)}, as far as heart rate and power are known`;
    case "to the last reading":
      return `at least ${spokenMinutes(held.leastS)}, up to the last reading`;
    case "not at all":
      return "not at all, the heart rose from the start";
    case "start unknown":
      return "the heart rose, and this ride can't tell from when";
    case "between":
      return (
        `between ${spokenMinutes(held.lowS)} and ${spokenMinutes(held.highS)} from the start of ` +
        `${held.whole ? "the main part" : "the part between long stops"}`
      );
  }
}

function unsteadyEn(found: NotSteady): string {
  switch (found.why) {
    case "off plan":
      return "less than half of the main part was in the band";
    case "power swung":
      return "power changed from one five minutes to the next";
    case "power changed": {
      const watts = Math.abs(Math.round(found.stepW));
      return `power was ${watts} W ${found.stepW < 0 ? "lower" : "higher"} over the last reading than over the first`;
    }
    case "heart fell":
      return `the heart fell by ${Math.abs(Math.round(found.beats))} beats${found.atSamePower ? " at the same power" : ""}`;
  }
}

function unsteadyDe(found: NotSteady): string {
  switch (found.why) {
    case "off plan":
      return "weniger als die Hälfte des Hauptteils lag im Band";
    case "power swung":
      return "die Leistung schwankte von fünf Minuten zu fünf Minuten";
    case "power changed": {
      const watts = Math.abs(Math.round(found.stepW));
      return `die Leistung lag beim letzten Pulswert ${watts} W ${found.stepW < 0 ? "niedriger" : "höher"} als beim ersten`;
    }
    case "heart fell":
      return `der Puls fiel${found.atSamePower ? " bei gleicher Leistung" : ""} um ${Math.abs(Math.round(found.beats))} Schläge`;
  }
}

function heldDe(held: HeldFinding): string {
  switch (held.kind) {
    case "unknown": {
      const blind =
        held.blindBeats === null
          ? ""
          : `: eine Drift von weniger als ${Math.round(held.blindBeats)} Schlägen wäre nicht zu sehen`;
      return `diese Fahrt zeigt nicht, wie lange der Puls gehalten hat${blind}`;
    }
    case "not steady":
      return `diese Fahrt war nicht gleichmäßig genug, um das zu sagen: ${unsteadyDe(held)}`;
    case "to the end": {
      const what = held.whole ? "der Hauptteil" : "das Stück zwischen langen Halten";
      const but = held.yetApart ? "; die beiden Pulswerte unterscheiden sich trotzdem" : "";
      return `mindestens ${spokenMinutes(held.leastS)}, länger war ${what} nicht${but}`;
    }
    case "as far as known":
      return `mindestens ${spokenMinutes(held.leastS)}, so weit Puls und Leistung bekannt sind`;
    case "to the last reading":
      return `mindestens ${spokenMinutes(held.leastS)}, bis zum letzten Pulswert`;
    case "not at all":
      return "gar nicht, der Puls stieg von Anfang an";
    case "start unknown":
      return "der Puls stieg, und diese Fahrt zeigt nicht, ab wann";
    case "between":
      return (
        `zwischen ${spokenMinutes(held.lowS)} und ${spokenMinutes(held.highS)} ab Beginn ` +
        `${held.whole ? "des Hauptteils" : "des Stücks zwischen langen Halten"}`
      );
  }
}

/** What else may have moved the heart or the meter, as part of a sentence. */
export function confoundText(found: Confound, language: Language): string {
  return language === "de" ? confoundDe(found) : confoundEn(found);
}

function confoundEn(found: Confound): string {
  switch (found.kind) {
    case "temperature changed":
      return `the computer's own thermometer went from ${Math.round(found.fromC)} to ${Math.round(found.toC)} C (sun on it counts too)`;
    case "warm":
      return `warm: about ${Math.round(found.aboutC)} C on the computer's own thermometer (sun on it counts too)`;
    case "stops":
      return `${found.count} ${found.count === 1 ? "stop" : "stops"} of half a minute or more, ${found.minutes} min in all`;
    case "heart missing":
      return `${Math.round(found.percent)} % of the heart data is missing`;
    case "power missing":
      return `${Math.round(found.percent)} % of the power data is missing`;
    case "power not steady":
      return "power was not steady from one five minutes to the next";
    case "climbing":
      return `climbing: ${Math.round(found.metres)} m between the lowest and the highest point`;
    case "note":
      return `the rider's note on ${NOTES.en[found.on]}: ${found.text}`;
  }
}

function confoundDe(found: Confound): string {
  switch (found.kind) {
    case "temperature changed":
      return `das Thermometer des Radcomputers ging von ${Math.round(found.fromC)} auf ${Math.round(found.toC)} °C (auch Sonne darauf zählt)`;
    case "warm":
      return `Wärme: etwa ${Math.round(found.aboutC)} °C am Thermometer des Radcomputers (auch Sonne darauf zählt)`;
    case "stops":
      return `${found.count === 1 ? "ein Halt" : `${found.count} Halte`} von einer halben Minute oder mehr, zusammen ${found.minutes} min`;
    case "heart missing":
      return `${Math.round(found.percent)} % der Pulsdaten fehlen`;
    case "power missing":
      return `${Math.round(found.percent)} % der Leistungsdaten fehlen`;
    case "power not steady":
      return "die Leistung schwankte von fünf Minuten zu fünf Minuten";
    case "climbing":
      return `Höhenunterschied: ${Math.round(found.metres)} m zwischen tiefstem und höchstem Punkt`;
    case "note":
      return `Notiz des Fahrers zu ${NOTES.de[found.on]}: ${found.text}`;
  }
}

/** Why rise and drift differ: how much higher power was over the last reading, W, whole; 0: by rounding. A whole clause. */
export function riseDiffersText(powerStepW: number, language: Language): string {
  const watts = `${Math.abs(powerStepW)} W`;
  const lower = powerStepW < 0;
  if (language === "de")
    return powerStepW === 0
      ? "dem aufgezeichneten Wert gleich, soweit ganze Schläge und ein Leistungsmesser es zeigen"
      : `sie weicht vom aufgezeichneten Wert ab, weil die Leistung beim letzten Pulswert ${watts} ${lower ? "niedriger" : "höher"} lag als beim ersten`;
  return powerStepW === 0
    ? "the same as recorded, as far as whole beats and a power meter can tell"
    : `it differs from what was recorded because power was ${watts} ${lower ? "lower" : "higher"} over the last reading than over the first`;
}
