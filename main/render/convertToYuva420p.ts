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

/** A picture whose bytes mean nothing yet. Width and height are even. */
export function bareYuva420p(widthPx: number, heightPx: number): Yuva420p {
  const luma = widthPx * heightPx;
  const chroma = luma / 4;
  const bytes = new Uint8Array(2 * luma + 2 * chroma);
  return {
    widthPx,
    heightPx,
    bytes,
    y: bytes.subarray(0, luma),
    u: bytes.subarray(luma, luma + chroma),
    v: bytes.subarray(luma + chroma, luma + 2 * chroma),
    a: bytes.subarray(luma + 2 * chroma),
  };
}

/** A fully transparent picture. Width and height are even. */
export function emptyYuva420p(widthPx: number, heightPx: number): Yuva420p {
  const picture = bareYuva420p(widthPx, heightPx);
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

/** Bits of colour in a pixel read as one number, whichever byte comes first. */
const COLOUR = new Uint32Array(Uint8Array.of(255, 255, 255, 0).buffer)[0]!;

/**
 * Converts a rectangle of straight RGBA pixels into the picture.
 *
 * The colour of each 2 x 2 block is the mean of its pixels weighted by their alpha: a plain mean would mix in the black
 * of transparent neighbours and leave a dark edge. Black and clear blocks (scrim), and those of one colour (cards), are
 * nearly all and need no sums.
 *
 * @param rgba the rectangle's pixels, row by row, 4 bytes each
 * @param rect even x, y, width and height, inside the picture
 */
export function convertToYuva420p(rgba: Uint8ClampedArray | Uint8Array, rect: Rect, into: Yuva420p): void {
  const bytes = rgba.byteOffset % 4 === 0 ? rgba : rgba.slice();
  const pixels = new Uint32Array(bytes.buffer, bytes.byteOffset, rect.width * rect.height);
  const { y: planeY, u: planeU, v: planeV, a: planeA, widthPx } = into;
  /** One block: its first pixel's place in `rgba`, in the picture and in its colour planes. */
  const convertBlock = (first: number, at: number, atChroma: number): void => {
    let red = 0;
    let green = 0;
    let blue = 0;
    let alpha = 0;
    for (let corner = 0; corner < 4; corner += 1) {
      const pixel = 4 * (first + (corner & 1) + (corner >> 1) * rect.width);
      const to = at + (corner & 1) + (corner >> 1) * widthPx;
      const a = bytes[pixel + 3]!;
      planeA[to] = a;
      if (a === 0) {
        planeY[to] = BLACK;
        continue;
      }
      const r = bytes[pixel]!;
      const g = bytes[pixel + 1]!;
      const b = bytes[pixel + 2]!;
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
  };
  // The last block of one colour: where it lies in the picture.
  let [colour, known, knownChroma] = [0, -1, -1];
  for (let row = 0; row < rect.height; row += 2) {
    let first = row * rect.width;
    let at = (rect.y + row) * widthPx + rect.x;
    let atChroma = ((rect.y + row) >> 1) * (widthPx >> 1) + (rect.x >> 1);
    for (let column = 0; column < rect.width; column += 2, first += 2, at += 2, atChroma += 1) {
      const below = first + rect.width;
      const one = pixels[first]!;
      const two = pixels[first + 1]!;
      const three = pixels[below]!;
      const four = pixels[below + 1]!;
      const plain = ((one | two | three | four) & COLOUR) === 0;
      const even = !plain && one === two && one === three && one === four;
      if (!plain && !(even && one === colour && known >= 0)) {
        convertBlock(first, at, atChroma);
        if (even) [colour, known, knownChroma] = [one, at, atChroma];
        continue;
      }
      const luma = plain ? BLACK : planeY[known]!;
      const next = at + widthPx;
      planeY[at] = luma;
      planeY[at + 1] = luma;
      planeY[next] = luma;
      planeY[next + 1] = luma;
      planeA[at] = bytes[4 * first + 3]!;
      planeA[at + 1] = bytes[4 * first + 7]!;
      planeA[next] = bytes[4 * below + 3]!;
      planeA[next + 1] = bytes[4 * below + 7]!;
      planeU[atChroma] = plain ? NEUTRAL : planeU[knownChroma]!;
      planeV[atChroma] = plain ? NEUTRAL : planeV[knownChroma]!;
    }
  }
}
