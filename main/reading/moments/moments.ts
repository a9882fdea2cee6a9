import type { Moment } from "../../contract/reading.ts";
import { breakRuns } from "./breakRuns.ts";
import { cadenceBlocks } from "./cadenceBlocks.ts";
import { driftOnset } from "./driftOnset.ts";
import { riseThenOff } from "./riseThenOff.ts";
import { lapses } from "./lapses.ts";
import { marked } from "./marked.ts";
import type { MomentContext } from "./momentContext.ts";
import { oddHeart } from "./oddHeart.ts";
import { absorb, mergeNearby, ranked } from "./rank.ts";
import { shortEfforts } from "./shortEfforts.ts";
import { steadyStretch } from "./steadyStretch.ts";
import { surgeMoments } from "./surgeMoments.ts";
import { turns } from "./turns.ts";

const kinds = [
  marked,
  riseThenOff,
  breakRuns,
  driftOnset,
  lapses,
  steadyStretch,
  surgeMoments,
  shortEfforts,
  oddHeart,
  cadenceBlocks,
  turns,
];

/** The one list of moments of a ride, the one to see first at its head. */
export function momentsOf(context: MomentContext): Moment[] {
  return ranked(absorb(mergeNearby(kinds.flatMap((find) => find(context)))));
}
