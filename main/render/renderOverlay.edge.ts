import type { Film, Shot } from "../contract/film.ts";
import type { Clip, Rational } from "../contract/footage.ts";
import type { JobContext, JobResult } from "../contract/job.ts";
import type { RideClock } from "../contract/lineup.ts";
import { filmSizeFor, type ShapeName } from "../contract/presets.ts";
import type { Tools } from "../contract/tools.ts";
import { Failure } from "../contract/failure.ts";
import { rideTimeAt } from "../../overlay/instant/rideTimeAt.ts";
import { jobResult } from "./jobResult.edge.ts";
import { renderFilm, type FilmJob, type RenderedFilm } from "./renderFilm.edge.ts";

export interface OverlayJob extends Pick<
  FilmJob,
  "columns" | "outPath" | "preset" | "layoutOptions" | "cacheDir" | "encoder" | "fit" | "transparent" | "anew"
> {
  /** Clips in the order in which they are to follow each other, each with its clock. */
  readonly clips: readonly { readonly clip: Clip; readonly clock: RideClock; readonly riderName: string | null }[];
  /** The preset's own unless given. */
  readonly shape?: ShapeName | null;
}

/** Panels over whole clips, one clip after the other at the first one's rate; `transparent`: the panels alone. */
export async function renderOverlay(
  job: OverlayJob,
  tools: Tools,
  context: JobContext,
): Promise<JobResult<RenderedFilm>> {
  const made = await jobResult(() => Promise.resolve().then(() => overlayFilm(job)));
  if (made.kind !== "done") return made;
  const clips = job.clips.map(({ clip }) => clip);
  // Whole clips have no captions: without their room the band is a fifth smaller, and so is its cost.
  const headLine = job.clips.some(({ riderName }) => riderName !== null);
  const layoutOptions = { ...job.layoutOptions, headLine };
  return renderFilm({ ...job, film: made.value, clips, layoutOptions, paging: "turning" }, tools, context);
}

/** The film of an overlay: every clip whole, as filmed. */
function overlayFilm(job: Pick<OverlayJob, "clips" | "preset" | "shape" | "transparent">): Film {
  const first = job.clips[0]?.clip;
  if (first === undefined) throw new Failure("overlay-without-clips", {});
  // A track for an editing program is laid over the footage itself, so it has the footage's own size.
  const preset = job.transparent === undefined ? job.preset : { ...job.preset, leastLines: 0, mostLines: null };
  const size = filmSizeFor(preset, first, job.transparent === undefined ? job.shape : "as filmed");
  return { ...size, frameRate: constantRate(first), items: job.clips.map(wholeClip), leftOut: [] };
}

function wholeClip({ clip, clock, riderName }: OverlayJob["clips"][number]): Shot {
  const { ticks, endTicks, timescale } = clip.frames;
  const mediaStartS = (ticks[0] ?? 0) / timescale;
  const mediaEndS = endTicks / timescale;
  const rideS = (mediaS: number): number => rideTimeAt(clock, mediaS);
  return {
    type: "shot",
    id: clip.id,
    clipId: clip.id,
    mediaStartS,
    mediaEndS,
    speed: 1,
    freezes: [],
    captions: [],
    drawings: [],
    pageStartS: rideS(mediaStartS),
    pageEndS: rideS(mediaEndS),
    clock,
    moment: null,
    riderName,
    why: "the whole clip",
    commentPath: null,
    crossfadeS: 0,
  };
}

/** Rates that players and editing programs know. */
const USUAL_RATES: readonly Rational[] = [
  { num: 24000, den: 1001 },
  { num: 24, den: 1 },
  { num: 25, den: 1 },
  { num: 30000, den: 1001 },
  { num: 30, den: 1 },
  { num: 48, den: 1 },
  { num: 50, den: 1 },
  { num: 60000, den: 1001 },
  { num: 60, den: 1 },
  { num: 120000, den: 1001 },
  { num: 120, den: 1 },
];

/** A clip's own rate; for a variable one the usual rate nearest to its most frequent step. */
function constantRate(clip: Clip): Rational {
  if (!clip.variableRate) return clip.frameRate;
  const { ticks, timescale } = clip.frames;
  const steps = Array.from({ length: ticks.length - 1 }, (_, k) => ticks[k + 1]! - ticks[k]!).sort((a, b) => a - b);
  const middle = steps[Math.floor(steps.length / 2)] ?? 0;
  if (!(middle > 0)) return { num: 30, den: 1 };
  const far = (rate: Rational): number => Math.abs(Math.log((rate.num / rate.den) * (middle / timescale)));
  return USUAL_RATES.reduce((best, rate) => (far(rate) < far(best) ? rate : best));
}
