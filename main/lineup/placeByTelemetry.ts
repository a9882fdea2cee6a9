import type { LineupCandidate } from "../contract/lineup.ts";
import type { Ride } from "../contract/ride.ts";
import type { TelemetryPositions } from "../contract/telemetry.ts";
import { matchTracks, type TrackMatch } from "./matchTracks.ts";
import type { RecordingPlacement } from "./placement.ts";
import type { Recording } from "./recordings.ts";
import { placedBecause } from "../contract/notices/placement.ts";

/** Camera positions of a recording on its own timeline; `utcMs` of its time 0 where the receiver told it. */
export interface RecordingTelemetry {
  readonly positions: TelemetryPositions;
  readonly startUtcMs: number | null;
  readonly utcSigmaS: number | null;
}

/** The ride's own track: records with a position, on ride time. */
export function rideTrack(ride: Ride): TelemetryPositions {
  const { raw } = ride;
  const kept: number[] = [];
  for (let k = 0; k < raw.count; k++)
    if (Number.isFinite(raw.latDeg[k]) && Number.isFinite(raw.lonDeg[k])) kept.push(k);
  const pick = (column: Float64Array) => Float64Array.from(kept, (k) => column[k]);
  return { mediaS: pick(raw.timeS), latDeg: pick(raw.latDeg), lonDeg: pick(raw.lonDeg), speedMps: pick(raw.speedMps) };
}

/**
 * Places a recording by the positions and speeds of its telemetry track. Sure when the tracks run together over a way
 * long enough to tell the time, and no other part of the ride fits as well (laps of a circuit are told apart by the
 * receiver's time, where it has one). Null when the telemetry does not reach the ride at all.
 */
export function placeByTelemetry(
  recording: Recording,
  telemetry: RecordingTelemetry,
  ride: Ride,
): RecordingPlacement | null {
  const expectedS =
    telemetry.startUtcMs === null || ride.startUtcMs === null ? null : (telemetry.startUtcMs - ride.startUtcMs) / 1000;
  const { best, others } = matchTracks(telemetry.positions, rideTrack(ride));
  if (!best) return null;
  // Among fits as good as each other, the receiver's time decides; a ride file's clock may itself be wrong.
  const rivals = others.filter((other) => other.score > best.score - 4);
  const near = (match: TrackMatch) => (expectedS === null ? Infinity : Math.abs(match.offsetS - expectedS));
  const choice = [best, ...rivals].sort((a, b) => near(a) - near(b))[0];
  const decided =
    rivals.length === 0 || (near(choice) <= 5 && rivals.concat(best).every((m) => m === choice || near(m) > 8));
  const together = choice.rmsM <= 15 && choice.movedM >= 30 && choice.uncertaintyS <= 1;
  const sure = together && decided;
  const candidates: LineupCandidate[] = [choice, ...[best, ...rivals].filter((m) => m !== choice)]
    .slice(0, 3)
    .map((m) => ({ rideStartS: m.offsetS, score: m.score }));
  return {
    recording,
    clock: { offsetS: choice.offsetS, rate: 1 },
    method: "telemetry",
    verdict: sure ? "sure" : "not sure",
    confidence: sure ? 0.98 : 0.5,
    uncertaintyS: choice.uncertaintyS,
    inheritedFrom: null,
    candidates: sure ? [] : candidates,
    reason: placedBecause("camera-positions", {
      rmsM: choice.rmsM,
      movedM: choice.movedM,
      anotherFits: !decided,
      hardlyMoved: choice.movedM < 30,
      clockOffS: expectedS !== null && near(choice) > 5 ? near(choice) : null,
    }),
  };
}
