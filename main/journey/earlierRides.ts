import { dirname, join } from "node:path";
import type { DebriefDocument } from "../contract/debrief.ts";
import type { Setting } from "../contract/plan.ts";
import type { RideFigures } from "../contract/rideFigures.ts";
import { debriefsUnder, type FoundDebrief } from "../debrief/debriefsUnder.edge.ts";
import { findMedia } from "../debrief/findMedia.edge.ts";
import { wasMadeHere } from "../debrief/madeHere.edge.ts";
import { fingerprintFile } from "../footage/fingerprint.edge.ts";
import { ridesOnce } from "./ridesOnce.ts";

/** A ride of an earlier debrief where its file was found, and what it is judged by. */
export interface EarlierRide {
  readonly path: string;
  /** Null: the same rider. */
  readonly riderName: string | null;
  readonly document: Pick<DebriefDocument, "plan" | "overrides" | "ownMoments">;
}

/** The athlete's debriefs before a ride. */
interface EarlierDebriefs {
  readonly figures: readonly RideFigures[];
  /** Ride files whose roads are looked at, the newest first; none for a ride on a trainer. */
  readonly rides: readonly EarlierRide[];
}

/** Roads of so many of the newest rides are looked at: reading one takes a second. */
const MOST_RIDES = 8;
const NONE: EarlierDebriefs = { figures: [], rides: [] };

/**
 * The athlete's rides before this one, from the debriefs in their folder; road and group count as one, the trainer apart,
 * as its meter may differ. Nothing without an athlete, for a ride without a date, and where the folder can't be read.
 *
 * @param rideUtcMs start of the ride, ms since 1970
 */
export async function earlierRides(
  athleteDir: string | null,
  rideUtcMs: number | null,
  setting: Setting,
): Promise<EarlierDebriefs> {
  if (athleteDir === null || rideUtcMs === null) return NONE;
  const { debriefs } = await debriefsUnder(athleteDir).catch(() => ({ debriefs: [] }));
  // A ride debriefed twice is one ride of those that tell what is usual.
  const { once } = await ridesOnce(athleteDir, debriefs);
  const before = once.flatMap((found) => {
    const { figures } = found;
    if (figures === null || figures.startUtcMs === null || figures.startUtcMs >= rideUtcMs) return [];
    return (figures.setting === "trainer") === (setting === "trainer")
      ? [{ found, figures, startUtcMs: figures.startUtcMs }]
      : [];
  });
  const rides: EarlierRide[] = [];
  if (setting !== "trainer")
    for (const { found } of before.toSorted((one, other) => other.startUtcMs - one.startUtcMs).slice(0, MOST_RIDES))
      rides.push(...(await rideOfDebrief(join(athleteDir, found.name), found.document)));
  return { figures: before.map(({ figures }) => figures), rides };
}

/** The ride file of a debrief; none where it is gone, or lies outside a folder that was not made here. */
export async function rideOfDebrief(folder: string, document: FoundDebrief["document"]): Promise<EarlierRide[]> {
  const media = document.media.find(({ id }) => id === document.shownRideId);
  if (media === undefined) return [];
  const path = await findMedia(folder, media, {
    consent: await wasMadeHere(folder),
    searchIn: [folder, dirname(folder)],
    fingerprint: fingerprintFile,
  }).catch(() => null);
  return path === null ? [] : [{ path, riderName: null, document }];
}
