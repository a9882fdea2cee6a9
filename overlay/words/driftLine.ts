import type { DriftFacts } from "../../main/contract/debriefFacts.ts";
import type { HeartFacts } from "./debriefPhrases.ts";

/**
 * The one line about the heart at the same power: the beats where this ride can tell them, else that it can't. None
 * without power, where there is no same power to speak of.
 */
export function driftLine(
  heart: HeartFacts,
  drift: DriftFacts | null,
  words: { readonly told: (drift: DriftFacts) => string; readonly cannot: () => string },
): string[] {
  if (!heart.correctedForPower || drift === null) return [];
  return [drift.canTell ? words.told(drift) : words.cannot()];
}
