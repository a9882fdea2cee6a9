import type { PanelName } from "../../main/contract/filmLook.ts";
import { scrimRamp } from "../scrim.ts";
import type { Rect } from "../surface.ts";
import { themeFor } from "../theme.ts";
import type { Layout, LayoutOptions, PanelPlace } from "./layout.ts";
import { arrangeRows, type Row } from "./arrangeRows.ts";
import { shapeOf, typeScale, unitPxFor, type Shape, type TypeScale } from "./typeScale.ts";

/** Title-safe: nothing within 5 % of an edge. */
const SAFE_SHARE = 0.05;
/** On upright pictures a phone lays its own controls over the lower edge. */
const UPRIGHT_LOWER_SHARE = 0.09;
/** Width of a side column and of the ramp beside it, shares of the picture's width. */
const COLUMN_SHARE = 0.27;
const SIDE_RAMP_SHARE = 0.24;

/** Panels in rows one above the other are set smaller than cards, so that half of the picture stays free. */
const NARROW_SHARE: Readonly<Record<Shape, number>> = { wide: 1, square: 0.95, upright: 0.91 };

/** Lengths in units of the type scale. */
const THREAD_HEIGHT = 64;
/** A line of caption, and the room around all its lines for the shade behind them. */
const CAPTION_LINE = 37.2;
const CAPTION_ROOM = 22;
const BLOCK_GAP = 10;
const RAMP_BEYOND = 40;
/** How far the thread's halo and the dots at its ends reach past the type's edges. */
const BLEED = 10;

type BlockName = "caption" | "thread" | "rows";

interface Block {
  readonly name: BlockName;
  readonly top: number;
  readonly height: number;
}

type Arranged = Pick<Layout, "band" | "scrim" | "panels" | "thread" | "captionArea" | "type">;

/** The geometry of `layoutFor`, for the panels that the ride can fill. */
export function arrange(options: LayoutOptions, panels: readonly PanelName[]): Arranged {
  const width = options.widthPx - (options.widthPx % 2);
  const height = options.heightPx - (options.heightPx % 2);
  const shape = shapeOf(width, height);
  const side = options.place === "left" || options.place === "right";
  const safeX = Math.round(width * SAFE_SHARE);
  const safeTop = Math.round(height * SAFE_SHARE);
  const safeBottom = Math.round(height * (shape === "upright" ? UPRIGHT_LOWER_SHARE : SAFE_SHARE));
  const columnWidth = side ? Math.round(width * COLUMN_SHARE) : width - 2 * safeX;
  const columnLeft = options.place === "right" ? width - safeX - columnWidth : safeX;

  const perRow = side ? { wide: 2, square: 1, upright: 1 }[shape] : { wide: null, square: 3, upright: 2 }[shape];
  const wished = unitPxFor(width, height) * NARROW_SHARE[shape] * options.scale;
  const captionLines = side ? 3 : shape === "wide" ? 1 : 2;
  const fit = { perRow, captionLines, columnWidth, room: height - safeTop - safeBottom };
  const { type, rows, blocks } = fitted(options, panels, wished, fit);
  const contentHeight = blocks.reduce((end, block) => Math.max(end, block.top + block.height), 0);
  const contentTop = options.place === "top" ? safeTop : height - safeBottom - contentHeight;

  const band = bandAround(options, { width, height, contentTop, contentHeight, columnLeft, columnWidth, type });
  if (contentHeight === 0) return { ...empty(options), type };
  const left = columnLeft - band.x;
  const bleed = Math.round(BLEED * type.unitPx);
  const areaOf = (name: BlockName): Rect | null => {
    const block = blocks.find((candidate) => candidate.name === name);
    if (block === undefined) return null;
    return {
      x: left - bleed,
      y: contentTop - band.y + block.top,
      width: columnWidth + 2 * bleed,
      height: block.height,
    };
  };
  const rowsTop = blocks.find((block) => block.name === "rows")?.top ?? 0;
  const placed = placePanels(rows, left, contentTop - band.y + rowsTop, type, band.width);
  return {
    band,
    scrim: scrimOf(options, band, placed, left, columnWidth),
    panels: placed,
    thread: areaOf("thread"),
    captionArea: areaOf("caption"),
    type,
  };
}

/** Rows and blocks at the wished size, or at the largest that fits. */
function fitted(
  options: LayoutOptions,
  panels: readonly PanelName[],
  wishedUnitPx: number,
  fit: {
    readonly perRow: number | null;
    readonly captionLines: number;
    readonly columnWidth: number;
    readonly room: number;
  },
): { readonly type: TypeScale; readonly rows: readonly Row[]; readonly blocks: readonly Block[] } {
  let unitPx = wishedUnitPx;
  for (;;) {
    const type = typeScale(unitPx);
    const { rows, needsPx } = arrangeRows(options, panels, type, fit.columnWidth, fit.perRow);
    const blocks = stacked(options, rows, type, fit.captionLines);
    const heightPx = blocks.reduce((end, block) => Math.max(end, block.top + block.height), 0);
    const over = Math.max(needsPx / fit.columnWidth, heightPx / fit.room);
    if (over <= 1 || unitPx < 0.05) return { type, rows, blocks };
    unitPx *= Math.min(0.99, 1 / over);
  }
}

