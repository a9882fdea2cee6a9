import type { Break } from "../../main/contract/reading.ts";
import { clockText, durationText } from "./numbers.ts";

/** Every break of 10 s or more in the order of the ride, one line each: when, how long, why; for the coach, in English. */
export function breakLines(breaks: readonly Break[]): string[] {
  const long = breaks.filter(({ startS, endS }) => endS - startS >= 10);
  if (long.length === 0) return ["No break of 10 s or more."];
  return [
    `Breaks of 10 s or more: ${long.length}.`,
    ...long.map((one) => `  ${breakLine(one)}${one.excused === false ? ": a lapse" : ""}`),
  ];
}

/** When, how long and why a break was, in English. */
export function breakLine({ startS, endS, reason }: Break): string {
  const why = typeof reason === "string" ? reason : `${reason.coach} (set by coach)`;
  return `${clockText(startS)}  ${durationText(endS - startS)}, ${why}`;
}
