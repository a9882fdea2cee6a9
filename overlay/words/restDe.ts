// What a rider is told whose note comes before training.
import type { HoldTopic } from "../../main/contract/debriefFacts.ts";
import type { Voice } from "./voice.ts";
import { firstOf, type RestFirst } from "./restFirst.ts";

const TOPICS: Record<HoldTopic, string> = {
  illness: "Krankheit",
  heart: "Beschwerden an Brust, Herz oder Atem",
  injury: "Schmerzen oder einer Verletzung",
  medicine: "Medikamenten oder einer Behandlung",
  sleep: "zu wenig Schlaf",
  food: "zu wenig Essen oder Trinken",
  unclear: "etwas, das zu klären ist",
};
const listed = (parts: readonly string[]): string =>
  parts.length < 2 ? (parts[0] ?? "") : `${parts.slice(0, -1).join(", ")} und ${parts.at(-1)}`;

/** What a note speaks of, after "von": `Krankheit und zu wenig Schlaf`. */
export const topicsText = (topics: readonly HoldTopic[]): string => listed(topics.map((topic) => TOPICS[topic]));

/** What the athlete is asked to do before anything else, after a colon. */
export const FIRST: Readonly<Record<RestFirst, string>> = {
  doctor: "Geh zuerst zum Arzt",
  well: "Werde erst einmal gesund",
  health: "Deine Gesundheit geht vor",
  sleep: "Schlaf dich erst einmal aus",
  food: "Iss und trink erst einmal genug",
  "sleep and food": "Schlaf, iss und trink erst einmal genug",
  note: "Deine Notiz geht vor",
};
/** The same, of the rider. */
export const RIDER_FIRST: Readonly<Record<RestFirst, string>> = {
  doctor: "Ein Arzt geht vor",
  well: "Gesundwerden geht vor",
  health: "Die Gesundheit geht vor",
  sleep: "Schlaf geht vor",
  food: "Essen und Trinken gehen vor",
  "sleep and food": "Schlaf, Essen und Trinken gehen vor",
  note: "Die Notiz des Fahrers geht vor",
};
/** The same, as a caption. */
export const NOW: Readonly<Record<RestFirst, string>> = {
  doctor: "Jetzt geht deine Gesundheit vor",
  well: "Jetzt geht Gesundwerden vor",
  health: "Jetzt geht deine Gesundheit vor",
  sleep: "Jetzt geht Schlaf vor",
  food: "Jetzt gehen Essen und Trinken vor",
  "sleep and food": "Jetzt gehen Schlaf, Essen und Trinken vor",
  note: "Jetzt geht deine Notiz vor",
};

/** The line of the next ride where the rider's note comes before training. */
export function restLine(topics: readonly HoldTopic[], who: Voice): string {
  const withCoach = who(
    "Wann und was du wieder fährst, entscheidest du mit deinem Trainer.",
    "Wann und was als Nächstes kommt, entscheiden Fahrer und Trainer.",
  );
  if (firstOf(topics) === "note")
    return `In ${who("deiner Notiz", "der Notiz des Fahrers")} steht etwas, das zuerst zu klären ist. ${withCoach}`;
  const first = firstOf(topics) === "food" ? "Genug zu essen und zu trinken geht vor" : "Ruhe und Erholung gehen vor";
  const doctor = topics.includes("heart")
    ? who(" Geh zum Arzt, bevor du wieder trainierst.", " Vor jedem Training steht der Gang zum Arzt.")
    : topics.some((one) => one === "illness" || one === "injury" || one === "medicine")
      ? who(" Frag im Zweifel einen Arzt.", " Im Zweifel hilft ein Arzt.")
      : "";
  return (
    `${who("Deine Notiz", "Die Notiz des Fahrers")} spricht von ${topicsText(topics)}: ${first}.${doctor} ` + withCoach
  );
}
