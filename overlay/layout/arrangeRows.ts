import type { PanelName } from "../../main/contract/filmLook.ts";
import { CAP_HEIGHT, textWidthPx } from "../drawText.ts";
import type { LayoutOptions } from "./layout.ts";
import { widestTexts } from "./panelTexts.ts";
import type { TypeScale } from "./typeScale.ts";

/** Lengths in units of the type scale. */
const LEAST_GAP = 30;
const UNIT_GAP = 6;
const ABOVE_LABEL = 4;
const LABEL_TO_FIGURE = 12;
const FIGURE_TO_NOTE = 29;
const BELOW = 7;
const ROUTE_WIDTH = 84;
/** Between the rows of a grid. */
const ROW_GAP = 16;
/** A row's type may shrink by this before a second row is begun. */
const SHRINK = 0.8;

interface Cell {
  readonly name: PanelName;
  /** From the column's left edge. */
  readonly x: number;
  /** To the next cell. */
  readonly pitchPx: number;
  /** Of the widest text. */
  readonly widthPx: number;
}

export interface Row {
  readonly cells: readonly Cell[];
  readonly height: number;
  /** From the row's top. */
  readonly labelDown: number;
  readonly baselineDown: number;
  readonly noteDown: number;
}

/**
 * Panels in rows: in one row with even gaps between them, or in columns.
 *
 * @param perRow columns of a grid, or null: as many as fit, in rows of even length
 * @returns the rows, and the width that they need at this type size
 */
export function arrangeRows(
  options: LayoutOptions,
  panels: readonly PanelName[],
  type: TypeScale,
  columnWidth: number,
  perRow: number | null,
): { readonly rows: readonly Row[]; readonly needsPx: number } {
  const widths = panels.map((name) => cellWidth(name, options, type));
  const gap = LEAST_GAP * type.unitPx;
  const inOneRow = widths.reduce((sum, width) => sum + width, 0) + gap * Math.max(0, panels.length - 1);
  const rowCount = perRow === null ? Math.ceil((inOneRow * SHRINK) / columnWidth) : Math.ceil(panels.length / perRow);
  const length = perRow ?? Math.ceil(panels.length / Math.max(1, rowCount));
  const rows: Row[] = [];
  let needsPx = 0;
  for (let from = 0; from < panels.length; from += length) {
    const names = panels.slice(from, from + length);
    const rowWidths = widths.slice(from, from + length);
    const grid = perRow !== null || rowCount > 1;
    needsPx = Math.max(
      needsPx,
      grid
        ? length * (Math.max(...rowWidths) + gap) - gap
        : rowWidths.reduce((sum, width) => sum + width, 0) + gap * (names.length - 1),
    );
    const heights = rowHeights(names, options, type);
    const last = from + length >= panels.length;
    rows.push({
      ...heights,
      height: heights.height + (last ? 0 : ROW_GAP * type.unitPx),
      cells: grid ? gridCells(names, rowWidths, columnWidth, length, type) : spreadCells(names, rowWidths, columnWidth),
    });
  }
  return { rows, needsPx };
}

function cellWidth(name: PanelName, options: LayoutOptions, type: TypeScale): number {
  if (name === "route") return ROUTE_WIDTH * type.unitPx;
  const texts = widestTexts(name, options);
  const figurePx = name === "power" ? type.mainFigurePx : type.figurePx;
  const figure = textWidthPx(texts.figure, { sizePx: figurePx, weight: "strong", tabular: true });
  const unit =
    texts.unit === ""
      ? 0
      : UNIT_GAP * type.unitPx + textWidthPx(texts.unit, { sizePx: type.unitTextPx, weight: "medium" });
  return Math.max(
    figure + unit,
    textWidthPx(texts.label, { sizePx: type.labelPx, weight: "medium" }),
    textWidthPx(texts.note, { sizePx: type.notePx, weight: "medium", tabular: true }),
  );
}

/** Cells at even steps. */
function gridCells(
  names: readonly PanelName[],
  widths: readonly number[],
  columnWidth: number,
  length: number,
  type: TypeScale,
): Cell[] {
  const pitch = (columnWidth + LEAST_GAP * type.unitPx) / length;
  return names.map((name, k) => ({ name, x: k * pitch, pitchPx: pitch, widthPx: widths[k]! }));
}

/** Cells with even gaps between them, from edge to edge; few panels keep to the left at an easy distance. */
function spreadCells(names: readonly PanelName[], widths: readonly number[], columnWidth: number): Cell[] {
  const free = columnWidth - widths.reduce((sum, width) => sum + width, 0);
  const gap = Math.min(free / Math.max(1, names.length - 1), columnWidth * 0.14);
  let x = 0;
  return names.map((name, k) => {
    const widthPx = widths[k]!;
    const cell = { name, x, pitchPx: widthPx + gap, widthPx };
    x += cell.pitchPx;
    return cell;
  });
}

function rowHeights(names: readonly PanelName[], options: LayoutOptions, type: TypeScale): Omit<Row, "cells"> {
  const unit = type.unitPx;
  const tallest = names.includes("power") ? type.mainFigurePx : type.figurePx;
  const labelDown = ABOVE_LABEL * unit + CAP_HEIGHT * type.labelPx;
  const baselineDown = labelDown + LABEL_TO_FIGURE * unit + CAP_HEIGHT * tallest;
  const noteDown = baselineDown + FIGURE_TO_NOTE * unit;
  const noted = names.some((name) => hasNote(name, options));
  return { labelDown, baselineDown, noteDown, height: (noted ? noteDown : baselineDown) + BELOW * unit };
}

/** Whether something may stand beneath the figure. */
function hasNote(name: PanelName, options: LayoutOptions): boolean {
  switch (name) {
    case "power":
      return options.showPlan && options.available.band;
    case "gradient":
      return true;
    case "heartRate":
      return options.available.likePower && !options.panels.includes("drift");
    case "time":
    case "mainPart":
      return options.available.mainPart;
    default:
      return false;
  }
}
