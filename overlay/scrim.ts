import type { Rect, Surface } from "./surface.ts";

/**
 * How much the picture is darkened beneath the panels: one alpha for each row (or column) of the band.
 *
 * Alphas are of 255. Between two steps of 8 bits the rows alternate (error carried on), so that the ramp shows no bands.
 */
export interface Scrim {
  /** `rows`: `alpha[k]` is that of row k, over the band's width. `columns`: of column k, over its height. */
  readonly along: "rows" | "columns";
  readonly alpha: Uint8Array;
}

/**
 * A smooth ramp from nothing at one end of the band to `full`, which holds to the other end.
 *
 * @param lengthPx rows or columns of the band
 * @param rampPx how many of them the ramp takes
 * @param full alpha at its fullest, 0 to 1
 * @param fullEnd which end of the band is at full alpha
 */
export function scrimRamp(
  along: Scrim["along"],
  lengthPx: number,
  rampPx: number,
  full: number,
  fullEnd: "first" | "last",
): Scrim {
  const alpha = new Uint8Array(lengthPx);
  let carried = 0;
  for (let k = 0; k < lengthPx; k += 1) {
    const share = Math.min(1, (k + 0.5) / rampPx);
    const wanted = 255 * full * share * share * (3 - 2 * share) + carried;
    const rounded = Math.round(wanted);
    carried = wanted - rounded;
    alpha[fullEnd === "last" ? k : lengthPx - 1 - k] = rounded;
  }
  return { along, alpha };
}

/** Lays the scrim over a rectangle of the band, which must be clear. */
export function fillScrim(surface: Surface, scrim: Scrim, colour: string, rect: Rect): void {
  const rows = scrim.along === "rows";
  const from = rows ? rect.y : rect.x;
  const to = from + (rows ? rect.height : rect.width);
  for (let k = from; k < to;) {
    const alpha = scrim.alpha[k]!;
    let end = k + 1;
    while (end < to && scrim.alpha[end] === alpha) end += 1;
    if (alpha > 0) {
      surface.fillStyle = colour + alpha.toString(16).padStart(2, "0");
      if (rows) surface.fillRect(rect.x, k, rect.width, end - k);
      else surface.fillRect(k, rect.y, end - k, rect.height);
    }
    k = end;
  }
}
