import type { PanelName } from "../../main/contract/filmLook.ts";
import type { PanelValues } from "../instant/panelValuesAt.ts";
import {
  cadenceText,
  clockText,
  gradientText,
  heartRateText,
  powerText,
  signedText,
  speedText,
} from "../words/numbers.ts";
import { phrasesFor } from "../words/phrases.ts";
import type { LayoutOptions } from "./layout.ts";

/** The texts of one panel. Empty: nothing stands there. */
export interface PanelTexts {
  readonly label: string;
  readonly figure: string;
  readonly unit: string;
  readonly note: string;
}

/** What a panel says at an instant. The route panel has a label only. */
export function panelTexts(name: PanelName, values: PanelValues, options: LayoutOptions): PanelTexts {
  const phrases = phrasesFor(options.language);
  const { panels: say, numbers } = phrases;
  const withNote = (panel: PanelName): boolean => !options.panels.includes(panel);
  switch (name) {
    case "heartRate": {
      const note = options.available.likePower && withNote("drift") && values.likePowerBeats !== null;
      return {
        label: say.heartRate,
        figure: heartRateText(values.heartRateBpm).figure,
        unit: phrases.units.heartRate,
        note: note ? `${signedText(values.likePowerBeats)} ${say.atLikePower}` : "",
      };
    }
    case "cadence":
      return {
        label: say.cadence,
        figure: cadenceText(values.cadenceRpm).figure,
        unit: phrases.units.cadence,
        note: "",
      };
    case "power":
      return {
        label: options.available.variable ? say.power : say.power3s,
        ...powerText(values.powerW),
        unit: options.powerUnit ?? "W",
        note: "",
      };
    case "speed":
      return { label: say.speed, ...speedText(values.speedMps, options.units, numbers), note: "" };
    case "gradient":
      return { label: say.gradient, ...gradientText(values.gradientPercent, numbers), note: "" };
    case "time":
      return {
        label: say.time,
        figure: clockText(values.rideS),
        unit: "",
        note: timeNote(values, options, withNote("mainPart")),
      };
    case "mainPart":
      return { label: say.mainPart, figure: clockText(values.countedS), unit: "", note: phaseWords(values, options) };
    case "drift":
      return { label: say.atLikePower, figure: signedText(values.likePowerBeats), unit: say.beats, note: "" };
    case "route":
      return { label: showsThen(name, values.then) ? say.sharedRoad : say.route, figure: "", unit: "", note: "" };
  }
}

/** Whether a panel shows another ride too. */
export function showsThen(name: PanelName, then: PanelValues["then"]): then is NonNullable<PanelValues["then"]> {
  return then?.panels.includes(name) === true;
}

/** The figure of another ride, where a panel shows it; else null. */
export function thenFigure(name: PanelName, values: PanelValues, options: LayoutOptions): string | null {
  const { then } = values;
  if (!showsThen(name, then)) return null;
  return panelTexts(name, { ...values, ...then.values }, options).figure;
}

/** A panel at its widest, for laying out. */
export function widestTexts(name: PanelName, options: LayoutOptions): PanelTexts {
  const longestS = options.available.tenHours ? 85_999 : 31_999;
  const widest: PanelValues = {
    rideS: longestS,
    countedS: longestS,
    phase: "main part",
    powerW: 888,
    heartRateBpm: 188,
    cadenceRpm: 108,
    speedMps: 24.6,
    gradientPercent: -8.5,
    likePowerBeats: 88,
  };
  return panelTexts(name, widest, options);
}

function timeNote(values: PanelValues, options: LayoutOptions, counted: boolean): string {
  const away = phaseWords(values, options);
  if (away !== "") return away;
  if (!counted || !options.available.mainPart || values.countedS === null) return "";
  return `${clockText(values.countedS)} ${phrasesFor(options.language).panels.mainPart}`;
}

function phaseWords(values: PanelValues, options: LayoutOptions): string {
  const { panels: say } = phrasesFor(options.language);
  return values.phase === "warm-up" ? say.warmUp : values.phase === "cool-down" ? say.coolDown : "";
}
