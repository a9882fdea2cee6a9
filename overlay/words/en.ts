import type { Phrases } from "./phrases.ts";

/** English. */
export const en: Phrases = {
  language: "en",
  numbers: { decimal: "." },
  panels: {
    heartRate: "heart rate",
    cadence: "cadence",
    power3s: "power 3 s",
    power: "power",
    speed: "speed",
    gradient: "gradient",
    time: "ride time",
    mainPart: "main part",
    drift: "at like power",
    route: "route",
    beats: "beats",
    atLikePower: "at like power",
    warmUp: "warm-up",
    coolDown: "cool-down",
  },
  units: { heartRate: "bpm", cadence: "rpm" },
  now: "today",
  pair: { gained: "gained", lost: "lost", level: "level" },
  chart: {
    power: "power",
    heartRate: "heart rate",
    band: "planned power",
    first: "early",
    last: "late",
    onset: "heart rate begins to climb",
    mainPart: "main part",
    heartBand: "planned",
    altitude: "altitude",
    inFilm: "in this film",
  },
};
