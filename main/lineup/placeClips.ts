import type { Clip } from "../contract/footage.ts";
import type { Anchor, ClipPlacement, Lineup } from "../contract/lineup.ts";
import type { Ride } from "../contract/ride.ts";
import { clockGroups, type ClockGroup } from "./clockGroups.ts";
import { clockHypotheses } from "./clockHypotheses.ts";
import { inheritClock } from "./inheritClock.ts";
import { placeByAnchors } from "./placeByAnchors.ts";
import { placeByClock } from "./placeByClock.ts";
import { clipPlacements, type RecordingPlacement } from "./placement.ts";
import { rideUtcOffset } from "./rideUtcOffset.ts";
import { placementWarnings } from "./placementWarnings.ts";

export interface PlaceClipsInput {
  /** The carrier's ride. */
  readonly ride: Ride;
  readonly clips: readonly Clip[];
  readonly anchors: readonly Anchor[];
  /** The recorder's own lag, s; kept apart from the clocks. */
  readonly deviceDelayS: number;
}

function placeGroup(group: ClockGroup, input: PlaceClipsInput): RecordingPlacement[] {
  const { ride, anchors } = input;
  const own = placeByAnchors(group, anchors, ride.elapsedS);
  const sources = own.filter((placed) => placed.verdict === "sure");
  if (sources.length > 0) {
    const rest = { ...group, recordings: group.recordings.filter((r) => !own.some((p) => p.recording === r) || sources.some((p) => p.recording === r)) };
    return [...own, ...inheritClock(rest, sources, ride.elapsedS)];
  }
  const rest = { ...group, recordings: group.recordings.filter((r) => !own.some((p) => p.recording === r)) };
  return [...own, ...placeByClock(rest, clockHypotheses(rest, ride, rideUtcOffset(ride)), ride.elapsedS)];
}

/**
 * One clock for each clip against the ride, with how sure it is and why. Order of trust: anchors set by hand, then the
 * camera's own clock, which alone is never sure. Every clip given comes back, in the order given.
 */
export function placeClips(input: PlaceClipsInput): Lineup {
  const placed = new Map<string, ClipPlacement>();
  for (const group of clockGroups(input.clips)) {
    for (const recording of placeGroup(group, input)) {
      for (const clip of clipPlacements(recording, group.name)) placed.set(clip.clipId, clip);
    }
  }
  const clips = input.clips.map((clip) => placed.get(clip.id)!);
  return {
    clips,
    rides: [{ file: input.ride.fileName, shown: true, offsetS: 0, uncertaintyS: 0 }],
    deviceDelayS: input.deviceDelayS,
    warnings: placementWarnings(input.clips, clips, input.ride.elapsedS),
  };
}
