import type { Clip } from "../contract/footage.ts";
import type { Anchor, ClipPlacement, Lineup } from "../contract/lineup.ts";
import type { Ride } from "../contract/ride.ts";
import type { ClipSignals } from "../contract/signals.ts";
import type { ClipTelemetry, TelemetryLack } from "../contract/telemetry.ts";
import { claimedStart } from "./claimedStart.ts";
import { clockWasReset } from "./clockWasReset.ts";
import { clockGroups, type ClockGroup } from "./clockGroups.ts";
import { clockHypotheses } from "./clockHypotheses.ts";
import { doubtInherited } from "./doubtInherited.ts";
import { doubtFarPlace } from "./filmedElsewhere.ts";
import { inheritClock } from "./inheritClock.ts";
import { markBySignals } from "./markBySignals.ts";
import { doubtMoved, placeByAnchors } from "./placeByAnchors.ts";
import { placeByClock } from "./placeByClock.ts";
import { placeByTelemetry, type OtherRide } from "./placeByTelemetry.ts";
import { placeBySignals } from "./placeBySignals.ts";
import { clipPlacements, type RecordingPlacement } from "./placement.ts";
import { rideSeries } from "./signals/rideSeries.ts";
import { rideForSignals, type RideForSignals } from "./signals/memberPlaces.ts";
import { sensedSignals, type SensedSignals } from "./recordingSeries.ts";
import { placementWarnings } from "./placementWarnings.ts";
import { recordingTelemetry } from "./recordingTelemetry.ts";
import type { Recording } from "./recordings.ts";
import { shareClock } from "./shareClock.ts";
import { placeSlow, slowedBy } from "./slowMotion.ts";
import { note, type Note } from "../contract/notice.ts";

export interface PlaceClipsInput {
  /** The carrier's ride. */
  readonly ride: Ride;
  readonly clips: readonly Clip[];
  readonly anchors: readonly Anchor[];
  /** The recorder's own lag, s; kept apart from the clocks. */
  readonly deviceDelayS: number;
  /** Telemetry of the clips that have a track for it. */
  readonly telemetry?: readonly ClipTelemetry[];
  /** What was seen and heard of the clips; those that need it are named by `signalsWanted`. */
  readonly signals?: readonly ClipSignals[];
  /** On a trainer nothing moves: signals are not tried. */
  readonly indoors?: boolean;
  /** The other riders' rides of the outing: one of them may have carried the camera. */
  readonly others?: readonly OtherRide[];
}

/** What is asked for, with the cameras' sensors held to the signals' grid. */
interface Sensed extends PlaceClipsInput {
  readonly signals: readonly SensedSignals[];
}

/** Recordings of a group that nothing in `placed` stands for yet. */
function without(group: ClockGroup, placed: readonly RecordingPlacement[]): ClockGroup {
  return { ...group, recordings: group.recordings.filter((r) => !placed.some((p) => p.recording === r)) };
}

/** Slow motion is placed by itself: neither its clock nor its length may speak for the others of its camera. */
function placeGroup(
  group: ClockGroup,
  input: Sensed,
  heard: () => RideForSignals,
  warnings: Note[],
): RecordingPlacement[] {
  const slow = group.recordings.flatMap((recording) => {
    const telemetry = recordingTelemetry(recording, input.telemetry ?? []);
    const stated = input.anchors.find(
      ({ clipId, rate }) => rate !== undefined && recording.clips.some(({ id }) => id === clipId),
    )?.rate;
    const times = stated === undefined ? slowedBy(recording, telemetry) : 1 / stated;
    return times === 1 ? [] : [placeSlow(recording, times, input.anchors, telemetry, input.ride)];
  });
  const rest = without(group, slow);
  return rest.recordings.length === 0 ? slow : [...slow, ...placeAtSpeed(rest, input, heard, warnings)];
}

/** Nearly all zones in use differ from UTC by whole hours. */
const WHOLE_HOUR_ZONES_MIN = Array.from({ length: 27 }, (_, k) => (k - 12) * 60);
/** An anchor further than this from every likely reading of the camera's clock is worth a second look, s … */
const FAR_FROM_CLOCK_S = 600;
/** … unless another zone explains it to this, s: by either mark of the clock, chance does so for one place in eight. */
const SAME_ZONE_S = 120;

/**
 * How far a place lies from the nearest likely reading of the camera's clock (UTC, the ride's zone, an hour beside it at
 * a change of daylight saving), s; null where its clock tells nothing, or the place agrees with it in that or another zone.
 */
function clockAwayS(recording: Recording, offsetS: number, ride: Ride): number | null {
  const first = recording.clips[0]!;
  if (ride.startUtcMs === null || first.createdUtcMs === null || clockWasReset(first.createdUtcMs, ride.startUtcMs))
    return null;
  const own = ride.utcOffsetMin;
  const offsS = (["start", "end"] as const).map(
    (mark) => claimedStart(first, mark)! - ride.startUtcMs! / 1000 - offsetS,
  );
  const nearestS = (zonesMin: readonly number[]): number =>
    Math.min(...offsS.flatMap((offS) => zonesMin.map((zoneMin) => Math.abs(offS - 60 * zoneMin))));
  const awayS = nearestS([0, ...(own === null ? WHOLE_HOUR_ZONES_MIN : [own - 60, own, own + 60])]);
  return awayS <= FAR_FROM_CLOCK_S || nearestS(WHOLE_HOUR_ZONES_MIN) <= SAME_ZONE_S ? null : awayS;
}

