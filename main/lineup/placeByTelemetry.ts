import type { LineupCandidate } from "../contract/lineup.ts";
import { placedBecause } from "../contract/notices/placement.ts";
import type { Ride } from "../contract/ride.ts";
import type { TelemetryPositions } from "../contract/telemetry.ts";
import { matchTracks, type TrackMatch } from "./matchTracks.ts";
import { overlapShare, type RecordingPlacement } from "./placement.ts";
import type { Recording } from "./recordings.ts";
import { clocksExclude, weighPlaces, type Explanation, type WeighedTrack } from "./weighPlaces.ts";

/** Camera positions of a recording on its own timeline; `utcMs` of its time 0 where the receiver told it. */
export interface RecordingTelemetry {
  readonly positions: TelemetryPositions;
  readonly startUtcMs: number | null;
  readonly utcSigmaS: number | null;
}

/** Another rider's ride of the outing, on the shown ride's time: `shown time = offsetS + own time`. */
export interface OtherRide {
  readonly ride: Ride;
  readonly offsetS: number;
  /** Half-width of about 95 %, s. */
  readonly uncertaintyS: number;
}

/** The ride's own track: records with a position, on ride time. */
export function rideTrack(ride: Ride): TelemetryPositions {
  const { raw } = ride;
  const kept: number[] = [];
  for (let k = 0; k < raw.count; k++)
    if (Number.isFinite(raw.latDeg[k]) && Number.isFinite(raw.lonDeg[k])) kept.push(k);
  const pick = (column: Float64Array) => Float64Array.from(kept, (k) => column[k]!);
  return { mediaS: pick(raw.timeS), latDeg: pick(raw.latDeg), lonDeg: pick(raw.lonDeg), speedMps: pick(raw.speedMps) };
}

/** A ride's records carry whole seconds, and recorders write them late by part of one, s (one standard error). */
const RIDE_CLOCK_S = 0.7;
/** All but this may speak against a place that is called sure. */
const MOST_DOUBT = 0.001;
/** Where no clock bears a place out: of 2,000 made clips that belong nowhere, 3 of 15 and 30 s were sure at the bound above. */
const MOST_DOUBT_WITHOUT_CLOCK = 0.00025;
/** Where another explanation has more than this, the printed error covers it as well. */
const COVERED_DOUBT = 0.001;
/** And its own error where it has more than this, though it lies within the error itself. */
const COVERED_WHOLE_DOUBT = 0.01;
/** A rival place by the clocks is itself off by up to this where a camera states its time late, s. */
const RIVAL_OFF_S = 1.5;
/** Clocks and positions agree to a few seconds up to here, s. */
const FEW_S = 5;
/** A place is told from the way that was covered, m, and to this, s. */
const LEAST_WAY_M = 30;
const MOST_UNCERTAIN_S = 2.5;
/** A track follows another no worse than this, m. */
const FOLLOWS_M = 15;
/** Places nearer to each other than this are one, s. */
const SAME_PLACE_S = 2;
/** A rider further off than this did not ride with the other, s. */
const FURTHEST_RIDER_S = 120;

interface Found {
  readonly explanation: Explanation;
  /** Of the recording's first frame, on the shown ride's time; null for another time. */
  readonly atS: number | null;
  readonly uncertaintyS: number;
}

function weighedTrack(recording: Recording, telemetry: RecordingTelemetry, ride: Ride): WeighedTrack {
  const { best, others } = matchTracks(telemetry.positions, rideTrack(ride));
  const byClockS =
    telemetry.startUtcMs === null || ride.startUtcMs === null ? null : (telemetry.startUtcMs - ride.startUtcMs) / 1000;
  const created = recording.clips[0]!.createdUtcMs;
  const zoneS = (ride.utcOffsetMin ?? 0) * 60;
  const unrecordedS = ride.gaps
    .map(({ startS, endS }) => endS - startS)
    .filter((lengthS) => lengthS >= 0.4 * recording.durationS)
    .reduce((sum, lengthS) => sum + lengthS, 0);
  return {
    matches: best ? [best, ...others.filter((other) => other.rmsM <= 2 * FOLLOWS_M)] : [],
    byClockS,
    clockSigmaS: Math.hypot(telemetry.utcSigmaS ?? 1, RIDE_CLOCK_S),
    zonesS: [zoneS, -zoneS],
    daysApart:
      byClockS !== null || created === null || ride.startUtcMs === null
        ? null
        : (created - ride.startUtcMs) / 86_400_000,
    unrecordedShare: unrecordedS / Math.max(1, ride.elapsedS),
  };
}

