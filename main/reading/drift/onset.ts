import type { Plan } from "../../contract/plan.ts";
import type { Ride, Span } from "../../contract/ride.ts";

/** What the fit says about this ride's heart, used for the correction and the uncertainty too. */
export interface OnsetFit {
  readonly tauS: number;
  readonly beatsPerWatt: number;
  readonly beatsPerWattError: number;
  readonly sigmaBeats: number;
  readonly rho: number;
}

/** One of the five answers. */
export type Onset =
  | { readonly verdict: "not enough data"; readonly notes?: readonly string[] }
  | { readonly verdict: "no drift shown" | "rose from the start"; readonly fit: OnsetFit; readonly notes: readonly string[] }
  | {
      readonly verdict: "start unclear" | "began";
      readonly fit: OnsetFit;
      readonly onsetS: number;
      readonly lowS: number;
      readonly highS: number;
      readonly notes: readonly string[];
    };

/** When the drift began. */
export function findOnset(_ride: Ride, _plan: Plan, _stretch: Span, _stops: readonly Span[]): Onset {
  return { verdict: "not enough data" };
}
