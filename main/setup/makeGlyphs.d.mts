/** The text of overlay/glyphs.ts, made from the bundled font. */
export function makeGlyphs(): Promise<string>;
