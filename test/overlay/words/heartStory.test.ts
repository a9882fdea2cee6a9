import { driftFacts } from "../../../main/reading/facts/debriefFacts.ts";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { debriefWords } from "../../../overlay/words/debriefWords.ts";
import type { HeartFacts } from "../../../overlay/words/debriefPhrases.ts";
import { harderAtTheEndW, heartStory } from "../../../overlay/words/heartStory.ts";
import { heartLines } from "../../../overlay/words/reading/heartLines.ts";
import type { Reading } from "../../../main/contract/reading.ts";
import { shownRise } from "../../../overlay/words/reading/shownRise.ts";

const heart: HeartFacts = {
  firstBpm: 127.7,
  firstAtS: 1350,
  firstPowerW: 180,
  lastBpm: 140.8,
  lastAtS: 7050,
  lastPowerW: 188.2,
  driftBeats: 10.8,
  uncertaintyBeats: 2,
  isShown: true,
  correctedForPower: true,
  onsetS: 4500,
  onsetLowS: 3930,
  onsetHighS: 4950,
  verdict: "began",
};

/** What `followcar read` says of these figures. */
function spoken(facts: HeartFacts): string {
  const drift = { ...facts, whyRiseDiffers: null, powerToHeartHalvesPercent: null, confounds: [] };
  return heartLines({ drift, overrides: [] } as unknown as Reading, "en").join("\n");
}

describe("the rise as it is shown", () => {
  // Trade fact (common practice, no source): 124 to 133 beats is a rise of 9 beats and 7.3 %.
  test("is the difference of the readings as shown", () => {
    expect(shownRise(124, 133)).toMatchObject({ beats: 9 });
    expect(shownRise(124, 133)!.percent.toFixed(1)).toBe("7.3");
    expect(shownRise(152.6, 167.4)).toMatchObject({ beats: 14 });
    expect(shownRise(null, 133)).toBeNull();
  });

  test("adds up wherever it stands: read, page, card, in both languages", () => {
    const bpm = fc.double({ min: 90, max: 190, noNaN: true });
    fc.assert(
      fc.property(bpm, bpm, (firstBpm, lastBpm) => {
        const facts = { ...heart, firstBpm, lastBpm };
        const first = Math.round(firstBpm);
        const last = Math.round(lastBpm);
        const [, said] = /Rise as recorded: \+?(-?\d+) beat/.exec(spoken(facts))!;
        expect(first + Number(said)).toBe(last);
        for (const words of [debriefWords("en"), debriefWords("de")]) {
          for (const line of [
            words.page.heart(facts, driftFacts(facts, 5))[0]!,
            words.film.heartLines(facts, driftFacts(facts, 5))[0]!,
          ]) {
            const [one, other, by] = [...line.matchAll(/\d+/g)].map(([digits]) => Number(digits));
            expect([one, other]).toEqual([first, last]);
            expect(by ?? 0).toBe(Math.abs(last - first));
            expect(/fewer|weniger/.test(line)).toBe(last < first);
          }
        }
      }),
    );
  });
});

describe("what is said of the climb", () => {
  test("the reason why rise and drift differ stands beside them", () => {
    expect(harderAtTheEndW(heart)).toBe(8);
    expect(debriefWords("en").page.heart(heart, driftFacts(heart, 5))).toEqual([
      "Your heart rate was 128 early on and 141 at the end: 13 beats more.",
      "At the same power it would be 11 beats more, give or take 2 beats: at the end you pushed 8 W harder.",
      "It began to climb at about 1 h 15 min, some time between 1 h 6 min and 1 h 23 min.",
    ]);
    // A lesson keeps the watts back: 8 W of a plan of 200 W.
    expect(debriefWords("en", 200).page.heart(heart, driftFacts(heart, 5))[1]).toContain("you pushed 4 % harder");
    // Both show 13 beats: there is nothing to explain.
    expect(harderAtTheEndW({ ...heart, driftBeats: 13.3 })).toBeNull();
    expect(harderAtTheEndW({ ...heart, correctedForPower: false })).toBeNull();
  });

  test("never contradicts the readings beside it", () => {
    const none = { ...heart, verdict: "no drift shown", onsetS: null } as const;
    expect(heartStory({ ...none, driftBeats: 6, isShown: true })).toBe("unsteady");
    expect(heartStory({ ...none, driftBeats: 5, uncertaintyBeats: 6, isShown: false })).toBe("within noise");
    expect(heartStory({ ...none, driftBeats: 1, isShown: false })).toBe("level");
    // Without power the readings themselves are the drift.
    expect(heartStory({ ...none, driftBeats: 13.1, isShown: false, correctedForPower: false })).toBe("within noise");
    const little = { ...heart, verdict: "not enough data", onsetS: null } as const;
    expect([heartStory(little), heartStory({ ...little, isShown: false, driftBeats: 1 })]).toEqual([
      "no start",
      "no data",
    ]);
    for (const language of ["en", "de"] as const) {
      const words = debriefWords(language);
      for (const facts of [none, little, heart])
        expect(words.film.heartLines(facts, driftFacts(facts, 5)).length).toBeLessThanOrEqual(3);
    }
  });

  test("a file without power never speaks of the same power", () => {
    const facts = { ...heart, correctedForPower: false };
    for (const verdict of [
      "began",
      "start unclear",
      "rose from the start",
      "no drift shown",
      "not enough data",
    ] as const) {
      const { page, film } = debriefWords("en");
      expect(
        [
          ...page.heart({ ...facts, verdict }, driftFacts(facts, 5)),
          ...film.heartLines({ ...facts, verdict }, driftFacts(facts, 5)),
        ].join(" "),
      ).not.toMatch(/same power|like power/);
    }
  });
});
