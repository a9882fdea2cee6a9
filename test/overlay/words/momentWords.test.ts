import { describe, expect, test } from "vitest";
import { momentLines, momentWords } from "../../../overlay/words/reading/momentWords.ts";
import type { Moment } from "../../../main/contract/reading.ts";

const moment = (kind: string, rank: number, more: Partial<Moment> = {}): Moment => ({
  kind,
  rank,
  startS: 60 * rank,
  endS: 60 * rank + 20,
  reason: kind,
  excused: null,
  numbers: {},
  setBy: "computed",
  coachOnly: false,
  ...more,
});

describe("the moments as a coach reads them aloud", () => {
  test("laps pressed by hand share one line, so that the others are seen", () => {
    const laps = [1, 2, 3].map((rank) => moment("marked", rank, { reason: "lap pressed by hand" }));
    const lines = momentLines(
      [...laps, moment("lapse", 4, { reason: "unexplained" }), moment("turn", 5, { reason: "U-turn" })],
      "metric",
      2,
      "en",
    );
    expect(lines).toEqual([
      "The 2 to see first (4 of 5 moments):",
      "  1. 0:01:00  lap pressed by hand, also at 0:02:00, 0:03:00",
      "  2. 0:04:00  no pressure for 20 s, unexplained",
      "  Not listed: 1 tight turn.",
    ]);
  });

  test("the head counts the lines that follow, and says how many moments they tell", () => {
    const laps = [1, 2, 3].map((rank) => moment("marked", rank, { reason: "lap pressed by hand" }));
    const all = [...laps, moment("turn", 4, { reason: "U-turn" }), moment("surge", 5)];
    const heads = (moments: readonly Moment[], most: number) =>
      (["en", "de"] as const).map((language) => momentLines(moments, "metric", most, language)[0]);
    expect(heads(all, 1)).toEqual(["The one to see first (3 of 5 moments):", "Zuerst anzusehen (3 von 5 Momenten):"]);
    expect(heads(all, 2)[1]).toBe("Die ersten 2 zum Ansehen (4 von 5 Momenten):");
    expect(heads(all, 3)).toEqual(["Moments:", "Momente zum Ansehen:"]);
    expect(heads(all.slice(2), 2)).toEqual([
      "The 2 moments to see first, of 3:",
      "Die ersten 2 von 3 Momenten zum Ansehen:",
    ]);
  });

  test("three of a kind are told, the rest is counted; what the coach set is always told", () => {
    const lapses = [1, 2, 3, 4, 5, 6].map((rank) => moment("lapse", rank, { reason: "unexplained" }));
    const surges = [7, 8].map((rank) => moment("surge", rank, { setBy: rank === 8 ? "coach" : "computed" }));
    const lines = momentLines([...lapses, ...surges, moment("turn", 9, { reason: "U-turn" })], "metric", 10, "en");
    expect(lines).toHaveLength(8);
    expect(lines[0]).toBe("The 6 moments to see first, of 9:");
    expect(lines.filter((line) => line.includes("no pressure for"))).toHaveLength(3);
    expect(lines[7]).toBe("  Not listed: 3 lapses.");
  });

  test("an odd heart reading is told by how far it is from what is around it, with the caution", () => {
    const odd = moment("oddHeart", 1, { reason: "spike", numbers: { byBeats: -26.4, usualBpm: 109.2 } });
    expect(momentWords(odd)).toBe("odd heart reading, 26 beats below the 109 around it");
    expect(momentLines([odd], "metric", 10, "en").at(-1)).toMatch(
      /could be the strap\. This is not medical advice: stop and seek help/,
    );
  });

  test("speeds follow the rider's units", () => {
    const lapse = moment("lapse", 1, {
      reason: "slowed, cause not in the data",
      numbers: { speedBeforeMps: 10, durationS: 12 },
    });
    expect(momentWords(lapse)).toBe("no pressure for 12 s, slowed with no cause in the data, at 36 km/h");
    expect(momentWords(lapse, "imperial")).toContain("at 22 mph");
  });
});
