import type { Anchor } from "../contract/lineup.ts";
import type { Ride } from "../contract/ride.ts";
import type { TelemetryPositions } from "../contract/telemetry.ts";
import { distanceM } from "../maths/geodesy.ts";
import { placeByAnchors } from "./placeByAnchors.ts";
import { placeByTelemetry, type RecordingTelemetry } from "./placeByTelemetry.ts";
import { notPlaced, type RecordingPlacement } from "./placement.ts";
import type { Recording } from "./recordings.ts";
import { placedBecause } from "../contract/notices/placement.ts";

/** Positions this far apart in media time are compared, s; more than this apart there was a gap. */
const STEP_S = 1;
const GAP_S = 3;
/** Only where the receiver itself says that it moves at least this fast, m/s, and over at least this way, m. */
const MOVING_MPS = 2;
const LEAST_WAY_M = 30;
/** A recording counts as slowed from here on: below lie the errors of receivers. */
const LEAST_TIMES = 1.5;

/** How far the receiver should have come by its own speeds in media time, over how far it came. Null where it hardly moved. */
function timesByPositions({ mediaS, latDeg, lonDeg, speedMps }: TelemetryPositions): number | null {
  let [wayM, bySpeedM] = [0, 0];
  for (let from = 0, to = 0; to < mediaS.length; to++) {
    const lastedS = mediaS[to]! - mediaS[from]!;
    if (lastedS < STEP_S) continue;
    const speed = (speedMps[from]! + speedMps[to]!) / 2;
    if (lastedS <= GAP_S && speed >= MOVING_MPS) {
      wayM += distanceM(latDeg[from]!, lonDeg[from]!, latDeg[to]!, lonDeg[to]!);
      bySpeedM += speed * lastedS;
    }
    from = to;
  }
  return wayM >= LEAST_WAY_M ? bySpeedM / wayM : null;
}

/**
 * How many times slower than life a recording plays: told by its own positions, whose places change more slowly than
 * their speeds say, else by the rate of taking that the file states. 1 where it is not slowed or nothing tells.
 */
export function slowedBy(recording: Recording, telemetry: RecordingTelemetry | null): number {
  const stated = recording.clips[0]!.slowedBy ?? 1;
  const seen = telemetry && timesByPositions(telemetry.positions);
  if (seen === null) return stated;
  if (seen < LEAST_TIMES) return 1;
  // Cameras offer whole ratios; the file's own figure is exact where it is near.
  return Math.abs(stated / seen - 1) < 0.15 ? stated : Math.round(seen);
}

/** The recording as it would last at its own speed. */
function atLifeSpeed(recording: Recording, times: number): Recording {
  return { ...recording, startS: recording.startS.map((s) => s / times), durationS: recording.durationS / times };
}

/**
 * Places a recording that plays `times` slower than life: by anchors, else by its own positions; both give a clock whose
 * rate is one over `times`. Nothing else may: signals and the camera's clock take a clip to run at its own speed.
 */
export function placeSlow(
  recording: Recording,
  times: number,
  anchors: readonly Anchor[],
  telemetry: RecordingTelemetry | null,
  ride: Ride,
): RecordingPlacement {
  const alive = atLifeSpeed(recording, times);
  const ids = recording.clips.map(({ id }) => id);
  const marks = anchors
    .filter(({ clipId }) => ids.includes(clipId))
    .map((anchor) => ({ ...anchor, mediaS: anchor.mediaS / times }));
  const positions = telemetry && {
    ...telemetry,
    positions: { ...telemetry.positions, mediaS: telemetry.positions.mediaS.map((t) => t / times) },
  };
  const found =
    placeByAnchors({ name: "", recordings: [alive], mark: null }, marks, ride.elapsedS)[0] ??
    (positions && placeByTelemetry(alive, positions, ride));
  if (found)
    return {
      ...found,
      recording,
      clock: found.clock && { offsetS: found.clock.offsetS, rate: found.clock.rate / times },
      reason: placedBecause("slow-motion", { own: found.reason, times }),
    };
  return notPlaced(recording, "not sure", placedBecause("slow-motion", { own: null, times }));
}
