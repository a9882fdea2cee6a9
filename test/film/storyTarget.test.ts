// A target that looks wrong for the ride is spoken of before anything else.
import { describe, expect, test } from "vitest";
import type { Plan } from "../../main/contract/plan.ts";
import type { Ride } from "../../main/contract/ride.ts";
import { judgeRide, readJson, readLines } from "../../main/journey/judge.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { wordsOf } from "../support/rideWords.ts";
import { makeRide } from "../support/makeRide.ts";
import { evenRide } from "./storyRides.ts";

/** What is said of a ride at so many watts with so many asked, by every door, in both languages. */
async function doubted(ride: Ride, plan: Plan, more: { nextS?: number } = {}) {
  const made = await Promise.all(
    (["en", "de"] as const).map(async (language) => {
      const own = { held: null, change: null, next: null, nextS: more.nextS ?? null, notes: null, questions: null };
      return wordsOf(ride, plan, { language, filmed: true, more: { words: own } });
    }),
  );
  return made.map((words) => ({ ...words, all: [words.message, words.page, ...words.film].join("\n") }));
}

describe("a target that looks wrong for the ride", () => {
  const asked = (targetW: number): Plan =>
    defaultPlan({ setting: "road", targetW, toleranceW: 15, eventS: 14_400, eventName: "Three Valleys" });

  test.each([
    [107, 170],
    [282, 180],
  ])("ridden %s W, asked %s W: the target comes first, in every output and both languages", async (riddenW, askedW) => {
    for (const words of await doubted(evenRide(9000, riddenW), asked(askedW))) {
      const { reading, facts } = words.standing.judged;
      expect(facts.targetDoubt).toEqual({ by: "power", askedW, riddenW: facts.meanW });
      expect(words.data.story.next.kind).toBe("target");
      expect(words.all).not.toMatch(/once more|noch einmal|Ride easier|Fahr leichter|closer to|näher/u);
      const line = words.message.split("\n")[3]!;
      expect(line).toMatch(
        /Talk with your coach about the target first|Sprich mit deinem Trainer zuerst über das Ziel/u,
      );
      expect(words.page).toContain(line);
      expect(words.film.join("\n")).toContain(line);
      // The event's rule of thumb is about the planned power, and no week asks for it.
      expect(words.data.story.event).toBeNull();
      // The coach is told why, and what to do, on the coach's page, the command line and in its JSON.
      const code = reading.warnings.map((one) => one.code);
      expect(code).toContain("reading-target-doubt");
      expect(words.coach).toMatch(/--target/u);
      expect(readLines(words.standing.judged, "en").join("\n")).toContain(`asked ${askedW} W, ridden ${facts.meanW} W`);
      expect(readJson(words.standing.judged, "en")).toMatchObject({
        target: { doubt: { by: "power", askedW, riddenW: facts.meanW } },
      });
    }
  });

  test("a coach who says how long the next ride is keeps the target", async () => {
    for (const { message } of await doubted(evenRide(9000, 107), asked(170), { nextS: 5400 }))
      expect(message).toMatch(/Ride at 170 W for 1 h 30 min\.|Fahr 170 W, 1 h 30 min lang\./u);
  });

  test("much rolling between pressure at the plan, and a rider carried away, do not put it in doubt", () => {
    const rolling = makeRide({
      powerW: Array.from({ length: 9000 }, (_, t) => (t % 60 < 27 ? 0 : 170)),
      cadenceRpm: Array.from({ length: 9000 }, (_, t) => (t % 60 < 27 ? 0 : 85)),
    });
    const judged = judgeRide(rolling, asked(170), []);
    expect(judged.facts.meanW! / 170).toBeLessThan(0.7);
    expect(judged.facts.targetDoubt).toBeNull();
    expect(judgeRide(evenRide(9000, 204), asked(170), []).facts.targetDoubt).toBeNull();
  });

  test("a heart far outside the planned range, without power", async () => {
    const ride = evenRide(9000);
    const bare: Ride = { ...ride, grid: { ...ride.grid, power: null, power30sW: null } };
    const plan = defaultPlan({ setting: "road", heartLowBpm: 100, heartHighBpm: 112 });
    for (const { message, all } of await doubted(bare, plan)) {
      expect(message).toMatch(
        /a heart rate of 100 to 112 was asked, 138 was|ein Puls von 100 bis 112, gefahren im Mittel 138/u,
      );
      expect(all).not.toMatch(/once more|noch einmal/u);
    }
    const near = defaultPlan({ setting: "road", heartLowBpm: 115, heartHighBpm: 127 });
    expect(judgeRide(bare, near, []).facts.targetDoubt).toBeNull();
  });
});
