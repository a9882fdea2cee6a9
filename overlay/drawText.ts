import { mediumGlyphs, strongGlyphs, type GlyphFace } from "./glyphs.ts";
import { traceOutline } from "./outline.ts";
import type { PathLike, Surface } from "./surface.ts";
import { keepUnits } from "./words/keepUnits.ts";

/** The bundled family; the drivers register its files (assets/fonts) under this name. */
export const FONT_FAMILY = "Barlow Semi Condensed";

/** Height of a capital or figure over the font size. */
export const CAP_HEIGHT = 0.7;

export interface TextStyle {
  readonly sizePx: number;
  readonly weight: "medium" | "strong";
  /** Figures in cells of one width, so that nothing moves while they count. */
  readonly tabular?: boolean;
}

/** Ink, and the halo that keeps it readable on any ground. */
export interface TextPaint {
  readonly ink: string;
  readonly inkAlpha?: number;
  readonly halo?: string;
  readonly haloAlpha?: number;
  /** Width of the halo on each side, px. */
  readonly haloPx?: number;
}

type Align = "left" | "center" | "right";

/** True when every character has an outline of ours, so that the text looks the same, to the pixel, in every driver. */
export function hasOutlines(text: string): boolean {
  for (const character of text) if (!(character in mediumGlyphs.glyphs)) return false;
  return true;
}

/** Characters that neither the outlines nor the bundled Latin Extended files draw; each once. Empty: all is well. */
export function missingCharacters(text: string): string[] {
  const missing = [...text].filter((character) => {
    const code = character.codePointAt(0) as number;
    return !(character in mediumGlyphs.glyphs) && !(code >= 0x100 && code <= 0x17f);
  });
  return [...new Set(missing)];
}

/** Advance width, px. Text with characters outside the outlines is measured by the surface. */
export function textWidthPx(text: string, style: TextStyle, surface?: Surface): number {
  if (surface !== undefined && !hasOutlines(text)) {
    surface.font = cssFont(style);
    return surface.measureText(text).width;
  }
  let width = 0;
  eachGlyph(text, style, (_, __, endEm) => (width = endEm));
  return (width * style.sizePx) / 1000;
}

/** Draws one line of text with its baseline at y. The halo lies beneath the whole line. */
export function drawText(
  surface: Surface,
  text: string,
  x: number,
  y: number,
  style: TextStyle,
  paint: TextPaint,
  align: Align = "left",
): void {
  if (text === "") return;
  const width = align === "left" ? 0 : textWidthPx(text, style, surface);
  const left = x - (align === "center" ? width / 2 : align === "right" ? width : 0);
  const haloPx = paint.haloPx ?? 0;
  surface.lineJoin = "round";
  surface.lineWidth = 2 * haloPx;
  surface.strokeStyle = paint.halo ?? paint.ink;
  surface.fillStyle = paint.ink;
  if (hasOutlines(text)) {
    surface.beginPath();
    traceText(surface, text, left, y, style);
    if (haloPx > 0) withAlpha(surface, paint.haloAlpha ?? 1, () => surface.stroke());
    if (paint.inkAlpha !== 0) withAlpha(surface, paint.inkAlpha ?? 1, () => surface.fill());
    return;
  }
  surface.font = cssFont(style);
  surface.textAlign = "left";
  surface.textBaseline = "alphabetic";
  if (haloPx > 0) withAlpha(surface, paint.haloAlpha ?? 1, () => surface.strokeText(text, left, y));
  if (paint.inkAlpha !== 0) withAlpha(surface, paint.inkAlpha ?? 1, () => surface.fillText(text, left, y));
}

/** Adds the outlines of a line of text to the path that is being built. */
function traceText(path: PathLike, text: string, x: number, y: number, style: TextStyle): void {
  const scale = style.sizePx / 1000;
  eachGlyph(text, style, (outline, startEm) => traceOutline(path, outline, x + startEm * scale, y, scale));
}

/**
 * Breaks text into as few lines as a width allows, of about even length, so that no word is left alone; a word wider
 * than that stands by itself.
 */
export function wrapText(text: string, style: TextStyle, widthPx: number, surface?: Surface): string[] {
  const words = wordsOf(text);
  const full = brokenAt(words, style, widthPx, surface);
  if (full.length < 2) return full;
  let narrow = widthPx / 2;
  let lines = full;
  for (let wide = widthPx; wide - narrow > style.sizePx / 2;) {
    const middle = (narrow + wide) / 2;
    const tried = brokenAt(words, style, middle, surface);
    const fits = tried.length === full.length && tried.every((line) => textWidthPx(line, style, surface) <= widthPx);
    if (fits) [wide, lines] = [middle, tried];
    else narrow = middle;
  }
  return lines;
}

/** Breaks text into lines as full as a width allows; a word wider than that stands by itself. */
export function filledLines(text: string, style: TextStyle, widthPx: number, surface?: Surface): string[] {
  return brokenAt(wordsOf(text), style, widthPx, surface);
}

function wordsOf(text: string): string[] {
  // Not at a no-break space; it is drawn as a space.
  return keepUnits(text)
    .split(/[ \n\t]+/)
    .filter((part) => part !== "")
    .map((part) => part.replaceAll("\u00a0", " "));
}

function brokenAt(words: readonly string[], style: TextStyle, widthPx: number, surface?: Surface): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of words) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (line !== "" && textWidthPx(longer, style, surface) > widthPx) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  return line === "" ? lines : [...lines, line];
}

/** Runs a drawing with an alpha of its own. */
export function withAlpha(surface: Surface, alpha: number, draw: () => void): void {
  surface.globalAlpha = alpha;
  draw();
  surface.globalAlpha = 1;
}

function cssFont(style: TextStyle): string {
  return `${style.weight === "strong" ? 600 : 500} ${style.sizePx}px "${FONT_FAMILY}", sans-serif`;
}

function eachGlyph(
  text: string,
  style: TextStyle,
  take: (outline: string, startEm: number, endEm: number) => void,
): void {
  const face: GlyphFace = style.weight === "strong" ? strongGlyphs : mediumGlyphs;
  let at = 0;
  let before = "";
  for (const character of text) {
    const tabular = style.tabular === true ? face.figures[character] : undefined;
    const [advance, outline] = tabular ?? face.glyphs[character] ?? [0, ""];
    if (tabular === undefined) at += face.kerning[before]?.[character] ?? 0;
    take(outline, at, at + advance);
    at += advance;
    before = character;
  }
}
