import type { Setting } from "../contract/plan.ts";
import type { RideFigures } from "../contract/rideFigures.ts";
import { debriefsUnder } from "../debrief/debriefsUnder.edge.ts";

/**
 * Figures of the athlete's rides before this one, from the debriefs in their folder; road and group count as one, the
 * trainer apart, as its meter may differ. Empty without an athlete, for a ride without a date, and where the folder can't be read.
 *
 * @param rideUtcMs start of the ride, ms since 1970
 */
export async function earlierRides(
  athleteDir: string | null,
  rideUtcMs: number | null,
  setting: Setting,
): Promise<RideFigures[]> {
  if (athleteDir === null || rideUtcMs === null) return [];
  const { debriefs } = await debriefsUnder(athleteDir).catch(() => ({ debriefs: [] }));
  return debriefs.flatMap(({ figures }) => {
    if (figures === null || figures.startUtcMs === null || figures.startUtcMs >= rideUtcMs) return [];
    return (figures.setting === "trainer") === (setting === "trainer") ? [figures] : [];
  });
}
