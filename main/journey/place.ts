import { Failure } from "../contract/failure.ts";
import type { Clip } from "../contract/footage.ts";
import type { Anchor, ClipPlacement, Lineup } from "../contract/lineup.ts";
import type { JobContext } from "../contract/job.ts";
import type { Ride } from "../contract/ride.ts";
import type { ClipSignals } from "../contract/signals.ts";
import type { ClipTelemetry } from "../contract/telemetry.ts";
import type { Tools } from "../contract/tools.ts";
import { companionClip } from "../footage/companionClip.edge.ts";
import { companionsAmong } from "../footage/companionsAmong.edge.ts";
import { readTelemetry } from "../footage/telemetry/readTelemetry.edge.ts";
import { parseAnchor } from "../lineup/parseAnchor.ts";
import { placeClips, signalNotes, signalsWanted } from "../lineup/placeClips.ts";
import { othersForTelemetry, placeRides } from "../lineup/placeRides.ts";
import { spareWarnings, withSpare } from "../lineup/spareCopies.ts";
import { clipSignals, type HeardClips } from "./heardClips.ts";
import { gather, shownRide } from "./gather.ts";
import { placeApart } from "../lineup/placeApart.edge.ts";
import { note, type Note } from "../contract/notice.ts";

export interface LineupRequest {
  readonly paths: readonly string[];
  /** `CLIP@T=RIDE_T`, as typed. */
  readonly anchors: readonly string[];
  readonly deviceDelayS: number;
  readonly show: string | null;
  /** The ride is on a trainer; default no. */
  readonly indoors?: boolean;
}

export interface LineupOutcome {
  readonly rides: readonly Ride[];
  readonly ridePaths: readonly string[];
  readonly shown: { readonly ride: Ride; readonly index: number };
  readonly clips: readonly Clip[];
  readonly anchors: readonly Anchor[];
  readonly lineup: Lineup;
  /** What had to be read of the footage for it; null when nothing had. */
  readonly heard: HeardClips | null;
}

/** For a caller that shows no progress and never stops. */
const QUIET: JobContext = { signal: new AbortController().signal, report: () => undefined };

/** Read the rides, probe the clips and put them on one clock; what stays open is looked at and listened to. */
export async function lineupJourney(
  request: LineupRequest,
  tools: Tools,
  context: JobContext = QUIET,
): Promise<LineupOutcome> {
  const { rides, ridePaths, clips: given } = await gather(request.paths, tools);
  const bigOf = await companionsAmong(given);
  const clips = given.filter(({ id }) => !bigOf.has(id));
  const shown = shownRide(rides, ridePaths, request.show);
  // An anchor on a small copy is one on the recording: its media times are the big clip's to two frames.
  const anchors = request.anchors
    .map((text) => parseAnchor(text, given, shown.ride, bigOf))
    .map((anchor) => ({ ...anchor, clipId: bigOf.get(anchor.clipId)?.id ?? anchor.clipId }));
  const others = rides.filter((ride) => ride !== shown.ride);
  const choices = { indoors: request.indoors ?? false, others };
  const { lineup, heard } = await placeByAll(shown.ride, clips, anchors, request.deviceDelayS, choices, tools, context);
  const warnings = [...lineup.warnings, ...spareWarnings(given, bigOf)];
  return { rides, ridePaths, shown, clips, anchors, lineup: { ...lineup, warnings }, heard };
}

export interface PlaceChoices {
  /** What was seen and heard of the clips before (`clipSignals`); default none. */
  readonly signals?: readonly ClipSignals[];
  /** On a trainer nothing moves: signals are not tried. */
  readonly indoors?: boolean;
  /** The other riders' rides, placed against the shown one. */
  readonly others?: readonly Ride[];
  readonly signal?: AbortSignal;
}

/** Clips put on the clock of one ride, from what the files say, from anchors, and from signals where they are at hand. Also for a debrief opened again. */
export async function placeOn(
  ride: Ride,
  clips: readonly Clip[],
  anchors: readonly Anchor[],
  deviceDelayS: number,
  choices: PlaceChoices = {},
): Promise<Lineup> {
  const { signals = [], indoors = false, others = [] } = choices;
  const bigOf = await companionsAmong(clips);
  const used = clips.filter(({ id }) => !bigOf.has(id));
  const placedRides = placeRides(ride, others);
  const companions = othersForTelemetry(others, placedRides);
  const input = {
    ride,
    others: companions,
    clips: used,
    anchors,
    deviceDelayS,
    indoors,
    signals,
    telemetry: await telemetryOf(used),
  };
  const lineup = signals.length > 0 && !indoors ? await placeApart(input, choices.signal ?? null) : placeClips(input);
  return { ...withSpare(lineup, clips, bigOf), rides: placedRides };
}

/** As `placeOn`; clips that stay open are looked at and listened to, which takes time for long ones. Throws Cancelled, and as `readSignals`. */
export async function placeByAll(
  ride: Ride,
  clips: readonly Clip[],
  anchors: readonly Anchor[],
  deviceDelayS: number,
  choices: Omit<PlaceChoices, "signals">,
  tools: Tools,
  context: JobContext = QUIET,
): Promise<{ lineup: Lineup; heard: HeardClips | null }> {
  const bigOf = await companionsAmong(clips);
  const used = clips.filter(({ id }) => !bigOf.has(id));
  const wanted = signalsWanted({
    ride,
    clips: used,
    anchors,
    deviceDelayS,
    indoors: choices.indoors ?? false,
    telemetry: await telemetryOf(used),
    others: othersForTelemetry(choices.others ?? [], placeRides(ride, choices.others ?? [])),
  });
  if (wanted.length === 0) return { lineup: await placeOn(ride, clips, anchors, deviceDelayS, choices), heard: null };
  const heard = await clipSignals(
    clips.filter((clip) => wanted.includes(clip.id)),
    tools,
    context,
  );
  context.report({ done: 1, leftS: null, step: "holding the clips against the ride" });
  const lineup = await placeOn(ride, clips, anchors, deviceDelayS, {
    ...choices,
    signals: heard.signals,
    signal: context.signal,
  });
  const open = new Set(lineup.clips.filter((clip) => !clip.sure).map((clip) => clip.clipId));
  const doubts = signalNotes(
    clips,
    heard.signals.filter((signals) => open.has(signals.clipId)),
  );
  return { lineup: { ...lineup, warnings: [...lineup.warnings, ...doubts] }, heard };
}

async function telemetryOf(clips: readonly Clip[]): Promise<ClipTelemetry[]> {
  const found: ClipTelemetry[] = [];
  for (const clip of clips) {
    // Some cameras write it into the small clip beside the big one only.
    const source = clip.hasTelemetry ? clip : await companionClip(clip);
    const telemetry = source && (await readTelemetry(source));
    if (telemetry) found.push(telemetry);
  }
  return found;
}

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
