// Skills of a plan: no sensor tells them. They are asked before the ride, ticked by the coach after it, and told so on
// the plan's page, on film and in the debrief; what was not done as often as asked is no praise.
import { describe, expect, it } from "vitest";
import type { PlanSkill } from "../../main/contract/plan.ts";
import { planSheetHtml } from "../../main/handover/planSheetHtml.tsx";
import { defaultPlan, parsePlan } from "../../main/reading/plan/parsePlan.ts";
import { planJson } from "../../main/reading/plan/planJson.ts";
import { pageText, wordsOf } from "../support/rideWords.ts";
import { makeRide } from "../support/makeRide.ts";

const asked = [
  { skill: "drops", repeats: 4, done: null },
  { skill: "corners", repeats: 3, done: null },
] as const satisfies readonly PlanSkill[];

const ride = makeRide({
  powerW: Array.from({ length: 2400 }, (_, t) => 150 + (t % 97)),
  speedMps: Array.from({ length: 2400 }, () => 8),
});

describe("skills of a plan", () => {
  it("are read from a plan file and written into one", () => {
    const json = { skills: [{ skill: "drops", repeats: 4 }, { skill: "one hand" }] };
    const plan = parsePlan(json, "plan.json");
    expect(plan.skills).toEqual([
      { skill: "drops", repeats: 4, done: null },
      { skill: "one hand", repeats: 1, done: null },
    ]);
    expect(parsePlan(planJson(plan), "plan.json").skills).toEqual(plan.skills);
    expect(parsePlan({}, "plan.json").skills).toBeUndefined();
    for (const skills of [[{ skill: "wheelies" }], [{ skill: "drops", repeats: 0 }], [{ skill: "drops", done: -1 }]])
      expect(() => parsePlan({ skills }, "plan.json")).toThrow();
  });

  it.each(["en", "de"] as const)("stand on the plan's page, and where to practise them: %s", (language) => {
    const sheet = pageText(planSheetHtml(defaultPlan({ skills: asked }), null, language, []));
    expect(sheet).toContain(language === "en" ? "Hands in the drops | 4 times |" : "Unterlenker | 4-mal |");
    expect(sheet).toContain(language === "en" ? "without traffic" : "ohne Verkehr");
    expect(pageText(planSheetHtml(defaultPlan(), null, language, []))).not.toMatch(/without traffic|ohne Verkehr/);
  });

  it("are told on page and film, and praised once they were done as often as asked", async () => {
    const open = await wordsOf(ride, defaultPlan({ skills: asked }));
    expect(open.page).toContain("Cornering drill | 3 times |");
    expect(open.film.join("\n")).toContain("Hands in the drops: 4 times");
    expect(open.data.story.held.kind).not.toBe("skill");

    const short = await wordsOf(ride, defaultPlan({ skills: [{ skill: "drops", repeats: 4, done: 3 }] }));
    expect(short.page).toContain("Hands in the drops | 3 of 4 done |");
    expect(short.message).not.toContain("practised");

    const done = defaultPlan({ skills: [asked[0], { ...asked[1], done: 3 }] });
    const all = await wordsOf(ride, done);
    expect(all.message).toContain("You practised as asked: cornering drill, 3 times.");
    expect(all.page).toContain("You practised as asked: cornering drill, 3 times.");
    expect((await wordsOf(ride, done, { language: "de" })).message).toContain(
      "wie verlangt geübt: Kurvenübung, 3-mal.",
    );
    // A rider who is ill is not praised for practice, and rest comes first.
    const ill = await wordsOf(ride, { ...done, note: { ...done.note, illness: "fever since Friday" } });
    expect(ill.data.story.held.kind).toBe("told");
  });

  it.each([
    ["en", "You practised: hands in the drops, 3 times.", "Hands in the drops | done 3 times |", "Hands in the drops"],
    ["de", "Du hast geübt: Unterlenker, 3-mal.", "Unterlenker | 3-mal gemacht |", "Unterlenker"],
  ] as const)(
    "seen though nobody asked for one, it is told so, and stands on no plan: %s",
    async (language, line, row, name) => {
      const plan = defaultPlan({ skills: [{ skill: "drops", repeats: null, done: 3 }] });
      const words = await wordsOf(ride, plan, { language });
      expect(words.message).toContain(line);
      expect(words.page).toContain(row);
      expect(words.film.join("\n")).not.toContain(`${name}:`);
      expect(pageText(planSheetHtml(plan, null, language, []))).not.toContain(name);
      expect(parsePlan(planJson(plan), "plan.json").skills).toEqual(plan.skills);
    },
  );
});
