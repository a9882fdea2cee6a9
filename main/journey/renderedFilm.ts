import { join } from "node:path";
import { Failure } from "../contract/failure.ts";
import type { FilmSettings } from "../contract/debrief.ts";
import { settled, type JobContext } from "../contract/job.ts";
import { filmClock } from "../../overlay/instant/filmClock.ts";
import { loadDebrief, saveDebrief } from "../debrief/debriefStore.edge.ts";
import { renderStill } from "../render/renderStill.edge.ts";
import { consentedAthlete } from "../debrief/athleteFolder.edge.ts";
import { handOver, handOverFolder, jobOfStanding, mayHandOver, renderStanding, type HandedOver } from "./handOver.ts";
import type { Host } from "./host.ts";
import { openDebrief } from "./openDebrief.ts";
import type { OutputWish } from "./outputChoice.ts";
import { withoutTaughtParts } from "./taughtParts.ts";

export interface RenderRequest {
  readonly debriefPath: string;
  /** What differs from the document's settings this time. */
  readonly settings: Partial<FilmSettings>;
  readonly outPath: string | null;
  readonly output?: OutputWish;
  readonly trustPaths: boolean;
  /** Parts that teach a rider whose note comes before training are left out this time. */
  readonly withoutTeaching?: boolean;
  /** Also the page, the message and the files that go with the film. */
  readonly handOver: boolean;
  /** A person has looked at a debrief that was prepared overnight. */
  readonly seen: boolean;
  /** When and how the athlete agreed to a lesson, in the coach's words; null: as the athlete's file says. */
  readonly consent: string | null;
}

/** What a render made, with why each part is in the film. */
export interface Rendered extends HandedOver {
  readonly why: readonly string[];
}

/** Renders the film of a debrief as its document stands; on wish hands everything over. */
export async function renderJourney(request: RenderRequest, host: Host, context: JobContext): Promise<Rendered> {
  const opened = await openDebrief(request.debriefPath, host, request.trustPaths, request.settings, context);
  const { folder } = opened;
  let { standing } = opened;
  if (request.seen && standing.document.prepared) {
    // Only the mark is saved: the settings of this time are not the document's.
    await saveDebrief(folder, { ...(await loadDebrief(folder)).document, prepared: false });
    standing = { ...standing, document: { ...standing.document, prepared: false } };
  }
  if (request.withoutTeaching === true) standing = withoutTaughtParts(standing);
  const athlete = await consentedAthlete(folder, standing.document, opened.athlete, request.consent);
  const why = [
    ...standing.film.items.map((item, index) => `${index + 1}. ${item.why}`),
    ...standing.film.leftOut.map((line) => `left out: ${line}`),
  ];
  if (request.handOver) return { ...(await handOver(standing, folder, athlete, host, context, request.output)), why };
  if (standing.document.settings.forWhom === "lesson") {
    const against = mayHandOver({ ...standing.document, prepared: false }, athlete);
    if (against !== null) throw against;
  }
  const { path, warnings } = await renderStanding(
    standing,
    folder,
    request.outPath ?? join(handOverFolder(folder, standing.document.settings.forWhom), "film.mp4"),
    host,
    context,
    request.output,
  );
  return { written: [path], warnings: [...standing.warnings, ...warnings], why };
}

/** One frame of a debrief's film, composited, as PNG; `atS` is film time. */
export async function stillJourney(
  request: {
    readonly debriefPath: string;
    readonly atS: number;
    readonly outPath: string;
    readonly trustPaths: boolean;
    readonly settings?: Partial<FilmSettings>;
  },
  host: Host,
  context: JobContext,
): Promise<string> {
  const { folder, standing } = await openDebrief(
    request.debriefPath,
    host,
    request.trustPaths,
    request.settings,
    context,
  );
  const job = jobOfStanding(standing, folder, request.outPath, host);
  const { lengthS } = filmClock(job.film);
  if (request.atS >= lengthS) {
    throw new Failure("still-outside-film", { atS: request.atS, lengthS });
  }
  return settled(await renderStill({ ...job, atS: request.atS }, host.tools, context)).path;
}
