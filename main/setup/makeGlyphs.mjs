// Writes overlay/glyphs.ts: the outlines of the bundled font that panels, cards and labels are drawn from. Run by hand
// after the font changes (node main/setup/makeGlyphs.mjs); a test makes them anew and compares.
import { readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const ROOT = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
const FONT_FILES = join(ROOT, "node_modules/@fontsource/barlow-semi-condensed/files");
const ASCII = Array.from({ length: 95 }, (_, k) => String.fromCodePoint(32 + k));
const LATIN = Array.from({ length: 96 }, (_, k) => String.fromCodePoint(160 + k));
const MARKS = [..."\u2013\u2014\u2018\u2019\u201c\u201d\u201e\u2026\u2022\u2212\u20ac"];
const CHARACTERS = [...ASCII, ...LATIN, ...MARKS];
const FIGURES = [..."0123456789"];
const KERNED = CHARACTERS.filter((character) => /[\p{L}\p{P}]/u.test(character));

/** @param {number} value */
function whole(value) {
  return String(Math.round(value));
}

/** @param {any} glyph an opentype.js glyph; @returns {string} its outline in 1/1000 em, y downwards */
function outlineOf(glyph) {
  return glyph
    .getPath(0, 0, 1000)
    .commands.map((/** @type {any} */ c) => {
      if (c.type === "Z") return "Z";
      const points = [c.x1, c.y1, c.x2, c.y2, c.x, c.y].filter((value) => value !== undefined);
      return c.type + points.map(whole).join(" ");
    })
    .join("");
}

/** @param {any} font @returns {Map<number, number>} glyph index to that of its tabular figure */
function tabularFigures(font) {
  const pairs = new Map();
  for (const feature of font.tables.gsub.features.filter((/** @type {any} */ f) => f.tag === "tnum")) {
    for (const index of feature.feature.lookupListIndexes) {
      for (const table of font.tables.gsub.lookups[index].subtables) {
        for (const figure of FIGURES) {
          const from = font.charToGlyphIndex(figure);
          const place = coverageIndex(table.coverage, from);
          if (place < 0) continue;
          pairs.set(from, table.substFormat === 1 ? from + table.deltaGlyphId : table.substitute[place]);
        }
      }
    }
  }
  return pairs;
}

/** @param {any} coverage @param {number} glyph */
function coverageIndex(coverage, glyph) {
  if (coverage.format === 1) return coverage.glyphs.indexOf(glyph);
  const range = coverage.ranges.find((/** @type {any} */ r) => glyph >= r.start && glyph <= r.end);
  return range ? range.index + glyph - range.start : -1;
}

/** @param {any} opentype @param {number} weight */
function faceText(opentype, weight) {
  const bytes = readFileSync(join(FONT_FILES, `barlow-semi-condensed-latin-${weight}-normal.woff`));
  const font = opentype.parse(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length));
  const has = (/** @type {string} */ character) => font.charToGlyphIndex(character) !== 0;
  const glyphs = CHARACTERS.filter(has).map((character) => {
    const glyph = font.charToGlyph(character);
    return `    ${JSON.stringify(character)}: [${whole(glyph.advanceWidth)}, ${JSON.stringify(outlineOf(glyph))}],`;
  });
  const tabular = tabularFigures(font);
  const figures = FIGURES.map((figure) => {
    const glyph = font.glyphs.get(tabular.get(font.charToGlyphIndex(figure)));
    return `    ${JSON.stringify(figure)}: [${whole(glyph.advanceWidth)}, ${JSON.stringify(outlineOf(glyph))}],`;
  });
  const kerned = KERNED.filter(has);
  const rows = kerned.flatMap((left) => {
    const pairs = kerned
      .map((right) => [right, font.getKerningValue(font.charToGlyph(left), font.charToGlyph(right))])
      .filter(([, shift]) => shift !== 0);
    return pairs.length === 0
      ? []
      : [
          `    ${JSON.stringify(left)}: { ${pairs.map(([right, shift]) => `${JSON.stringify(right)}: ${shift}`).join(", ")} },`,
        ];
  });
  return ["  glyphs: {", ...glyphs, "  },", "  figures: {", ...figures, "  },", "  kerning: {", ...rows, "  },"].join(
    "\n",
  );
}

/** @returns {Promise<string>} the text of overlay/glyphs.ts */
export async function makeGlyphs() {
  const { default: opentype } = await import("opentype.js");
  return `/**
 * Outlines of Barlow Semi Condensed (SIL Open Font License 1.1, assets/fonts/OFL.txt). Made by main/setup/makeGlyphs.mjs; not edited by hand.
 *
 * All lengths in 1/1000 em, y downwards from the baseline. A glyph is [advance, outline]; the outline has the letters of
 * SVG paths (M, L, Q, C, Z), absolute. \`figures\` are as wide as each other. \`kerning\` shifts the right letter of a pair.
 */
export interface GlyphFace {
  readonly glyphs: Readonly<Record<string, readonly [number, string]>>;
  readonly figures: Readonly<Record<string, readonly [number, string]>>;
  readonly kerning: Readonly<Record<string, Readonly<Record<string, number>>>>;
}

/** Weight 500. */
export const mediumGlyphs: GlyphFace = {
${faceText(opentype, 500)}
};

/** Weight 600. */
export const strongGlyphs: GlyphFace = {
${faceText(opentype, 600)}
};
`;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  writeFileSync(join(ROOT, "overlay", "glyphs.ts"), await makeGlyphs());
}