/**
 * Places a recording by the positions, speeds and satellite time of its telemetry track: one posterior over where it lies
 * and what the clocks are off by (`weighPlaces`). Sure where all but a thousandth speaks for one place (a quarter of that without clocks). Where it fits
 * another rider, it is placed by the clocks, and `leadS` says how far ahead that rider was; the file of that rider among
 * `others` makes it exact. Null when the telemetry does not reach the ride at all.
 */
export function placeByTelemetry(
  recording: Recording,
  telemetry: RecordingTelemetry,
  ride: Ride,
  others: readonly OtherRide[] = [],
): RecordingPlacement | null {
  const rides = [{ ride, offsetS: 0, uncertaintyS: 0 }, ...others];
  const tracks = rides.map((one) => weighedTrack(recording, telemetry, one.ride));
  const found = weighPlaces(tracks).map((explanation): Found => {
    if (explanation.kind === "another time") return { explanation, atS: null, uncertaintyS: 0 };
    const { offsetS, uncertaintyS } = rides[explanation.track]!;
    const track = tracks[explanation.track]!;
    return explanation.kind === "this bike"
      ? {
          explanation,
          atS: offsetS + explanation.match.offsetS,
          uncertaintyS: Math.hypot(explanation.match.uncertaintyS, uncertaintyS),
        }
      : {
          explanation,
          atS: offsetS + track.byClockS!,
          uncertaintyS: Math.hypot(2 * track.clockSigmaS, uncertaintyS),
        };
  });
  const choice = found.find((one) => one.atS !== null);
  if (!choice || choice.explanation.kind === "another time") return null;
  const { kind, track: k, match } = choice.explanation;
  const atS = choice.atS!;
  const track = tracks[k]!;
  const clockS = track.byClockS === null ? null : rides[k]!.offsetS + track.byClockS;
  const positionsS = rides[k]!.offsetS + match.offsetS;
  const apartS = clockS === null ? null : positionsS - clockS;

  let uncertaintyS = choice.uncertaintyS;
  const placedNear = (one: Found, s: number) => one.atS !== null && Math.abs(one.atS - atS) <= s;
  // A rival place is itself off by something.
  const reachS = (one: Found) => Math.abs(one.atS! - atS) + Math.min(RIVAL_OFF_S, one.uncertaintyS);
  const rivals = found.filter(
    (one) =>
      one !== choice &&
      placedNear(one, FEW_S) &&
      (one.explanation.share > COVERED_WHOLE_DOUBT || !placedNear(one, uncertaintyS)),
  );
  // Where clocks and positions agree to a few seconds, both places are covered by the error that is printed.
  if (rivals.reduce((sum, one) => sum + one.explanation.share, 0) > COVERED_DOUBT)
    uncertaintyS = Math.max(uncertaintyS, ...rivals.map(reachS));
  // So is where the clocks put it once the hour is set right, where that is a few seconds off.
  if (kind === "this bike" && apartS !== null)
    for (const zoneS of track.zonesS) {
      const offS = Math.abs(apartS - zoneS);
      if (zoneS !== 0 && offS <= FEW_S) uncertaintyS = Math.max(uncertaintyS, offS);
    }
  const doubt = found
    .filter((one) => one !== choice && !placedNear(one, Math.max(SAME_PLACE_S, uncertaintyS)))
    .reduce((sum, one) => sum + one.explanation.share, 0);

  const excluded = apartS !== null && clocksExclude(apartS);
  const sharp =
    match.movedM >= LEAST_WAY_M &&
    (kind === "another rider"
      ? Math.abs(apartS!) <= FURTHEST_RIDER_S
      : match.rmsM <= FOLLOWS_M && match.uncertaintyS <= MOST_UNCERTAIN_S);
  const sure = sharp && !excluded && doubt <= (clockS === null ? MOST_DOUBT_WITHOUT_CLOCK : MOST_DOUBT);

  const places: number[] = [atS];
  const offered = [...found.map((one) => one.atS), ...(excluded ? [clockS] : [])].filter(
    (s): s is number => s !== null,
  );
  for (const s of offered) if (places.every((p) => Math.abs(p - s) > SAME_PLACE_S)) places.push(s);
  const inRide = (s: number) => overlapShare(recording, { offsetS: s, rate: 1 }, ride.elapsedS) > 0;
  const candidates: LineupCandidate[] = places.filter(inRide).map((rideStartS) => ({
    rideStartS,
    score: found
      .filter((one) => one.atS !== null && Math.abs(one.atS - rideStartS) <= SAME_PLACE_S)
      .reduce((sum, one) => sum + one.explanation.share, 0),
  }));
  const lead = leadOf(kind, k, atS, tracks[0]!.matches[0]);
  const outside = sure && !inRide(atS);
  return {
    recording,
    clock: { offsetS: atS, rate: 1 },
    method: "telemetry",
    verdict: outside ? "no match" : sure ? "sure" : excluded ? "conflict" : "not sure",
    confidence: sure ? Math.min(0.99, 1 - doubt) : Math.min(0.5, choice.explanation.share),
    uncertaintyS,
    inheritedFrom: null,
    candidates: sure ? [] : candidates.slice(0, 3),
    ...(kind === "this bike" ? { sharpS: match.sharpS } : {}),
    ...(lead === null ? {} : { leadS: lead }),
    reason: reasonOf({
      kind,
      match,
      lead,
      carrier: k === 0 ? null : rides[k]!.ride.fileName,
      clockS: excluded ? clockS : null,
      positionsS,
      uncertaintyS,
      anotherFits: found.some(
        (one) =>
          one.explanation.kind === "this bike" &&
          one.explanation.share > MOST_DOUBT &&
          !placedNear(one, Math.max(SAME_PLACE_S, uncertaintyS)),
      ),
      clockOffS: apartS !== null && Math.abs(apartS) > 2 * track.clockSigmaS ? Math.abs(apartS) : null,
      unlike: !sure && !excluded && match.movedM >= LEAST_WAY_M,
    }),
  };
}

