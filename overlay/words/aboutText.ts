import { durationText } from "./numbers.ts";

/** Ride time known to the minute only, for example `1 h 34 min`; the dash where it is not known. */
export function aboutText(seconds: number | null): string {
  return durationText(seconds === null ? null : Math.round(seconds / 60) * 60);
}
