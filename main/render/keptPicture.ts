import type { Rect } from "../../overlay/surface.ts";
import { emptyYuva420p } from "./convertToYuva420p.ts";
import type { PixelLayout } from "./matroskaStream.ts";

/** A rectangle of a picture drawn anew: its pixels as a small picture of the same layout. All edges are even. */
export interface Patch {
  readonly rect: Rect;
  readonly bytes: Uint8Array;
}

/** A picture that is brought up to date patch by patch, so that only what changed need be handed on. */
export interface KeptPicture {
  lay(patch: Patch): void;
  /** The whole picture at an opacity, 0 to 1; valid until the next call. */
  bytes(opacity: number): Uint8Array;
}

/** A plane of a picture of any size: bytes of a pixel, and how many pixels share one each way. */
interface Plane {
  readonly pixelBytes: number;
  readonly shared: number;
}

/** In the order in which they lie, one after the other. */
const PLANES: Readonly<Record<PixelLayout, readonly Plane[]>> = {
  rgba: [{ pixelBytes: 4, shared: 1 }],
  yuva420p: [
    { pixelBytes: 1, shared: 1 },
    { pixelBytes: 1, shared: 2 },
    { pixelBytes: 1, shared: 2 },
    { pixelBytes: 1, shared: 1 },
  ],
};

/** A fully transparent picture. @param widthPx even @param heightPx even */
export function createKeptPicture(widthPx: number, heightPx: number, pixels: PixelLayout): KeptPicture {
  const empty = (): Uint8Array =>
    pixels === "rgba" ? new Uint8Array(widthPx * heightPx * 4) : emptyYuva420p(widthPx, heightPx).bytes;
  const kept = empty();
  let clear: Uint8Array | null = null;
  let faded: Uint8Array | null = null;
  return {
    lay({ rect, bytes }) {
      let from = 0;
      let plane = 0;
      for (const { pixelBytes, shared } of PLANES[pixels]) {
        const rowBytes = (rect.width / shared) * pixelBytes;
        const keptRowBytes = (widthPx / shared) * pixelBytes;
        let to = plane + (rect.y / shared) * keptRowBytes + (rect.x / shared) * pixelBytes;
        for (let row = 0; row < rect.height / shared; row += 1, from += rowBytes, to += keptRowBytes) {
          kept.set(bytes.subarray(from, from + rowBytes), to);
        }
        plane += keptRowBytes * (heightPx / shared);
      }
    },
    bytes(opacity) {
      if (opacity >= 1) return kept;
      // Nothing of what stood there, whatever that was.
      if (opacity <= 0) return (clear ??= empty());
      faded ??= new Uint8Array(kept.length);
      faded.set(kept);
      const [first, step] = pixels === "rgba" ? [3, 4] : [kept.length - widthPx * heightPx, 1];
      for (let k = first; k < faded.length; k += step) faded[k] = Math.round(faded[k]! * opacity);
      return faded;
    },
  };
}
