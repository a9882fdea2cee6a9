import type { Setting } from "./plan.ts";
import type { RideFormat } from "./ride.ts";

/** The `ride` block of what `followcar read --json` prints. Null is "not known", never 0. Means and maxima are over the records as recorded, zeros included. */
export interface RideSummary {
  readonly file: string;
  readonly format: RideFormat;
  readonly setting: Setting;
  /** ISO 8601, UTC. */
  readonly startTime: string | null;
  /** Date and time on the rider's own clock, `2026-05-17T10:42`; null where the date or the zone is not known. */
  readonly localStart: string | null;
  readonly records: number;
  readonly elapsedS: number;
  readonly timerS: number;
  readonly movingS: number | null;
  readonly distanceM: number | null;
  readonly ascentM: number | null;
  readonly power: { readonly meanW: number | null; readonly maxW: number | null; readonly samples: number };
  readonly heartRate: { readonly meanBpm: number | null; readonly maxBpm: number | null };
  readonly cadence: { readonly meanRpm: number | null; readonly maxRpm: number | null };
  readonly speed: { readonly meanMps: number | null; readonly maxMps: number | null };
  /** [latitude, longitude], degrees. */
  readonly firstPosition: readonly [number, number] | null;
  readonly lastPosition: readonly [number, number] | null;
  readonly gaps: readonly { readonly startS: number; readonly endS: number }[];
}
