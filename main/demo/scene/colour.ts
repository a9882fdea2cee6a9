/** Red, green, blue, 0 to 255. */
export type Rgb = readonly [number, number, number];

/** What distance fades into. */
export const HAZE: Rgb = [203, 217, 224];

/** `share` 0 gives `a`, 1 gives `b`. */
export function mixed(a: Rgb, b: Rgb, share: number): Rgb {
  return [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share, a[2] + (b[2] - a[2]) * share];
}

/** The colour as seen through `distanceM` of summer air. */
export function hazed(colour: Rgb, distanceM: number): Rgb {
  return mixed(colour, HAZE, 1 - Math.exp(-distanceM / 420));
}

/** Lighter (factor above 1) or darker. */
export function lit(colour: Rgb, factor: number): Rgb {
  return [colour[0] * factor, colour[1] * factor, colour[2] * factor];
}

/** The colour as a fill or stroke style. */
export function css(colour: Rgb, alpha = 1): string {
  const [r, g, b] = colour.map((c) => Math.max(0, Math.min(255, Math.round(c))));
  return alpha >= 1 ? `rgb(${r},${g},${b})` : `rgba(${r},${g},${b},${alpha.toFixed(3)})`;
}
