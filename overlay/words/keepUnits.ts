/**
 * Figures and their units, and hours and the minutes after them, kept on one line: the space between them becomes a
 * no-break space (U+00A0), since a number is not to be parted from its unit (SI Brochure, 9th edition, 5.4.3: a space
 * between them, from memory; that it must not break is common practice, no source).
 */
export function keepUnits(text: string): string {
  return text
    .replace(/(\d h) (?=\d)/gu, "$1\u00a0")
    .replace(
      /(\d) (?=(?:W|km\/h|mph|km|mi|m|ft|s|min|h|bpm|rpm|beats?|Schlag|Schlägen?|kJ|kB|MB|GB|%|\u00b0C)(?![\p{L}\d]))/gu,
      "$1\u00a0",
    );
}
