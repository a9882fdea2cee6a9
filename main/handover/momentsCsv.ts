import type { Moment } from "../contract/reading.ts";

/** A field of RFC 4180; a leading `=`, `+`, `-` or `@` of a text is made harmless for spreadsheets by a quote mark. */
function field(value: string | number | boolean | null): string {
  if (value === null) return "";
  if (typeof value !== "string") return String(value);
  const safe = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/**
 * The moments as CSV (RFC 4180, UTF-8, CRLF), with a column for each number any of them has, by name. Times are ride
 * seconds; an empty field is a value that can't be known.
 */
export function momentsCsv(moments: readonly Moment[]): string {
  const names = [...new Set(moments.flatMap((moment) => Object.keys(moment.numbers)))].sort();
  const head = ["rank", "kind", "startS", "endS", "reason", "excused", "setBy", ...names];
  const rows = moments.map((moment) => [
    moment.rank,
    moment.kind,
    moment.startS,
    moment.endS,
    moment.reason,
    moment.excused,
    moment.setBy,
    ...names.map((name) => moment.numbers[name] ?? null),
  ]);
  return [head, ...rows].map((row) => `${row.map(field).join(",")}\r\n`).join("");
}
