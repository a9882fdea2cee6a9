import type { Clip } from "../contract/footage.ts";
import { type Lineup, type RideClock, rideClockOf } from "../contract/lineup.ts";
import { Failure } from "../contract/failure.ts";
import { settled, type JobContext } from "../contract/job.ts";
import { PLAIN_LOOK, type FilmLook } from "../contract/filmLook.ts";
import { rideColumns } from "../reading/rideColumns.ts";
import type { AlphaCodec } from "../render/alphaTrack.ts";
import { fitFor, type PresetName } from "../contract/presets.ts";
import { renderOverlay } from "../render/renderOverlay.edge.ts";
import { anchorWarnings, nowhere, notUsable } from "./clipDoubts.ts";
import { otherRidesOf, shownRideOf } from "./debrief.ts";
import type { Host } from "./host.ts";
import { gatherOuting, lineupOutcome, placeOuting, type LineupRequest } from "./linedUpClips.ts";
import { lookLayout } from "../render/lookLayout.ts";
import { outputFor, type OutputWish } from "./outputChoice.ts";
import { planSource, type PlanChoices } from "./planSource.ts";
import { judgeRide } from "./judge.ts";
import type { Note } from "../contract/notice.ts";

export interface OverlayRequest extends LineupRequest {
  readonly plan: PlanChoices;
  readonly acceptUnsure: boolean;
  readonly preset: PresetName;
  readonly outPath: string;
  readonly look: Partial<FilmLook>;
  readonly output: OutputWish;
  /** Null: burned into the picture. */
  readonly transparent: AlphaCodec | null;
}

/** Panels over whole clips, in the order of the ride; clips that sit nowhere in it are left out and named. */
export async function overlayJourney(
  request: OverlayRequest,
  host: Host,
  context: JobContext,
): Promise<{ written: string[]; warnings: readonly Note[] }> {
  const { on } = await planSource(request.plan);
  const placed = await placeOuting(await gatherOuting(request, on, host), host, context);
  const { clips, lineup } = lineupOutcome(placed);
  const { plan } = placed.document;
  const doubt = (request.acceptUnsure ? nowhere : notUsable)(clips, lineup);
  if (doubt) throw doubt;
  const { ride } = shownRideOf(placed)!;
  const judged = judgeRide(ride, plan, []);
  const columns = rideColumns(ride, judged.reading);
  const riderName = otherRidesOf(placed).length > 0 ? plan.rider : null;
  const usable = clipsOnRide(clips, lineup).map((one) => ({ ...one, riderName }));
  if (usable.length === 0) throw new Failure("clips-outside-ride", {});
  usable.sort((one, other) => one.clock.offsetS - other.clock.offsetS);
  const look = { ...PLAIN_LOOK, ...request.look };
  const lengthS = usable.reduce((sum, { clip }) => sum + clip.durationS, 0);
  const output = request.transparent === null ? request.output : { ...request.output, sizeMb: null };
  const { preset, encoder, warnings } = await outputFor(request.preset, output, lengthS, host.tools);
  const job = {
    clips: usable,
    columns,
    outPath: request.outPath,
    preset,
    encoder,
    shape: look.shape,
    fit: fitFor(preset, look.shape, look.fit),
    layoutOptions: lookLayout(look, usable[0]!.clip, columns, { units: plan.units, language: "en" }),
    cacheDir: host.cacheDir,
    anew: output.anew,
    ...(request.transparent === null ? {} : { transparent: request.transparent }),
  };
  const { path, notes } = settled(await renderOverlay(job, host.tools, context));
  return {
    written: [path],
    warnings: [...lineup.warnings, ...anchorWarnings(clips, lineup), ...judged.reading.warnings, ...warnings, ...notes],
  };
}

/** The clips that lie on the ride, with the clock that their numbers go by. */
export function clipsOnRide(clips: readonly Clip[], lineup: Lineup): { clip: Clip; clock: RideClock }[] {
  return clips.flatMap((clip) => {
    const placement = lineup.clips.find(({ clipId }) => clipId === clip.id);
    const clock = rideClockOf(lineup, clip.id);
    return clock === null || placement?.verdict === "no match" ? [] : [{ clip, clock }];
  });
}
