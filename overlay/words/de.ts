import type { Phrases } from "./phrases.ts";

/** German. */
export const de: Phrases = {
  language: "de",
  numbers: { decimal: "," },
  panels: {
    heartRate: "Puls",
    cadence: "Trittfrequenz",
    power3s: "Leistung 3 s",
    power: "Leistung",
    speed: "Tempo",
    gradient: "Steigung",
    time: "Fahrzeit",
    mainPart: "Hauptteil",
    drift: "bei gleicher Leistung",
    route: "Strecke",
    beats: "Schläge",
    atLikePower: "bei gleicher Leistung",
    warmUp: "Einrollen",
    coolDown: "Ausrollen",
  },
  units: { heartRate: "/min", cadence: "/min" },
  now: "heute",
  pair: { gained: "gewonnen", lost: "verloren", level: "gleichauf" },
  chart: {
    power: "Leistung",
    heartRate: "Puls",
    band: "geplante Leistung",
    first: "früh",
    last: "spät",
    onset: "Puls beginnt zu steigen",
    mainPart: "Hauptteil",
    heartBand: "geplant",
    altitude: "Höhe",
    inFilm: "in diesem Film",
  },
};
