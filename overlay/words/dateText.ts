import type { Language } from "../../main/contract/languageAndUnits.ts";

const LOCALES: Readonly<Record<Language, string>> = { en: "en-GB", de: "de-DE" };

/** `16 May 2026`: the day of a ride where it was ridden; the UTC day when the offset is unknown. */
export function rideDateText(startUtcMs: number, utcOffsetMin: number | null, language: Language): string {
  const local = new Date(startUtcMs + (utcOffsetMin ?? 0) * 60_000);
  return local.toLocaleDateString(LOCALES[language], {
    day: "numeric",
    month: "long",
    year: "numeric",
    timeZone: "UTC",
  });
}
