import type { ClipPlacement, LineupCandidate, LineupMethod, LineupVerdict, FoundClock } from "../contract/lineup.ts";
import type { Recording } from "./recordings.ts";
import type { PlacementReason } from "../contract/notices/placement.ts";

/** Where one recording lies; its clips differ only by where they begin on it. */
export interface RecordingPlacement {
  readonly recording: Recording;
  /** Of the recording's own timeline; null when nothing places it. */
  readonly clock: FoundClock | null;
  readonly method: LineupMethod;
  readonly verdict: LineupVerdict;
  readonly confidence: number;
  readonly uncertaintyS: number | null;
  readonly inheritedFrom: string | null;
  /** `rideStartS` of the recording's first frame. */
  readonly candidates: readonly LineupCandidate[];
  /** By what it weighs against other recordings of its camera, s; absent: by `uncertaintyS`. */
  readonly sharpS?: number;
  /** As in `ClipPlacement`. */
  readonly leadS?: number;
  readonly reason: PlacementReason;
}

/** A recording that nothing places, by its clock alone. */
export function notPlaced(
  recording: Recording,
  verdict: "not sure" | "no match",
  reason: PlacementReason,
): RecordingPlacement {
  const nothing = { clock: null, confidence: 0, uncertaintyS: null, inheritedFrom: null, candidates: [] };
  return { recording, method: "clock", verdict, reason, ...nothing };
}

/** Share of a recording that lies inside the ride, 0 to 1. */
export function overlapShare(recording: Recording, clock: FoundClock, rideElapsedS: number): number {
  const from = clock.offsetS;
  const to = clock.offsetS + clock.rate * recording.durationS;
  return Math.max(0, Math.min(to, rideElapsedS) - Math.max(from, 0)) / Math.max(to - from, 1e-9);
}

/** Placements of the clips of a recording, each on its own media time. */
export function clipPlacements(placed: RecordingPlacement, clockGroup: string): ClipPlacement[] {
  return placed.recording.clips.map((clip, k) => {
    const shiftS = placed.recording.startS[k]! * (placed.clock?.rate ?? 1);
    return {
      clipId: clip.id,
      found: placed.clock && { offsetS: placed.clock.offsetS + shiftS, rate: placed.clock.rate },
      method: placed.method,
      verdict: placed.verdict,
      sure: placed.verdict === "sure",
      confidence: placed.confidence,
      uncertaintyS: placed.uncertaintyS,
      clockGroup,
      inheritedFrom: placed.inheritedFrom,
      candidates: placed.candidates.map((c) => ({ rideStartS: c.rideStartS + shiftS, score: c.score })),
      ...(placed.leadS === undefined ? {} : { leadS: placed.leadS }),
      reason: placed.reason,
    };
  });
}
