import { createCanvas } from "@napi-rs/canvas";
import type { Rect, Surface } from "../../overlay/surface.ts";
import { bareYuva420p, convertToYuva420p } from "./convertToYuva420p.ts";
import type { Patch } from "./keptPicture.ts";
import type { PixelLayout } from "./matroskaStream.ts";

/** A canvas whose pixels are read rectangle by rectangle, as ffmpeg takes them. */
export interface BandPicture {
  readonly surface: Surface;
  /** What was drawn within these rectangles, each grown to even edges; empty ones are left out. */
  read(rects: readonly Rect[]): Patch[];
}

/** A clear picture. @param widthPx even @param heightPx even */
export function createBandPicture(widthPx: number, heightPx: number, pixels: PixelLayout): BandPicture {
  const context = createCanvas(widthPx, heightPx).getContext("2d");
  return {
    // The context has all that a surface needs, under types that are its own.
    surface: context,
    read: (rects) =>
      rects
        .map((rect) => evenWithin(rect, widthPx, heightPx))
        .filter((rect) => rect.width > 0 && rect.height > 0)
        .map((rect) => {
          const { data } = context.getImageData(rect.x, rect.y, rect.width, rect.height);
          return { rect, bytes: pixels === "rgba" ? new Uint8Array(data.buffer) : yuvaOf(data, rect) };
        }),
  };
}

function yuvaOf(rgba: Uint8ClampedArray, { width, height }: Rect): Uint8Array {
  const picture = bareYuva420p(width, height);
  convertToYuva420p(rgba, { x: 0, y: 0, width, height }, picture);
  return picture.bytes;
}

/** The smallest rectangle with even edges that holds another, within the picture. */
export function evenWithin(rect: Rect, widthPx: number, heightPx: number): Rect {
  const x = Math.max(0, 2 * Math.floor(rect.x / 2));
  const y = Math.max(0, 2 * Math.floor(rect.y / 2));
  const right = Math.min(widthPx, 2 * Math.ceil((rect.x + rect.width) / 2));
  const bottom = Math.min(heightPx, 2 * Math.ceil((rect.y + rect.height) / 2));
  return { x, y, width: right - x, height: bottom - y };
}
