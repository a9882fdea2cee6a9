import { resolve } from "node:path";
import type { FoundDebrief } from "../debrief/debriefsUnder.edge.ts";
import { roadFigures } from "../debrief/rideFigures.ts";
import { earlierRides, rideOfDebrief } from "./earlierRides.ts";
import type { RideWork } from "./host.ts";

/** Debriefs with the roads that they lack, and the names of those whose ride is gone or can't be read. */
interface WithRoads {
  readonly debriefs: readonly FoundDebrief[];
  readonly notCompared: readonly string[];
}

/**
 * Debriefs of an athlete, with those made before roads were looked for compared now: from their ride files, where these
 * are still there. Nothing is written.
 *
 * @param folder of the athlete, in which the debriefs lie
 */
export async function withOlderRoads(
  folder: string,
  debriefs: readonly FoundDebrief[],
  rides: RideWork,
): Promise<WithRoads> {
  const notCompared: string[] = [];
  const whole: FoundDebrief[] = [];
  for (const found of debriefs) {
    const roads = lacksRoads(found) ? await roadsOf(folder, found, rides) : undefined;
    if (roads === null) notCompared.push(found.name);
    whole.push(roads && found.figures !== null ? { ...found, figures: { ...found.figures, roads } } : found);
  }
  return { debriefs: whole, notCompared };
}

function lacksRoads({ figures }: FoundDebrief): boolean {
  return (
    figures !== null && figures.roads === undefined && figures.startUtcMs !== null && figures.setting !== "trainer"
  );
}

/** The roads of a debrief's ride that the athlete rode before; null where the ride's file is gone or can't be read. */
async function roadsOf(folder: string, { name, document }: FoundDebrief, rides: RideWork) {
  const [own] = await rideOfDebrief(resolve(folder, name), document);
  if (own === undefined) return null;
  const ride = await rides.read(own.path).catch(() => null);
  if (ride === null) return null;
  const earlier = await earlierRides(folder, ride.startUtcMs, document.plan.setting);
  const roads = await rides.roads(own.path, ride, earlier.rides);
  const judged = await rides.judge(own.path, ride, document, { athlete: null, earlier: [], roads });
  return roadFigures(judged.facts);
}
