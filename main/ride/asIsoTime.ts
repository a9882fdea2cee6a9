const DOTTED = /^(\d{1,2})\.(\d{1,2})\.(\d{4})[\sT,]+(\d{1,2}:\d{2}(?::\d{2}(?:[.,]\d+)?)?)$/;
const HALF_DAY = /^(\d{1,2})\/(\d{1,2})\/(\d{4})[\sT,]+(\d{1,2})(:\d{2}(?::\d{2}(?:[.,]\d+)?)?)\s*([AP])\.?M\.?$/i;

/**
 * A date and time as spreadsheets write them, in the order of ISO 8601: `3.5.2026 9:00:01` has the day first, a time with
 * AM or PM the month first (both by the custom of their countries). All other text comes back as it is: of
 * `3/5/2026 9:00` nobody can tell which is the day.
 */
export function asIsoTime(text: string): string {
  const dotted = DOTTED.exec(text.trim());
  if (dotted) return iso(dotted[3], dotted[2], dotted[1], dotted[4]);
  const half = HALF_DAY.exec(text.trim());
  if (!half || Number(half[4]) > 12) return text;
  const hour = (Number(half[4]) % 12) + (half[6].toUpperCase() === "P" ? 12 : 0);
  return iso(half[3], half[1], half[2], `${hour}${half[5]}`);
}

function iso(year: string, month: string, day: string, clock: string): string {
  return `${year}-${month.padStart(2, "0")}-${day.padStart(2, "0")}T${/^\d:/.test(clock) ? "0" : ""}${clock}`;
}
