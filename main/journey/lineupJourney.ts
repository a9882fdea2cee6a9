import { Failure } from "../contract/failure.ts";
import type { Clip } from "../contract/footage.ts";
import type { Anchor, ClipPlacement, Lineup } from "../contract/lineup.ts";
import type { Ride } from "../contract/ride.ts";
import type { Tools } from "../contract/tools.ts";
import { readTelemetry } from "../footage/telemetry/readTelemetry.edge.ts";
import { parseAnchor } from "../lineup/parseAnchor.ts";
import { placeClips } from "../lineup/placeClips.ts";
import { gather, shownRide } from "./gather.ts";

export interface LineupRequest {
  readonly paths: readonly string[];
  /** `CLIP@T=RIDE_T`, as typed. */
  readonly anchors: readonly string[];
  readonly deviceDelayS: number;
  readonly show: string | null;
}

export interface LineupOutcome {
  readonly rides: readonly Ride[];
  readonly ridePaths: readonly string[];
  readonly shown: { readonly ride: Ride; readonly index: number };
  readonly clips: readonly Clip[];
  readonly anchors: readonly Anchor[];
  readonly lineup: Lineup;
}

/** Read the rides, probe the clips and put them on one clock. */
export async function lineupJourney(request: LineupRequest, tools: Tools): Promise<LineupOutcome> {
  const { rides, ridePaths, clips } = await gather(request.paths, tools);
  const shown = shownRide(rides, ridePaths, request.show);
  const anchors = request.anchors.map((text) => parseAnchor(text, clips, shown.ride));
  const lineup = await placeOn(shown.ride, clips, anchors, request.deviceDelayS);
  return { rides, ridePaths, shown, clips, anchors, lineup };
}

/** Clips put on the clock of one ride, from what the files say and from anchors. Also for a debrief opened again. */
export async function placeOn(ride: Ride, clips: readonly Clip[], anchors: readonly Anchor[], deviceDelayS: number): Promise<Lineup> {
  const telemetry = [];
  for (const clip of clips) {
    const found = clip.hasTelemetry ? await readTelemetry(clip) : null;
    if (found) telemetry.push(found);
  }
  return placeClips({ ride, clips, anchors, deviceDelayS, telemetry });
}

/**
 * The clips nobody may use yet, as a Failure with the remedy; null when every clip may be used. A clip that follows an
 * anchor on another clip of its camera may be used even where it stays open what the camera's clock marks: a person has
 * set that clock, and `anchorWarnings` names the doubt. Clips that show nothing of the ride are left out, unless none is left.
 */
export function notUsable(clips: readonly Clip[], lineup: Lineup): Failure | null {
  const some = lineup.clips.some((placement) => placement.sure || followsAnchor(placement));
  const open = lineup.clips.filter((placement) => !placement.sure && !followsAnchor(placement) && !(some && placement.verdict === "no match"));
  return open.length === 0 ? null : doubtAbout(clips, open);
}

/** The clips that are not sure, as a Failure with the remedy; null when every clip is sure. */
export function notSure(clips: readonly Clip[], lineup: Lineup): Failure | null {
  const unsure = lineup.clips.filter((placement) => !placement.sure);
  return unsure.length === 0 ? null : doubtAbout(clips, unsure);
}

/** One sentence for each clip that is used because an anchor set its camera's clock, though a doubt stays. */
export function anchorWarnings(clips: readonly Clip[], lineup: Lineup): string[] {
  return lineup.clips.filter(followsAnchor).map((placement) => `${nameOf(clips, placement.clipId)}: ${placement.reason}. Give it one glance.`);
}

function followsAnchor(placement: ClipPlacement): boolean {
  return placement.method === "anchor" && placement.verdict === "not sure" && placement.clock !== null;
}

function nameOf(clips: readonly Clip[], clipId: string): string {
  return clips.find((clip) => clip.id === clipId)?.fileName ?? clipId;
}

function doubtAbout(clips: readonly Clip[], unsure: readonly ClipPlacement[]): Failure {
  const first = unsure[0];
  const others = unsure.length === 1 ? "" : ` (and ${unsure.length - 1} more)`;
  const name = nameOf(clips, first.clipId);
  return new Failure(
    "lineup-not-sure",
    `Where ${name}${others} belongs in the ride is not sure: ${first.reason}.`,
    `Set one anchor at something you see, e.g. --anchor ${name}@0:12=1:08:05, or take it as it is with --accept-unsure.`,
  );
}
