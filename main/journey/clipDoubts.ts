import { Failure } from "../contract/failure.ts";
import type { Clip } from "../contract/footage.ts";
import type { ClipPlacement, Lineup } from "../contract/lineup.ts";
import { note, type Note } from "../contract/notice.ts";

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
  const { clipId, reason } = unsure[0];
  return new Failure("lineup-open", { fileName: nameOf(clips, clipId), more: unsure.length - 1, reason });
}
