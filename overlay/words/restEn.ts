// What a rider is told whose note comes before training.
import type { HoldTopic } from "../../main/contract/debriefFacts.ts";
import type { Voice } from "./voice.ts";
import { firstOf, type RestFirst } from "./restFirst.ts";

const TOPICS: Record<HoldTopic, string> = {
  illness: "illness",
  heart: "chest, heart or breath trouble",
  injury: "pain or an injury",
  medicine: "medicine or a treatment",
  sleep: "too little sleep",
  food: "too little food or drink",
  unclear: "something to ask about",
};
const listed = (parts: readonly string[]): string =>
  parts.length < 2 ? (parts[0] ?? "") : `${parts.slice(0, -1).join(", ")} and ${parts.at(-1)}`;

/** What a note speaks of: `illness and too little sleep`. */
export const topicsText = (topics: readonly HoldTopic[]): string => listed(topics.map((topic) => TOPICS[topic]));

/** What the athlete is asked to do before anything else, after a colon. */
export const FIRST: Readonly<Record<RestFirst, string>> = {
  doctor: "see a doctor first",
  well: "get well first",
  health: "your health comes first",
  sleep: "sleep enough first",
  food: "eat and drink enough first",
  "sleep and food": "sleep, eat and drink enough first",
  note: "your note comes first",
};
/** The same, of the rider. */
export const RIDER_FIRST: Readonly<Record<RestFirst, string>> = {
  doctor: "a doctor comes first",
  well: "getting well comes first",
  health: "health comes first",
  sleep: "sleep comes first",
  food: "food and drink come first",
  "sleep and food": "sleep, food and drink come first",
  note: "the rider's note comes first",
};
/** The same, as a caption. */
export const NOW: Readonly<Record<RestFirst, string>> = {
  doctor: "Now your health comes first",
  well: "Now getting well comes first",
  health: "Now your health comes first",
  sleep: "Now sleep comes first",
  food: "Now food and drink come first",
  "sleep and food": "Now sleep, food and drink come first",
  note: "Now your note comes first",
};

/** The line of the next ride where the rider's note comes before training. */
export function restLine(topics: readonly HoldTopic[], who: Voice): string {
  const withCoach = who(
    "When and what you ride next, you decide with your coach.",
    "When and what comes next, the rider and the coach decide.",
  );
  const note = who("Your note", "The rider's note");
  if (firstOf(topics) === "note") return `${note} says something to ask about first. ${withCoach}`;
  const first = firstOf(topics) === "food" ? "eating and drinking enough comes" : "rest and recovery come";
  const doctor = topics.includes("heart")
    ? ` See a doctor before ${who("you train again", "any training")}.`
    : topics.some((one) => one === "illness" || one === "injury" || one === "medicine")
      ? " Ask a doctor if in doubt."
      : "";
  return `${note} speaks of ${topicsText(topics)}: ${first} first.${doctor} ` + withCoach;
}
