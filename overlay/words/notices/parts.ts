import type { Language } from "../../../main/contract/languageAndUnits.ts";
import type { SignalDoubt } from "../../../main/contract/notices/placement.ts";
import { rideDateText } from "../dateText.ts";
import { clockText, fixedText } from "../numbers.ts";

/** Name of the file or folder that a path leads to, on any system. */
export function lastName(path: string): string {
  return path.replace(/[/\\]+$/, "").replace(/^.*[/\\]/s, "");
}

/** `1 record`, `3 records`: a count with its noun. */
export function counted(count: number, one: string, many: string): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** `a`, `a and b`, `a, b and c`. */
export function listed(parts: readonly string[], and: string): string {
  return parts.length < 2 ? parts.join("") : `${parts.slice(0, -1).join(", ")} ${and} ${parts[parts.length - 1]}`;
}

/** `17 May 2026, 08:00:20 UTC` of ms since 1970. */
export function utcText(ms: number, language: Language): string {
  return `${rideDateText(ms, null, language)}, ${new Date(ms).toISOString().slice(11, 19)} UTC`;
}

/** Days this far apart are other days in every zone, ms. */
const OTHER_DAY_MS = 36 * 3_600_000;

/** The days of a clip and a ride by their own clocks; null where they may be one day, or one is not known. */
export function otherDays(
  clipUtcMs: number | null,
  rideUtcMs: number | null,
  language: Language,
): { readonly clip: string; readonly ride: string } | null {
  if (clipUtcMs === null || rideUtcMs === null || Math.abs(clipUtcMs - rideUtcMs) < OTHER_DAY_MS) return null;
  return { clip: rideDateText(clipUtcMs, null, language), ride: rideDateText(rideUtcMs, null, language) };
}

/** Of the doubts about a place by signals those that are said: too little footage explains all others; two are enough. */
export function saidDoubts(doubts: readonly SignalDoubt[]): readonly SignalDoubt[] {
  return doubts.some((one) => one === "too short") ? ["too short"] : doubts.slice(0, 2);
}

/** A number with a decimal comma, as German has it. */
export function komma(value: number, decimals: number): string {
  return fixedText(value, decimals, { decimal: "," });
}

/** A finding with what speaks against it, `but` said once, and with what stands beside it. */
export function withButs(found: string, against: readonly (string | null)[], beside: string, but: string): string {
  const doubts = against.filter((one) => one !== null);
  return [
    doubts.length === 0 ? found : `${found}, ${but} ${doubts.join("; ")}`,
    ...(beside === "" ? [] : [beside]),
  ].join("; ");
}

/** `h:mm:ss`, with tenths where there are any; whole hours may exceed 24. */
export function exactClockText(seconds: number): string {
  const tenths = Math.round(Math.abs(seconds) * 10);
  const two = (n: number) => String(n).padStart(2, "0");
  const whole = Math.floor(tenths / 10);
  const rest = tenths % 10 ? `.${tenths % 10}` : "";
  return `${seconds < 0 ? "-" : ""}${Math.floor(whole / 3600)}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}${rest}`;
}

/** `0:12:00 to 0:31:10 and 0:40:00 to 0:42:00` of ride seconds; `more` others are counted. */
export function spansText(
  {
    spans,
    more,
  }: { readonly spans: readonly { readonly startS: number; readonly endS: number }[]; readonly more: number },
  words: { readonly to: string; readonly and: string; readonly more: string },
): string {
  const told = spans.map(({ startS, endS }) => `${clockText(startS)} ${words.to} ${clockText(endS)}`);
  return more > 0 ? `${told.join(", ")} ${words.and} ${more} ${words.more}` : listed(told, words.and);
}
