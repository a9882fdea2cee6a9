import { seededShares } from "./sampleRide.ts";

/** Red, green, blue of 255. */
export type Colour = readonly [number, number, number];

export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly rgba: Uint8ClampedArray;
}

/** A colour between two; the share is held to 0 to 1. */
export function mix(from: Colour, to: Colour, share: number): [number, number, number] {
  const at = share < 0 ? 0 : share > 1 ? 1 : share;
  return [from[0] + (to[0] - from[0]) * at, from[1] + (to[1] - from[1]) * at, from[2] + (to[2] - from[2]) * at];
}

const GRID = 256;

/** Smooth noise of several octaves, 0 to 1 about 0.5, repeating every 256 cells; each octave half as large and as strong. */
export function fractalNoise(seed: number, octaves: number): (x: number, y: number) => number {
  const share = seededShares(seed * 7919 + 1);
  const values = Float32Array.from({ length: GRID * GRID }, share);
  const smooth = (at: number): number => at * at * (3 - 2 * at);
  const octave = (x: number, y: number): number => {
    const left = Math.floor(x);
    const top = Math.floor(y);
    const [u, v] = [smooth(x - left), smooth(y - top)];
    const at = (dx: number, dy: number): number =>
      values[((top + dy) & (GRID - 1)) * GRID + ((left + dx) & (GRID - 1))]!;
    const upper = at(0, 0) + (at(1, 0) - at(0, 0)) * u;
    const lower = at(0, 1) + (at(1, 1) - at(0, 1)) * u;
    return upper + (lower - upper) * v;
  };
  return (x, y) => {
    let sum = 0;
    let weights = 0;
    for (let k = 0; k < octaves; k += 1) {
      sum += octave(x * 2 ** k + 17 * k, y * 2 ** k + 31 * k) / 2 ** k;
      weights += 2 ** -k;
    }
    return sum / weights;
  };
}

/** What a lens and a sensor add: every pixel softened with its neighbours, and grain, mostly of brightness. */
export function cameraFinish({ width, height, rgba }: Picture, grain: number): void {
  const share = seededShares(90210);
  const sharp = Uint8ClampedArray.from(rgba);
  for (let y = 0; y < height; y += 1) {
    const up = Math.max(0, y - 1) * width;
    const down = Math.min(height - 1, y + 1) * width;
    for (let x = 0; x < width; x += 1) {
      const left = Math.max(0, x - 1);
      const right = Math.min(width - 1, x + 1);
      const brighter = grain * (share() + share() + share() - 1.5);
      for (let c = 0; c < 3; c += 1) {
        const of = (row: number, column: number): number => sharp[4 * (row + column) + c]!;
        const row = y * width;
        const soft = (4 * of(row, x) + of(row, left) + of(row, right) + of(up, x) + of(down, x)) / 8;
        rgba[4 * (row + x) + c] = soft + brighter + 0.4 * grain * (share() - 0.5);
      }
    }
  }
}
