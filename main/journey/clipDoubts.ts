import { Failure } from "../contract/failure.ts";
import type { Clip } from "../contract/footage.ts";
import type { ClipPlacement, Lineup } from "../contract/lineup.ts";
import { note, type Note } from "../contract/notice.ts";

/** An instant of a clip as an example of an anchor, s; half-way in a shorter one. */
const EXAMPLE_S = 12;

/**
 * The clips nobody may use yet, as a Failure with the remedy; null when every clip may be used. A clip that follows an
 * anchor on another clip of its camera may be used even where it stays open what the camera's clock marks: a person has
 * set that clock, and `anchorWarnings` names the doubt. Clips that show nothing of the ride are left out, unless none is left.
 */
export function notUsable(clips: readonly Clip[], lineup: Lineup): Failure | null {
  const some = lineup.clips.some((placement) => placement.sure || followsAnchor(placement));
  const open = lineup.clips.filter(
    (placement) => !placement.sure && !followsAnchor(placement) && !(some && placement.verdict === "no match"),
  );
  return open.length === 0 ? null : doubtAbout(clips, open);
}

/** The clips that are not sure, as a Failure with the remedy; null when every clip is sure. */
export function notSure(clips: readonly Clip[], lineup: Lineup): Failure | null {
  const unsure = lineup.clips.filter((placement) => !placement.sure);
  return unsure.length === 0 ? null : doubtAbout(clips, unsure);
}

/**
 * That none of the clips lies anywhere in the ride, as a Failure with the remedy; null when one does. Nobody can agree to
 * a place that there is not.
 */
export function nowhere(clips: readonly Clip[], lineup: Lineup): Failure | null {
  const lost = lineup.clips.filter(({ found, verdict }) => found === null || verdict === "no match");
  return lost.length === 0 || lost.length < lineup.clips.length ? null : doubtAbout(clips, lost);
}

/** A note for each clip that is used because an anchor set its camera's clock, though a doubt stays. */
export function anchorWarnings(clips: readonly Clip[], lineup: Lineup): Note[] {
  return lineup.clips
    .filter(followsAnchor)
    .map(({ clipId, reason }) => note("clip-by-anchored-clock", { fileName: nameOf(clips, clipId), reason }));
}

function followsAnchor(placement: ClipPlacement): boolean {
  return placement.method === "anchor" && placement.verdict === "not sure" && placement.found !== null;
}

function nameOf(clips: readonly Clip[], clipId: string): string {
  return clips.find((clip) => clip.id === clipId)?.fileName ?? clipId;
}

function doubtAbout(clips: readonly Clip[], unsure: readonly ClipPlacement[]): Failure {
  const { clipId, reason, candidates } = unsure[0]!;
  const durationS = clips.find((clip) => clip.id === clipId)?.durationS ?? 0;
  return new Failure("lineup-open", {
    fileName: nameOf(clips, clipId),
    more: unsure.length - 1,
    reason,
    placesS: candidates.map(({ rideStartS }) => rideStartS),
    exampleS: durationS > 2 * EXAMPLE_S ? EXAMPLE_S : Math.floor(5 * durationS) / 10,
  });
}
