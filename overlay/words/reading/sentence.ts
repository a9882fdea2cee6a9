import type { Language, UnitSystem } from "../../../main/contract/languageAndUnits.ts";

/** One of two wordings, by the language that is spoken. */
export type Say = (en: string, de: string) => string;

/** Picks the wording of a language. */
export function sayIn(language: Language): Say {
  return (en, de) => (language === "de" ? de : en);
}

/** A number with fixed decimals and the decimal mark of the language. */
export function decimal(value: number, decimals: number, language: Language): string {
  const text = value.toFixed(decimals);
  return language === "de" ? text.replace(".", ",") : text;
}

/** A length or a time to the minute, as people say it: `48 min`, `1 h 05`. */
export function spokenMinutes(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  return minutes < 60 ? `${minutes} min` : `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, "0")}`;
}

/** A speed in m/s, whole and with its unit. */
export function spokenSpeed(mps: number, units: UnitSystem): string {
  return units === "imperial" ? `${Math.round(mps * 2.236936)} mph` : `${Math.round(mps * 3.6)} km/h`;
}

/** `no surge`, `1 surge`, `4 surges`. */
export function count(number: number, one: string, many = number === 0 ? one : `${one}s`): string {
  return `${number === 0 ? "no" : number} ${number === 1 ? one : many}`;
}

/** `+6 beats`, `-1 beat`, `0 beats`. */
export function signedBeats(beats: number, language: Language): string {
  const whole = Math.round(beats);
  const say = sayIn(language);
  const unit = Math.abs(whole) === 1 ? say("beat", "Schlag") : say("beats", "Schläge");
  return `${whole > 0 ? "+" : ""}${whole === 0 ? 0 : whole} ${unit}`;
}

/** The parts that are there, as one sentence that keeps its first letter; empty where there is none. */
export function parted(parts: readonly (string | null)[], joiner = ", "): string {
  const text = parts.filter((part) => part !== null && part !== "").join(joiner);
  return text === "" ? "" : `${text}.`;
}

/** As `parted`, with a capital letter. */
export function sentence(parts: readonly (string | null)[], joiner = ", "): string {
  const text = parted(parts, joiner);
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
}

/** What is said of a number, or null where there is none. */
export function said(value: number | null | undefined, say: (value: number) => string): string | null {
  return value === null || value === undefined ? null : say(value);
}
