import type { Clip } from "../contract/footage.ts";
import type { JobContext } from "../contract/job.ts";
import type { Anchor, Lineup, RideInstant } from "../contract/lineup.ts";
import type { Note } from "../contract/notice.ts";
import type { Plan } from "../contract/plan.ts";
import type { Ride } from "../contract/ride.ts";
import { lineupJson } from "../lineup/lineupJson.ts";
import { parseAnchor } from "../lineup/parseAnchor.ts";
import { parseRideTime } from "../lineup/parseRideTime.ts";
import { spareWarnings } from "../lineup/spareCopies.ts";
import { defaultPlan } from "../reading/plan/defaultPlan.ts";
import { clipsOf, type Debrief, shownRideOf } from "./debrief.ts";
import { gather } from "./gather.ts";
import type { HeardClips } from "./heardClips.ts";
import type { Host } from "./host.ts";
import { place } from "./place.ts";

export interface LineupRequest {
  readonly paths: readonly string[];
  /** `CLIP@T=RIDE_T`, as typed. */
  readonly anchors: readonly string[];
  readonly deviceDelayS: number;
  readonly show: string | null;
}

/** Clips on their ride's clock, for whoever prints them. */
export interface LineupOutcome {
  readonly clips: readonly Clip[];
  readonly lineup: Lineup;
  /** What had to be read of the footage for it; null when nothing had. */
  readonly heard: HeardClips | null;
}

/** Files read, with the anchors set on them; nothing is placed yet. */
export interface GatheredOuting {
  readonly debrief: Debrief;
  /** A note for each small copy, and for each file given twice, that was left out. */
  readonly spare: readonly Note[];
}

/** Reads the files of an outing and the anchors typed for them. Failures as `gather` and `parseAnchor`. */
export async function gatherOuting(
  request: LineupRequest,
  planOf: (rideLocalMs: number | null) => Plan,
  host: Host,
): Promise<GatheredOuting> {
  const { debrief, given, twice, bigOf } = await gather(request.paths, request.show, planOf, host);
  const { ride } = shownRideOf(debrief)!;
  // An anchor on a small copy is one on the recording: its media times are the big clip's to two frames.
  const anchors = request.anchors
    .map((text) => parseAnchor(text, given, ride, bigOf))
    .map((anchor): Anchor => ({ ...anchor, clipId: bigOf.get(anchor.clipId)?.id ?? anchor.clipId }));
  const document = { ...debrief.document, anchors, deviceDelayS: request.deviceDelayS };
  return { debrief: { ...debrief, document }, spare: [...twice, ...spareWarnings(given, bigOf)] };
}

/** A gathered outing with its clips placed; what stays open is looked at and listened to. */
export async function placeOuting(
  { debrief, spare }: GatheredOuting,
  host: Host,
  context?: JobContext,
): Promise<Debrief & { readonly lineup: Lineup }> {
  const placed = await place(debrief, host, { listen: true, ...(context && { context }) });
  const lineup = placed.lineup!;
  return { ...placed, lineup: { ...lineup, warnings: [...lineup.warnings, ...spare] } };
}

/** The line-up of a placed debrief, for whoever prints it. */
export function lineupOutcome(placed: Debrief & { readonly lineup: Lineup }): LineupOutcome {
  return { clips: clipsOf(placed), lineup: placed.lineup, heard: placed.heard };
}

/** Reads the rides, probes the clips and puts them on one clock. `json`: the contract of `lineup`. */
export async function lineupJourney(
  request: LineupRequest & { readonly indoors: boolean },
  host: Host,
  context?: JobContext,
): Promise<LineupOutcome & { readonly debrief: Debrief; readonly json: unknown }> {
  const planOf = (): Plan => defaultPlan({ setting: request.indoors ? "trainer" : "road" });
  const debrief = await placeOuting(await gatherOuting(request, planOf, host), host, context);
  const outcome = lineupOutcome(debrief);
  return { ...outcome, debrief, json: lineupJson(outcome.lineup, outcome.clips, "en") };
}

/** An instant of the ride as typed, by itself or as the end of a whole anchor. Failures as `parseAnchor` and `parseRideTime`. */
export function rideTimeOf(text: string, clips: readonly Clip[], ride: Ride): RideInstant {
  const { rideS, sigmaS } = text.includes("@") ? parseAnchor(text, clips, ride) : parseRideTime(text, ride);
  return { rideS, sigmaS };
}
