import { CAP_HEIGHT, drawText, textWidthPx, withAlpha, wrapText, type TextStyle } from "../drawText.ts";
import { shapeOf, unitPxFor } from "../layout/typeScale.ts";
import type { Surface } from "../surface.ts";
import type { Theme } from "../theme.ts";
import { traceEye, traceNeedle } from "../thread/needle.ts";

export interface SizePx {
  readonly width: number;
  readonly height: number;
}

/** A card's page: its ground, its margins and its type. Lengths in px. */
export interface CardPage {
  readonly size: SizePx;
  readonly unitPx: number;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly bottom: number;
  readonly theme: Theme;
}

/** Margins hold the title-safe 5 % and more; cards have room. */
const MARGIN_SHARE = 0.075;
const UPRIGHT_LOWER_SHARE = 0.1;

/** Fills the ground and gives the page to write on. */
export function openPage(surface: Surface, size: SizePx, theme: Theme): CardPage {
  surface.fillStyle = theme.ground;
  surface.fillRect(0, 0, size.width, size.height);
  const unitPx = unitPxFor(size.width, size.height);
  const upright = shapeOf(size.width, size.height) === "upright";
  const left = Math.round(size.width * MARGIN_SHARE);
  const top = Math.round(size.height * MARGIN_SHARE);
  return {
    size,
    unitPx,
    left,
    top,
    width: size.width - 2 * left,
    bottom: Math.round(size.height * (1 - (upright ? UPRIGHT_LOWER_SHARE : MARGIN_SHARE))),
    theme,
  };
}

/** A paragraph broken to the width. */
export interface Paragraph {
  readonly lines: readonly string[];
  readonly style: TextStyle;
  readonly lineHeightPx: number;
  readonly colour: string;
}

/** Breaks text to a width; sizes in units of the type scale. */
export function paragraph(
  surface: Surface,
  page: CardPage,
  text: string,
  size: number,
  weight: TextStyle["weight"],
  colour: string,
  widthPx = page.width,
): Paragraph {
  const sizePx = size * page.unitPx;
  const style: TextStyle = { sizePx, weight };
  const widest = Math.max(...text.split(/\s+/).map((word) => textWidthPx(word, style, surface)), 1);
  const fitting: TextStyle = { ...style, sizePx: sizePx * Math.min(1, widthPx / widest) };
  return {
    lines: wrapText(text, fitting, widthPx, surface),
    style: fitting,
    lineHeightPx: fitting.sizePx * 1.24,
    colour,
  };
}

/** Height of a paragraph, px. */
export function paragraphHeight(text: Paragraph): number {
  return text.lines.length * text.lineHeightPx;
}

/** Writes a paragraph whose top is at y; gives the y beneath it. */
export function writeParagraph(surface: Surface, text: Paragraph, x: number, y: number): number {
  text.lines.forEach((line, k) => {
    const middle = y + (k + 0.5) * text.lineHeightPx;
    drawText(surface, line, x, Math.round(middle + (CAP_HEIGHT * text.style.sizePx) / 2), text.style, {
      ink: text.colour,
    });
  });
  return y + paragraphHeight(text);
}

/** The thread of the cards: firm, unbroken, with the needle at its end. */
export function drawCardThread(surface: Surface, page: CardPage, x: number, y: number, widthPx: number): void {
  const unit = page.unitPx;
  const rise = 7 * unit;
  const end = x + widthPx;
  surface.beginPath();
  surface.moveTo(x, y);
  surface.bezierCurveTo(
    x + widthPx * 0.3,
    y + rise,
    x + widthPx * 0.5,
    y - 1.6 * rise,
    x + widthPx * 0.76,
    y - rise * 0.5,
  );
  surface.bezierCurveTo(x + widthPx * 0.88, y, x + widthPx * 0.94, y, end, y);
  surface.lineCap = "round";
  surface.lineJoin = "round";
  surface.lineWidth = 5.6 * unit;
  surface.strokeStyle = page.theme.ink;
  surface.stroke();
  const pose = { x: end, y, leanRad: 0, unitPx: unit };
  surface.beginPath();
  traceNeedle(surface, pose);
  surface.fillStyle = page.theme.ink;
  surface.fill();
  surface.beginPath();
  traceEye(surface, pose);
  surface.fillStyle = page.theme.ground;
  surface.fill();
}

/** A hairline across the page. */
export function drawHairline(surface: Surface, page: CardPage, y: number): void {
  surface.fillStyle = page.theme.quiet;
  withAlpha(surface, 0.35, () =>
    surface.fillRect(page.left, Math.round(y), page.width, Math.max(1, Math.round(page.unitPx))),
  );
}
