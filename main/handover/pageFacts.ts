import type { PageFacts } from "../../overlay/words/debriefPhrases.ts";
import type { HandoverData } from "./handoverData.ts";

/** What the page's table compares; its figures are those of all outputs. A trainer's way is its own invention. */
export function pageFacts(data: Pick<HandoverData, "planFacts" | "story" | "distanceM" | "ride" | "units">): PageFacts {
  return {
    plan: data.planFacts,
    distanceM: data.story.setting === "trainer" ? null : data.distanceM,
    elapsedS: data.ride.elapsedS,
    units: data.units,
    facts: data.story.facts,
    hasPower: data.story.hasPower,
    hasHeart: data.story.hasHeart,
  };
}
