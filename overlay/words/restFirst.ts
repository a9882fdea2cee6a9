import type { HoldTopic } from "../../main/contract/debriefFacts.ts";

/** What comes first where the rider's note comes before training: the gravest of what it speaks of. */
export type RestFirst = "doctor" | "well" | "health" | "sleep" | "food" | "sleep and food" | "note";

/** What comes first by the topics of a note. */
export function firstOf(topics: readonly HoldTopic[]): RestFirst {
  const speaksOf = (...some: readonly HoldTopic[]): boolean => some.some((one) => topics.includes(one));
  if (speaksOf("heart")) return "doctor";
  if (speaksOf("illness", "injury")) return "well";
  if (speaksOf("medicine")) return "health";
  if (speaksOf("sleep")) return speaksOf("food") ? "sleep and food" : "sleep";
  return speaksOf("food") ? "food" : "note";
}
