import type { Rect } from "../../overlay/surface.ts";

/** Planes of a picture as ffmpeg's yuva420p lays them out: Y, U, V, A in one block. BT.709, limited range, straight alpha. */
export interface Yuva420p {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly bytes: Uint8Array;
  readonly y: Uint8Array;
  readonly u: Uint8Array;
  readonly v: Uint8Array;
  readonly a: Uint8Array;
}

/** A fully transparent picture. Width and height are even. */
export function emptyYuva420p(widthPx: number, heightPx: number): Yuva420p {
  const luma = widthPx * heightPx;
  const chroma = luma / 4;
  const bytes = new Uint8Array(2 * luma + 2 * chroma);
  const picture = {
    widthPx,
    heightPx,
    bytes,
    y: bytes.subarray(0, luma),
    u: bytes.subarray(luma, luma + chroma),
    v: bytes.subarray(luma + chroma, luma + 2 * chroma),
    a: bytes.subarray(luma + 2 * chroma),
  };
  picture.y.fill(BLACK);
  picture.u.fill(NEUTRAL);
  picture.v.fill(NEUTRAL);
  return picture;
}

const BLACK = 16;
const NEUTRAL = 128;

// ITU-R BT.709-6, 3.2 and 3.4: luma weights; limited range 219 steps of luma, 224 of chroma. In 1/65536.
const KR = 0.2126;
const KB = 0.0722;
const KG = 1 - KR - KB;
const FIXED = 65536;
const fix = (weight: number): number => Math.round(weight * FIXED);
const Y_R = fix((KR * 219) / 255);
const Y_G = fix((KG * 219) / 255);
const Y_B = fix((KB * 219) / 255);
const U_B = fix((0.5 * 224) / 255);
const U_R = fix((-0.5 * KR * 224) / ((1 - KB) * 255));
const U_G = -U_B - U_R;
const V_R = fix((0.5 * 224) / 255);
const V_B = fix((-0.5 * KB * 224) / ((1 - KR) * 255));
const V_G = -V_R - V_B;
const Y_ZERO = BLACK * FIXED + FIXED / 2;
const C_ZERO = NEUTRAL * FIXED + FIXED / 2;

/**
 * Converts a rectangle of straight RGBA pixels into the picture.
 *
 * The colour of each 2 x 2 block is the mean of its pixels weighted by their alpha: a plain mean would mix in the black
 * of transparent neighbours and leave a dark edge.
 *
 * @param rgba the rectangle's pixels, row by row, 4 bytes each
 * @param rect even x, y, width and height, inside the picture
 */
export function convertToYuva420p(rgba: Uint8ClampedArray | Uint8Array, rect: Rect, into: Yuva420p): void {
  const { y: planeY, u: planeU, v: planeV, a: planeA, widthPx } = into;
  const rowBytes = rect.width * 4;
  for (let row = 0; row < rect.height; row += 2) {
    let from = row * rowBytes;
    let at = (rect.y + row) * widthPx + rect.x;
    let atChroma = ((rect.y + row) >> 1) * (widthPx >> 1) + (rect.x >> 1);
    for (let column = 0; column < rect.width; column += 2, from += 8, at += 2, atChroma += 1) {
      let red = 0;
      let green = 0;
      let blue = 0;
      let alpha = 0;
      for (let corner = 0; corner < 4; corner += 1) {
        const pixel = from + (corner & 1) * 4 + (corner >> 1) * rowBytes;
        const to = at + (corner & 1) + (corner >> 1) * widthPx;
        const a = rgba[pixel + 3]!;
        planeA[to] = a;
        if (a === 0) {
          planeY[to] = BLACK;
          continue;
        }
        const r = rgba[pixel]!;
        const g = rgba[pixel + 1]!;
        const b = rgba[pixel + 2]!;
        planeY[to] = (Y_R * r + Y_G * g + Y_B * b + Y_ZERO) >> 16;
        red += r * a;
        green += g * a;
        blue += b * a;
        alpha += a;
      }
      if (alpha === 0) {
        planeU[atChroma] = NEUTRAL;
        planeV[atChroma] = NEUTRAL;
      } else {
        planeU[atChroma] = ((U_R * red + U_G * green + U_B * blue) / alpha + C_ZERO) >> 16;
        planeV[atChroma] = ((V_R * red + V_G * green + V_B * blue) / alpha + C_ZERO) >> 16;
      }
    }
  }
}
