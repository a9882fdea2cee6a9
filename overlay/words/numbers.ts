import type { UnitSystem } from "../../main/contract/languageAndUnits.ts";
/** Numbers as text. Null or NaN is the dash, everywhere. */

/** What stands where a value is missing. */
export const DASH = "\u2013";
/** A true minus, as wide as a plus. */
const MINUS = "\u2212";

/** A figure and its unit, for example `31.4` and `km/h`. */
export interface Quantity {
  readonly figure: string;
  readonly unit: string;
}

const MPS_TO_KMH = 3.6;
/** 1 international mile = 1609.344 m. */
const METRES_PER_MILE = 1609.344;

/** Decimal mark of the language; the dash and the minus are the same in all. */
export interface NumberStyle {
  readonly decimal: "." | ",";
}

const POINT: NumberStyle = { decimal: "." };

/** `1:12:40`, or `0:07:05`: hours always stand, so that it is never taken for minutes. */
export function clockText(seconds: number | null): string {
  if (missing(seconds)) return DASH;
  const whole = Math.floor(Math.abs(seconds) + 1e-6);
  const sign = seconds < 0 && whole > 0 ? MINUS : "";
  return `${sign}${Math.floor(whole / 3600)}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}`;
}

/** `1:10`: hours and minutes, for the foot of a chart. */
export function hourText(seconds: number | null): string {
  if (missing(seconds)) return DASH;
  const minutes = Math.round(seconds / 60);
  return `${Math.floor(minutes / 60)}:${two(minutes % 60)}`;
}

/** A time in a film as it is typed, s: `1:59.2`, to a tenth. */
export function filmTimeText(seconds: number): string {
  const tenths = Math.round(seconds * 10);
  return `${Math.floor(tenths / 600)}:${((tenths % 600) / 10).toFixed(1).padStart(4, "0")}`;
}

/** `43 s`, `3 min`, `3 min 40 s`, `2 h 10 min`: a length of time in words. */
export function durationText(seconds: number | null): string {
  if (missing(seconds)) return DASH;
  const whole = Math.round(seconds);
  if (whole < 60) return `${whole} s`;
  if (whole < 600 && whole % 60 !== 0) return `${Math.floor(whole / 60)} min ${whole % 60} s`;
  const minutes = Math.round(whole / 60);
  if (minutes < 60) return `${minutes} min`;
  return minutes % 60 === 0 ? `${minutes / 60} h` : `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}

/** A whole number: `187`, `-5` with a true minus. */
export function wholeText(value: number | null): string {
  return fixedText(value, 0);
}

/** With a sign: `+6`, `-2`, `0`. */
export function signedText(value: number | null): string {
  if (missing(value)) return DASH;
  const text = fixedText(value, 0);
  const whole = Math.round(value);
  if (whole === 0) return `\u00b1${text}`;
  return whole > 0 ? `+${text}` : text;
}

/** With a fixed number of decimals, a true minus, and never a minus zero. */
export function fixedText(value: number | null, decimals: number, style: NumberStyle = POINT): string {
  if (missing(value)) return DASH;
  const text = Math.abs(value).toFixed(decimals);
  const signed = value < 0 && Number(text) !== 0 ? MINUS + text : text;
  return signed.replace(".", style.decimal);
}

/** `8 x` with a true times sign; two decimals at most, three for eighths. */
export function factorText(factor: number | null, style: NumberStyle = POINT): string {
  if (missing(factor)) return DASH;
  const decimals = [0, 1, 2, 3].find((count) => Math.abs(Number(factor.toFixed(count)) - factor) < 1e-9) ?? 2;
  return `${fixedText(factor, decimals, style)} \u00d7`;
}

/** Watts, whole. */
export function powerText(powerW: number | null): Quantity {
  return { figure: wholeText(powerW), unit: "W" };
}

/** Beats per minute, whole. */
export function heartRateText(bpm: number | null): Quantity {
  return { figure: wholeText(bpm), unit: "bpm" };
}

/** Turns of the cranks per minute, whole. */
export function cadenceText(rpm: number | null): Quantity {
  return { figure: wholeText(rpm), unit: "rpm" };
}

/** Kilometres or miles an hour in one m/s. */
export function perHour(units: UnitSystem): number {
  return units === "metric" ? MPS_TO_KMH : 3600 / METRES_PER_MILE;
}

/** km/h or mph, one decimal. */
export function speedText(speedMps: number | null, units: UnitSystem, style: NumberStyle = POINT): Quantity {
  return {
    figure: fixedText(missing(speedMps) ? null : speedMps * perHour(units), 1, style),
    unit: units === "metric" ? "km/h" : "mph",
  };
}

/** Percent, one decimal. */
export function gradientText(percent: number | null, style: NumberStyle = POINT): Quantity {
  return { figure: fixedText(percent, 1, style), unit: "%" };
}

/** km or miles, one decimal. */
export function distanceText(metres: number | null, units: UnitSystem, style: NumberStyle = POINT): Quantity {
  const size = units === "metric" ? 1000 : METRES_PER_MILE;
  return {
    figure: fixedText(missing(metres) ? null : metres / size, 1, style),
    unit: units === "metric" ? "km" : "mi",
  };
}

function missing(value: number | null | undefined): value is null | undefined {
  return value === null || value === undefined || !Number.isFinite(value);
}

function two(value: number): string {
  return String(value).padStart(2, "0");
}
