import type { Rational } from "../contract/footage.ts";

/** The nearest whole number of frames, at least one, as seconds. */
export function wholeFramesS(seconds: number, rate: Rational): number {
  return (Math.max(1, Math.round((seconds * rate.num) / rate.den)) * rate.den) / rate.num;
}
