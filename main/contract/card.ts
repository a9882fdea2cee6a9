import type { PairCard } from "./pair.ts";

/** A still page in the film. All text comes ready from the phrase table; numbers come from the reading. */
export interface ChartSeries {
  /** One value per step, NaN where missing: the mean of 30 s, or in a short span that of 3 s. */
  readonly power30sW: Float64Array | null;
  /** `%`: power is a share of the plan, in percent, and so is the band. Missing: watts. */
  readonly powerUnit?: "W" | "%";
  readonly heartRateBpm: Float64Array | null;
  /** The road's height under them, a value a step. Missing: not known, or not to be shown. */
  readonly altitude?: Float64Array;
  /** Unit of the heights; missing: metres. */
  readonly altitudeUnit?: "m" | "ft";
  readonly startS: number;
  readonly stepS: number;
}

/** A stretch of the ride for which other power was asked; nulls: none. */
export interface AskedStretch {
  readonly startS: number;
  readonly endS: number;
  readonly low: number | null;
  readonly high: number | null;
}

export interface ChartMarks {
  readonly bandW: { readonly low: number; readonly high: number } | null;
  readonly counted: { readonly startS: number; readonly endS: number } | null;
  readonly first: { readonly atS: number; readonly bpm: number } | null;
  readonly last: { readonly atS: number; readonly bpm: number } | null;
  readonly onset: { readonly atS: number | null; readonly lowS: number; readonly highS: number } | null;
  /** A span to point at (a moment), with its words. */
  readonly moment: { readonly startS: number; readonly endS: number; readonly words: string } | null;
  /** The heart rate asked for. Missing: none. */
  readonly heartBand?: { readonly low: number; readonly high: number };
  /** Stretches that ask for other power than the band, in the unit of the power; nulls: for none. Missing: no stretch. */
  readonly blocks?: readonly AskedStretch[];
  /** What of the ride the film shows. Missing: not to be shown. */
  readonly shots?: readonly { readonly startS: number; readonly endS: number }[];
  /** Where the moments are that film and page tell, in the page's order: it numbers them from 1. Missing: not to be shown. */
  readonly told?: readonly number[];
}

export type Card =
  | { readonly kind: "title"; readonly title: string; readonly lines: readonly string[] }
  | { readonly kind: "plan"; readonly title: string; readonly rows: readonly { label: string; value: string }[] }
  | {
      readonly kind: "chart";
      readonly title: string;
      readonly lines: readonly string[];
      readonly series: ChartSeries;
      readonly marks: ChartMarks;
    }
  | {
      readonly kind: "comparison";
      readonly title: string;
      readonly columns: readonly [string, string];
      readonly rows: readonly { label: string; left: string; right: string }[];
    }
  | PairCard
  | { readonly kind: "note"; readonly title: string; readonly lines: readonly string[] }
  | { readonly kind: "closing"; readonly title: string; readonly lines: readonly string[]; readonly caution: string };
