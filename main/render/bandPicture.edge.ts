import { createCanvas, type SKRSContext2D } from "@napi-rs/canvas";
import type { Rect, Surface } from "../../overlay/surface.ts";
import { convertToYuva420p, emptyYuva420p } from "./convertToYuva420p.ts";
import type { PixelLayout } from "./matroskaStream.ts";

/** A canvas and its pixels as ffmpeg takes them, kept in step rectangle by rectangle. */
export interface BandPicture {
  readonly surface: Surface;
  /** Takes over what was drawn within these rectangles. */
  read(rects: readonly Rect[]): void;
  /** The pixels now, at an opacity; valid until the next call. */
  bytes(opacity: number): Uint8Array;
}

/** A clear picture. @param widthPx even @param heightPx even */
export function createBandPicture(widthPx: number, heightPx: number, pixels: PixelLayout): BandPicture {
  const context = createCanvas(widthPx, heightPx).getContext("2d");
  const kept = pixels === "rgba" ? keptRgba(widthPx, heightPx) : keptYuva(widthPx, heightPx);
  const faded = { bytes: new Uint8Array(0) };
  return {
    // The context has all that a surface needs, under types that are its own.
    surface: context,
    read(rects) {
      for (const rect of rects) {
        const even = evenWithin(rect, widthPx, heightPx);
        if (even.width > 0 && even.height > 0) kept.take(context, even);
      }
    },
    bytes(opacity) {
      if (opacity >= 1) return kept.bytes;
      if (faded.bytes.length === 0) faded.bytes = new Uint8Array(kept.bytes.length);
      faded.bytes.set(kept.bytes);
      kept.fade(faded.bytes, opacity);
      return faded.bytes;
    },
  };
}

interface Kept {
  readonly bytes: Uint8Array;
  take(context: SKRSContext2D, rect: Rect): void;
  fade(copy: Uint8Array, opacity: number): void;
}

function keptYuva(widthPx: number, heightPx: number): Kept {
  const picture = emptyYuva420p(widthPx, heightPx);
  const alphaAt = picture.bytes.length - picture.a.length;
  return {
    bytes: picture.bytes,
    take: (context, rect) =>
      convertToYuva420p(context.getImageData(rect.x, rect.y, rect.width, rect.height).data, rect, picture),
    fade(copy, opacity) {
      for (let k = alphaAt; k < copy.length; k += 1) copy[k] = Math.round((copy[k]) * opacity);
    },
  };
}

function keptRgba(widthPx: number, heightPx: number): Kept {
  const bytes = new Uint8Array(widthPx * heightPx * 4);
  return {
    bytes,
    take(context, rect) {
      const { data } = context.getImageData(rect.x, rect.y, rect.width, rect.height);
      const rowBytes = rect.width * 4;
      for (let row = 0; row < rect.height; row += 1) {
        bytes.set(data.subarray(row * rowBytes, (row + 1) * rowBytes), ((rect.y + row) * widthPx + rect.x) * 4);
      }
    },
    fade(copy, opacity) {
      for (let k = 3; k < copy.length; k += 4) copy[k] = Math.round((copy[k]) * opacity);
    },
  };
}

/** The smallest rectangle with even edges that holds another, within the picture. */
export function evenWithin(rect: Rect, widthPx: number, heightPx: number): Rect {
  const x = Math.max(0, 2 * Math.floor(rect.x / 2));
  const y = Math.max(0, 2 * Math.floor(rect.y / 2));
  const right = Math.min(widthPx, 2 * Math.ceil((rect.x + rect.width) / 2));
  const bottom = Math.min(heightPx, 2 * Math.ceil((rect.y + rect.height) / 2));
  return { x, y, width: right - x, height: bottom - y };
}