/** The blocks that are shown, from the content's top. */
function stacked(options: LayoutOptions, rows: readonly Row[], type: TypeScale, captionLines: number): Block[] {
  const heights: Record<BlockName, number> = {
    caption: options.headLine ? (captionLines * CAPTION_LINE + CAPTION_ROOM) * type.unitPx : 0,
    thread: options.showThread && options.available.pressure ? THREAD_HEIGHT * type.unitPx : 0,
    rows: rows.reduce((sum, row) => sum + row.height, 0),
  };
  const order: BlockName[] = ["caption", "thread", "rows"];
  if (options.place === "top") order.reverse();
  const blocks: Block[] = [];
  let top = 0;
  for (const name of order.filter((candidate) => heights[candidate] > 0)) {
    if (blocks.length > 0) top += Math.round(BLOCK_GAP * type.unitPx);
    const height = Math.round(heights[name]);
    blocks.push({ name, top, height });
    top += height;
  }
  return blocks;
}

function bandAround(
  options: LayoutOptions,
  at: {
    readonly width: number;
    readonly height: number;
    readonly contentTop: number;
    readonly contentHeight: number;
    readonly columnLeft: number;
    readonly columnWidth: number;
    readonly type: TypeScale;
  },
): Rect {
  const beyond = Math.round(RAMP_BEYOND * at.type.unitPx);
  const ramp = Math.round(at.width * SIDE_RAMP_SHARE);
  const whole: Rect = { x: 0, y: 0, width: at.width, height: at.height };
  switch (options.place) {
    case "bottom": {
      const y = Math.max(0, evenDown(at.contentTop - beyond));
      return { ...whole, y, height: at.height - y };
    }
    case "top":
      return { ...whole, height: Math.min(at.height, evenDown(at.contentTop + at.contentHeight + beyond + 1)) };
    case "left":
      return { ...whole, width: Math.min(at.width, evenDown(at.columnLeft + at.columnWidth + ramp)) };
    case "right": {
      const x = Math.max(0, evenDown(at.columnLeft - ramp));
      return { ...whole, x, width: at.width - x };
    }
  }
}

/** Full beneath every label, figure and note; the ramp takes the rest of the band. */
function scrimOf(
  options: LayoutOptions,
  band: Rect,
  panels: readonly PanelPlace[],
  left: number,
  columnWidth: number,
): Layout["scrim"] {
  const full = themeFor(options.ink).scrimAlpha;
  if (options.place === "left" || options.place === "right") {
    const ramp = options.place === "left" ? band.width - left - columnWidth : left;
    return scrimRamp("columns", band.width, ramp, full, options.place === "left" ? "first" : "last");
  }
  const textTop = Math.min(...panels.map((panel) => panel.rect.y), band.height);
  const textBottom = Math.max(...panels.map((panel) => panel.rect.y + panel.rect.height), 0);
  return options.place === "bottom"
    ? scrimRamp("rows", band.height, textTop, full, "last")
    : scrimRamp("rows", band.height, band.height - textBottom, full, "first");
}

function placePanels(
  rows: readonly Row[],
  left: number,
  top: number,
  type: TypeScale,
  bandWidth: number,
): PanelPlace[] {
  const bleed = Math.round(BLEED * type.unitPx);
  const places: PanelPlace[] = [];
  let rowTop = top;
  for (const row of rows) {
    const y = Math.round(rowTop);
    const next = Math.round(rowTop + row.height);
    for (const cell of row.cells) {
      const x = left + Math.round(cell.x);
      places.push({
        name: cell.name,
        rect: { x: x - bleed, y, width: Math.min(Math.floor(cell.pitchPx), bandWidth - (x - bleed)), height: next - y },
        x,
        labelY: y + Math.round(row.labelDown),
        baselineY: y + Math.round(row.baselineDown),
        noteY: y + Math.round(row.noteDown),
        figurePx: cell.name === "power" ? type.mainFigurePx : type.figurePx,
        innerWidth: Math.round(cell.widthPx),
      });
    }
    rowTop += row.height;
  }
  return places;
}

function empty(options: LayoutOptions): Omit<Arranged, "type"> {
  return {
    band: { x: 0, y: 0, width: 0, height: 0 },
    scrim: scrimRamp("rows", 0, 1, themeFor(options.ink).scrimAlpha, "last"),
    panels: [],
    thread: null,
    captionArea: null,
  };
}

function evenDown(value: number): number {
  return 2 * Math.floor(value / 2);
}
