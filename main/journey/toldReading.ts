import type { ToldReading } from "../contract/toldReading.ts";
import { debriefWords } from "../../overlay/words/debriefWords.ts";
import { readingText } from "../../overlay/words/reading/readingText.ts";
import { planFacts } from "../film/planFacts.ts";
import { pageFacts } from "../handover/pageFacts.ts";
import { storyOf } from "./automaticFilm.ts";
import type { DebriefStanding } from "./debrief.ts";
import { riddenM } from "./handOver.ts";

const known = new WeakMap<DebriefStanding, ToldReading>();

/** What a ride says, to its coach in the window: about the rider, in English, with the program's own lines. */
export function toldReading(standing: DebriefStanding): ToldReading {
  const before = known.get(standing);
  if (before !== undefined) return before;
  const { judged, document } = standing;
  const { ride, plan, reading, facts, summary } = judged;
  const own = { ...document.words, held: null, change: null, next: null };
  const story = storyOf(judged, document.choices, own, "athlete");
  const words = debriefWords("en", null, "lesson");
  const told: ToldReading = {
    lines: [words.heldLine(story), words.changeLine(story), words.nextLine(story)],
    rows: words.page.rows(
      pageFacts({
        ride,
        story,
        units: plan.units,
        planFacts: planFacts(plan, reading, facts),
        distanceM: riddenM(summary),
      }),
    ),
    heart: ride.grid.heartRate === null ? [] : words.page.heart(reading.drift, story.facts.drift),
    inWords: readingText(reading, summary, { units: plan.units, door: "window", hours: false })
      .join("\n")
      .split("\n\n")
      .map((section) => section.split("\n").map((line) => line.trim())),
  };
  known.set(standing, told);
  return told;
}
