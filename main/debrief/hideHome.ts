import { distanceM } from "../maths/geodesy.ts";
import type { HomeZone } from "../contract/athlete.ts";

export interface Track {
  readonly latDeg: Float64Array;
  readonly lonDeg: Float64Array;
}

/**
 * The track without the surroundings of home: what lies in the zone is NaN, and so is a further piece of path on either
 * side of it, a quarter to the whole of the radius long, so that the ends do not lie on a circle round the door.
 *
 * A bare circle gives the place away to anyone with a few tracks (Hussain, Illinois thesis 2018). The piece differs from
 * ride to ride and, for one ride, is always the same: exports of it can't be laid over one another.
 * @param chance 0 to 1 for the two pieces, from a hash of the ride
 */
export function hideHome(
  track: Track,
  zone: HomeZone,
  chance: { readonly before: number; readonly after: number },
): Track {
  const count = track.latDeg.length;
  const inside = Array.from(
    { length: count },
    (_, at) => distanceM(track.latDeg[at]!, track.lonDeg[at]!, zone.latDeg, zone.lonDeg) <= zone.radiusM,
  );
  const hidden = [...inside];
  const spread = (step: 1 | -1, lengthM: number): void => {
    let leftM = -1;
    let last: number | null = null;
    for (let at = step === 1 ? 0 : count - 1; at >= 0 && at < count; at += step) {
      if (!Number.isFinite(track.latDeg[at])) continue;
      if (inside[at]) leftM = lengthM;
      else if (leftM >= 0) {
        if (last !== null)
          leftM -= distanceM(track.latDeg[last]!, track.lonDeg[last]!, track.latDeg[at]!, track.lonDeg[at]!);
        if (leftM >= 0) hidden[at] = true;
      }
      last = at;
    }
  };
  const pieceM = (share: number): number => zone.radiusM * (0.25 + 0.75 * share);
  spread(1, pieceM(chance.after));
  spread(-1, pieceM(chance.before));
  const without = (column: Float64Array): Float64Array => column.map((value, at) => (hidden[at] ? Number.NaN : value));
  return { latDeg: without(track.latDeg), lonDeg: without(track.lonDeg) };
}