/** Seconds by which the camera passed each place before the shown rider did; null where it rode with that one, or nothing tells. */
function leadOf(kind: Explanation["kind"], track: number, atS: number, onShown: TrackMatch | undefined): number | null {
  if (track === 0 && kind === "this bike") return null;
  if (!onShown || onShown.rmsM > 2 * FOLLOWS_M) return null;
  const leadS = onShown.offsetS - atS;
  return Math.abs(leadS) <= FURTHEST_RIDER_S * 5 ? leadS : null;
}

function reasonOf(told: {
  readonly kind: "this bike" | "another rider";
  readonly match: TrackMatch;
  readonly lead: number | null;
  readonly carrier: string | null;
  /** Where the clocks put it, where that excludes its positions' place. */
  readonly clockS: number | null;
  readonly positionsS: number;
  readonly uncertaintyS: number;
  readonly anotherFits: boolean;
  readonly clockOffS: number | null;
  readonly unlike: boolean;
}): RecordingPlacement["reason"] {
  const { match, lead } = told;
  if (told.clockS !== null)
    return placedBecause("camera-clock-against-positions", {
      clockS: told.clockS,
      positionsS: told.positionsS,
      rmsM: match.rmsM,
    });
  if (told.kind === "another rider" && lead !== null)
    return placedBecause("camera-on-another-rider", { leadS: lead, errorS: told.uncertaintyS, unlike: told.unlike });
  if (told.carrier !== null) return placedBecause("camera-on-ride", { rideName: told.carrier, leadS: lead });
  return placedBecause("camera-positions", {
    rmsM: match.rmsM,
    movedM: match.movedM,
    anotherFits: told.anotherFits,
    hardlyMoved: match.movedM < LEAST_WAY_M,
    clockOffS: told.clockOffS,
    unlike: told.unlike && !told.anotherFits,
  });
}
