import { athletes as words } from "../words/athletes.ts";

/** What is wrong with a day as typed: it is `YYYY-MM-DD` and in the calendar; null: nothing, or no day was given. */
export function dayFault(text: string | null): string | null {
  if (text === null) return null;
  const ms = /^\d{4}-\d{2}-\d{2}$/.test(text) ? Date.parse(text) : Number.NaN;
  // A day past its month's end is read as one of the next month, or not at all.
  return Number.isNaN(ms) || new Date(ms).toISOString().slice(0, 10) !== text ? words.foundDateHint : null;
}
