import { clockText } from "../../overlay/words/numbers.ts";

/** A clip time with its tenths, e.g. `0:00:12.3`. */
export function clipTimeText(mediaS: number): string {
  const tenths = Math.round(mediaS * 10);
  return `${clockText(Math.floor(tenths / 10))}.${tenths % 10}`;
}
