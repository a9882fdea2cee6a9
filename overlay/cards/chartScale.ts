import type { AskedStretch } from "../../main/contract/card.ts";

/** A plot's axes: ride seconds across, a value upwards. Px. */
export interface PlotScale {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly startS: number;
  readonly endS: number;
  readonly low: number;
  readonly high: number;
}

/** x of a ride time, kept within the plot. */
export function xOf(plot: PlotScale, rideS: number): number {
  const share = (rideS - plot.startS) / Math.max(1e-9, plot.endS - plot.startS);
  return plot.left + Math.max(0, Math.min(1, share)) * plot.width;
}

/** y of a value, kept within the plot. */
export function yOf(plot: PlotScale, value: number): number {
  const share = (value - plot.low) / Math.max(1e-9, plot.high - plot.low);
  return plot.top + plot.height * (1 - Math.max(0, Math.min(1, share)));
}

/** Round steps in time, s: at most `most` of them over a span. */
export function timeStepS(spanS: number, most: number): number {
  const steps = [10, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 14400, 21600];
  return steps.find((step) => spanS / step <= most) ?? 43200;
}

/** Round steps of a value: 1, 2 or 5 times a power of ten, about `about` of them. */
export function valueStep(span: number, about: number): number {
  const rough = span / about;
  const power = 10 ** Math.floor(Math.log10(rough));
  const factor = [1, 2, 5, 10].find((candidate) => candidate * power >= rough) ?? 10;
  return factor * power;
}

/** Share `share` of the finite values lies below the result; NaN without any. */
export function quantile(values: Float64Array, share: number): number {
  const sorted = values.filter((value) => Number.isFinite(value)).sort();
  return sorted.length === 0 ? Number.NaN : sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;
}

/**
 * Values thinned to a trace: the mean of every bin, NaN where a bin has none, so that gaps stay gaps.
 *
 * @param bins as many as the plot is wide, or fewer
 */
export function thinned(values: Float64Array, bins: number): Float64Array {
  const count = Math.max(1, Math.min(bins, values.length));
  return Float64Array.from({ length: count }, (_, bin) => {
    const from = Math.floor((bin * values.length) / count);
    const to = Math.floor(((bin + 1) * values.length) / count);
    let sum = 0;
    let known = 0;
    for (let k = from; k < to; k += 1) {
      const value = values[k]!;
      if (!Number.isFinite(value)) continue;
      sum += value;
      known += 1;
    }
    return known === 0 ? Number.NaN : sum / known;
  });
}

/** The stretches of a chart in which its band holds: all but those that ask for something else. */
export function outsideBlocks(blocks: readonly AskedStretch[], startS: number, endS: number): [number, number][] {
  const spans: [number, number][] = [];
  let from = startS;
  for (const block of [...blocks].sort((a, b) => a.startS - b.startS)) {
    if (block.startS > from) spans.push([from, Math.min(block.startS, endS)]);
    from = Math.max(from, block.endS);
  }
  if (from < endS) spans.push([from, endS]);
  return spans.filter(([low, high]) => high > low);
}
