import type { RideClock } from "../../main/contract/lineup.ts";

/** An instant that shows at once whether footage and ride agree. Speeds are m/s. */
export interface PlaceToCheck {
  readonly kind: "stops" | "starts" | "slows";
  readonly rideS: number;
  readonly mediaS: number;
  readonly fromMps: number;
  readonly toMps: number;
}

/** Below this a bicycle stands; speed sensors and receivers creep at rest. From memory of receivers' noise at rest. */
const STANDING_MPS = 0.7;
const MOVING_MPS = 2.5;
const APART_S = 15;
const BRAKING_OVER_S = 5;

/**
 * At most `most` instants within the clip, in order of time: where the ride comes to a stop or sets off, then the hardest
 * braking. A place is 3 s or more inside the clip, so that what is before and after can be seen.
 *
 * @param speedMps speed on the ride's 1 s grid, NaN where unknown
 */
export function placesToCheck(speedMps: Float64Array, clock: RideClock, durationS: number, most = 3): PlaceToCheck[] {
  const from = Math.max(BRAKING_OVER_S, Math.ceil(clock.offsetS + 3 * clock.rate));
  const to = Math.min(speedMps.length - BRAKING_OVER_S, Math.floor(clock.offsetS + clock.rate * (durationS - 3)));
  const found: (PlaceToCheck & { readonly weight: number })[] = [];
  for (let k = from; k < to; k++) {
    const before = speedMps[k - BRAKING_OVER_S]!;
    const after = speedMps[k + BRAKING_OVER_S]!;
    const place = { rideS: k, mediaS: (k - clock.offsetS) / clock.rate, fromMps: before, toMps: speedMps[k]! };
    if (speedMps[k]! < STANDING_MPS && speedMps[k - 1]! >= STANDING_MPS && before > MOVING_MPS)
      found.push({ ...place, kind: "stops", weight: 200 + before });
    else if (speedMps[k]! >= STANDING_MPS && speedMps[k - 1]! < STANDING_MPS && after > MOVING_MPS)
      found.push({ ...place, kind: "starts", toMps: after, weight: 100 + after });
    else if (before - speedMps[k]! > 3) found.push({ ...place, kind: "slows", weight: before - speedMps[k]! });
  }
  const kept: PlaceToCheck[] = [];
  for (const { weight: _, ...place } of found.sort((a, b) => b.weight - a.weight)) {
    if (kept.length === most) break;
    if (kept.every((other) => Math.abs(other.rideS - place.rideS) >= APART_S)) kept.push(place);
  }
  return kept.sort((a, b) => a.rideS - b.rideS);
}
