// The next ride, the event it leads to, and the last ride like it.
import { describe, expect, test } from "vitest";
import type { Plan } from "../../main/contract/plan.ts";
import { rideFigures } from "../../main/debrief/rideFigures.ts";
import { readJson, readLines } from "../../main/journey/judge.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import type { DebriefStory } from "../../overlay/words/debriefStory.ts";
import { debriefWords } from "../../overlay/words/debriefWords.ts";
import { wordsOf } from "../support/rideWords.ts";
import { evenRide } from "./storyRides.ts";

describe("the next ride", () => {
  const plan = (more: Partial<Plan> = {}): Plan =>
    defaultPlan({
      targetW: 200,
      toleranceW: 15,
      warmUpS: 600,
      coolDownS: 600,
      eventS: 4 * 3600,
      eventName: "Three Valleys",
      ...more,
    });

  test("is one small step, never a leap to the event", async () => {
    const { data, message } = await wordsOf(evenRide(7200), plan());
    const { next, facts } = data.story;
    expect(facts.mainS).toBe(6000);
    if (next.kind === "longer") {
      expect(next.askS).toBe(6900);
      expect(message).toContain("1 h 55 min, 15 min longer than this time");
    } else expect(next).toEqual({ kind: "same", askS: 6000, because: "can't tell" });
  });

  test("the way to a known day is a step a week", async () => {
    const ride = evenRide(7200);
    const { data, page } = await wordsOf(ride, plan({ eventDate: "2026-08-02" }));
    const weeks = data.story.event!.weeks;
    expect(weeks.length).toBeGreaterThan(3);
    expect(new Date(weeks[0]!.mondayUtcMs).toISOString().slice(0, 10)).toBe("2026-05-18");
    for (const [index, week] of weeks.slice(1).entries()) {
      expect(week.askS - weeks[index]!.askS).toBeLessThanOrEqual(900);
      expect(week.askS).toBeGreaterThanOrEqual(weeks[index]!.askS);
    }
    expect(page).toContain("Week of 18 May 2026");
  });

  test.each([
    ["past", "2026-05-16", false],
    ["of the ride's own day", "2026-05-17", true],
    ["of tomorrow", "2026-05-18", true],
  ] as const)(
    "an event %s (%s): spoken of %s, by every door and in both languages",
    async (_when, eventDate, spoken) => {
      const ride = evenRide(7200);
      expect(new Date(ride.startUtcMs!).toISOString().slice(0, 10)).toBe("2026-05-17");
      for (const language of ["en", "de"] as const) {
        const { data, standing, message, page, film, coach } = await wordsOf(ride, plan({ eventDate }), { language });
        expect(data.story.event !== null).toBe(spoken);
        for (const [where, text] of Object.entries({ page, film: film.join("\n") }))
          expect(text.includes("Three Valleys"), where).toBe(spoken);
        const { judged, document } = standing;
        const read = readLines(judged, language).join("\n");
        for (const text of [read, coach]) expect(/The event takes|Das Ziel dauert/u.test(text)).toBe(spoken);
        expect(readJson(judged, language)).toMatchObject({ target: { eventS: spoken ? 4 * 3600 : null } });
        const figures = rideFigures(judged.ride, judged.plan, judged.reading, judged.facts, null);
        expect([figures.eventName, figures.eventS]).toEqual(spoken ? ["Three Valleys", 4 * 3600] : [null, null]);
        if (!spoken)
          expect([message, page, ...film, read, coach].join("\n")).not.toMatch(/Three Valleys|your event asks/u);
        // The coach's own plan is as it was written.
        expect(document.plan.eventName).toBe("Three Valleys");
      }
    },
  );

  test("an event that is over sets no length to the next ride", async () => {
    const short = (eventDate: string) => plan({ eventDate, eventS: 3600 });
    const steps = await Promise.all(
      ["2026-05-16", "2026-06-16"].map(
        async (eventDate) => (await wordsOf(evenRide(7200), short(eventDate))).data.story.next.kind,
      ),
    );
    expect(steps[1]).not.toBe(steps[0]);
  });

  test("the coach's own length stands", async () => {
    const ride = evenRide(7200);
    const { standing } = await wordsOf(ride, plan());
    const { message } = await wordsOf(ride, plan(), { more: { words: { ...standing.document.words, nextS: 5400 } } });
    expect(message).toContain("Ride at 200 W for 1 h 30 min.");
  });
});

describe("the last ride like it", () => {
  test("is compared in one line, only where it can tell", async () => {
    const compareLine = (story: DebriefStory): string | null => debriefWords("en").compareLine(story);
    const { data } = await wordsOf(evenRide(7200), defaultPlan({ targetW: 200, toleranceW: 15 }));
    const { facts } = data.story;
    expect(compareLine(data.story)).toBeNull();
    const like = { startUtcMs: Date.UTC(2026, 4, 10), inBand: null, breaksAnHour: null, heart: null };
    expect(compareLine({ ...data.story, facts: { ...facts, lastLike: like } })).toBeNull();
    const better = { ...like, inBand: { before: 61, now: 70 }, heart: { beats: -6, giveOrTake: 4 } };
    expect(compareLine({ ...data.story, facts: { ...facts, lastLike: better } })).toBe(
      "Beside your last ride like this (10 May 2026): 70 % at the plan, after 61 %; heart rate early on 6 beats lower at the same power, give or take 4.",
    );
  });
});
