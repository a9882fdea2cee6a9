import { USUAL_PRESET } from "../../main/contract/presets.ts";
import type { Athlete, AthleteTarget } from "../../main/contract/athlete.ts";

const NO_TARGET: AthleteTarget = {
  targetW: null,
  toleranceW: null,
  meterOffsetW: 0,
  foundDate: null,
  foundHow: null,
  foundMeter: null,
  meter: null,
  earlier: [],
};

/** An athlete of whom nothing is written yet. */
export const emptyAthlete: Athlete = {
  schema: 1,
  name: "",
  language: "en",
  units: "metric",
  events: [],
  homeZone: null,
  preset: USUAL_PRESET,
  lessonConsent: null,
  road: NO_TARGET,
  trainer: NO_TARGET,
};