function placeAtSpeed(
  group: ClockGroup,
  input: Sensed,
  heard: () => RideForSignals,
  warnings: Note[],
): RecordingPlacement[] {
  const { ride } = input;
  const anchored = placeByAnchors(group, input.anchors, ride.elapsedS);
  const byTelemetry: RecordingPlacement[] = [];
  for (const recording of group.recordings) {
    const telemetry = recordingTelemetry(recording, input.telemetry ?? []);
    const found = telemetry && placeByTelemetry(recording, telemetry, ride, input.others);
    if (!found) continue;
    const byHand = anchored.find((p) => p.recording === recording);
    if (!byHand) byTelemetry.push(found);
    else if (found.verdict !== "no match" && Math.abs(found.clock!.offsetS - byHand.clock!.offsetS) > 2) {
      const apartS = Math.abs(found.clock!.offsetS - byHand.clock!.offsetS);
      warnings.push(note("anchor-against-positions", { fileName: recording.clips[0]!.fileName, apartS }));
    }
  }
  for (const { recording, verdict, clock } of anchored) {
    const awayS = verdict === "sure" ? clockAwayS(recording, clock!.offsetS, ride) : null;
    if (awayS === null) continue;
    const { fileName, createdUtcMs } = recording.clips[0]!;
    warnings.push(
      note("anchor-against-clock", { fileName, awayS, clipUtcMs: createdUtcMs!, rideUtcMs: ride.startUtcMs! }),
    );
  }
  const placed = [...anchored, ...shareClock(group, byTelemetry)];
  const sources = placed.filter((p) => p.verdict === "sure");
  if (sources.length > 0) {
    const unsettled = placed.filter((p) => p.verdict !== "sure");
    const rest = without(group, unsettled);
    const inherited = inheritClock(rest, sources, ride.elapsedS);
    const { signals } = input;
    const mark =
      signals.length === 0 || inherited.every((p) => p.verdict !== "not sure")
        ? null
        : markBySignals(rest, sources, signals, heard, ride.startUtcMs);
    return doubtInherited(
      [...placed, ...(mark ? inheritClock({ ...rest, mark }, sources, ride.elapsedS) : inherited)],
      signals,
      heard,
      ride.startUtcMs,
    );
  }
  const rest = without(group, placed);
  const hypotheses = clockHypotheses(rest, ride, ride.utcOffsetMin);
  const seen = input.indoors ? null : placeBySignals(rest, input.signals, hypotheses, heard());
  return [...placed, ...(seen ?? placeByClock(rest, hypotheses, ride.elapsedS, ride.startUtcMs))];
}

/**
 * One clock for each clip against the ride, with how sure it is and why. Order of trust: anchors set by hand, the
 * camera's telemetry, what was seen and heard, then its clock, which alone is never sure. Every clip given comes back, in the order given.
 */
export function placeClips(input: PlaceClipsInput): Lineup {
  const placed = new Map<string, ClipPlacement>();
  const warnings: Note[] = [];
  let ready: RideForSignals | null = null;
  const heard = () => (ready ??= rideForSignals(rideSeries(input.ride), input.ride.elapsedS));
  const signals = input.indoors ? [] : sensedSignals(input.signals ?? [], input.telemetry ?? []);
  for (const group of clockGroups(input.clips)) {
    for (const recording of doubtMoved(placeGroup(group, { ...input, signals }, heard, warnings), input.anchors)) {
      for (const clip of clipPlacements(recording, group.name)) placed.set(clip.clipId, clip);
    }
  }
  const clips = input.clips.map((clip) => doubtFarPlace(clip, placed.get(clip.id)!, input.ride, input.others ?? []));
  for (const { clipId, lacks } of input.telemetry ?? []) {
    const clip = input.clips.find(({ id }) => id === clipId);
    if (clip && !placed.get(clipId)!.sure) warnings.push(...lacks.map((lack) => telemetryNote(clip.fileName, lack)));
  }
  return {
    clips,
    rides: [{ file: input.ride.fileName, shown: true, offsetS: 0, uncertaintyS: 0 }],
    deviceDelayS: input.deviceDelayS,
    warnings: [...warnings, ...placementWarnings(input.clips, clips, input.ride.elapsedS)],
  };
}

function telemetryNote(fileName: string, lack: TelemetryLack): Note {
  switch (lack.kind) {
    case "parts unread":
      return note("clip-telemetry-parts-unread", { fileName, unread: lack.unread, parts: lack.parts });
    case "no places":
      return note("clip-telemetry-without-places", { fileName });
    case "no fix":
      return note("clip-telemetry-without-fix", { fileName });
  }
}

/** What the signals of clips lack to line them up by. */
export function signalNotes(clips: readonly Clip[], signals: readonly ClipSignals[]): Note[] {
  return signals.flatMap(({ clipId, lacks }) => {
    const fileName = clips.find(({ id }) => id === clipId)?.fileName ?? clipId;
    return lacks.map((lack) => note(lack === "motion" ? "clip-picture-still" : "clip-without-sound", { fileName }));
  });
}

/**
 * Ids of the clips whose signals `placeClips` would use: those that anchors, telemetry and clocks leave open, and
 * those that only follow another clip's clock.
 */
export function signalsWanted(input: PlaceClipsInput): string[] {
  if (input.indoors) return [];
  const { clips } = placeClips({ ...input, signals: [] });
  return clips
    .filter(({ verdict, inheritedFrom }) => verdict === "not sure" || (verdict === "sure" && inheritedFrom !== null))
    .map(({ clipId }) => clipId);
}
