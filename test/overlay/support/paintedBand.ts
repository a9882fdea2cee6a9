import type { Canvas, SKRSContext2D } from "@napi-rs/canvas";
import type { RideColumns } from "../../../main/contract/rideColumns.ts";
import type { ShotBeside } from "../../../main/contract/pair.ts";
import { threadBeside, withBeside } from "../../../overlay/instant/besideAt.ts";
import { panelValuesAt } from "../../../overlay/instant/panelValuesAt.ts";
import { routePath } from "../../../overlay/instant/routePath.ts";
import { threadPageAt, type PageSpan } from "../../../overlay/instant/threadPageAt.ts";
import { availableIn } from "../../../overlay/layout/availableIn.ts";
import { defaultLayoutOptions, layoutFor, type Layout, type LayoutOptions } from "../../../overlay/layout/layout.ts";
import { createPanelPainter, type PanelNotes, type PanelPainter } from "../../../overlay/panels/paintPanels.ts";
import type { Rect } from "../../../overlay/surface.ts";
import { testCanvas } from "../../support/canvas.ts";

/** The page of the sample ride on which every state of the thread stands. */
export const samplePage: PageSpan = { startS: 4250, endS: 4370 };

/** The layout of a ride at a size. */
export function sampleLayout(
  columns: RideColumns,
  width: number,
  height: number,
  options: Partial<LayoutOptions> = {},
): Layout {
  return layoutFor({ ...defaultLayoutOptions(width, height, availableIn(columns)), ...options });
}

/** A band with its painter, to be brought to one instant after the other. */
export interface PaintedBand {
  readonly canvas: Canvas;
  readonly context: SKRSContext2D;
  paint(rideS: number, notes?: PanelNotes, page?: PageSpan, beside?: ShotBeside): Rect[];
}

/** A fresh band of a layout. */
export function paintedBand(layout: Layout, columns: RideColumns): PaintedBand {
  const { canvas, context } = testCanvas(Math.max(1, layout.band.width), Math.max(1, layout.band.height));
  const painter: PanelPainter = createPanelPainter(layout, { route: routePath(columns), bandW: columns.bandW });
  return {
    canvas,
    context,
    paint: (rideS, notes = {}, page = samplePage, beside = undefined) =>
      painter.paint(
        context,
        withBeside(columns, panelValuesAt(columns, rideS), beside, rideS),
        threadPageAt(columns, page, rideS, threadBeside(beside, rideS)),
        { ...notes, ...(beside === undefined ? {} : { beside: beside.name }) },
      ),
  };
}

/** All pixels of a band, straight RGBA. */
export function bandPixels(band: PaintedBand): Uint8ClampedArray {
  return band.context.getImageData(0, 0, band.canvas.width, band.canvas.height).data;
}
