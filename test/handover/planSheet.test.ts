import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { HtmlValidate } from "html-validate";
import { expect, test } from "vitest";
import { planSheetHtml } from "../../main/handover/planSheetHtml.tsx";
import { planJourney } from "../../main/journey/planSheet.ts";
import { planBand, plannedBlocks } from "../../main/reading/band.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { madePlan } from "../film/madeReading.ts";
import { testHost } from "../support/tools.ts";

test.each(["en", "de"] as const)(
  "the plan's half page is valid HTML and says what the plan asks (%s)",
  async (language) => {
    const plan = {
      ...madePlan(),
      meterOffsetW: 4,
      warmUpS: 600,
      blocks: [{ startS: 1200, endS: 1500, kind: "effort" as const, targetW: 300, toleranceW: null }],
    };
    const html = planSheetHtml(plan, planBand(plan), language, [], plannedBlocks(plan));
    const report = await new HtmlValidate({
      extends: ["html-validate:recommended", "html-validate:document"],
      rules: { "require-csp-nonce": "off" },
    }).validateString(html);
    expect(
      report.results.flatMap((result) => result.messages.map((one) => `${one.line}: ${one.ruleId} ${one.message}`)),
    ).toEqual([]);
    // The meter reads 4 W low: the rider must see 4 W less (230 - 4, 15 either side).
    expect(html).toMatch(/211 (to|bis) 241\sW/);
    for (const figure of ["10\u00a0min", "5\u00a0min", "300\u00a0W", "4\u00a0h"]) expect(html).toContain(figure);
    expect(planSheetHtml({ ...defaultPlan(), setting: "trainer" }, null, language, [])).not.toMatch(
      /If you film|Wenn du filmst|NaN|null/,
    );
  },
);

test.each([
  ["en", "2 h 15 min", "as long as you agreed"],
  ["de", "2 h 15 min", "so lang wie abgemacht"],
] as const)("it says how long the ride is and draws the blocks over that time (%s)", (language, said, agreed) => {
  const blocks = [
    { startS: 1800, endS: 3600, kind: "steady" as const, targetW: 250, toleranceW: 10 },
    { startS: 3600, endS: 4200, kind: "rest" as const, targetW: null, toleranceW: null },
  ];
  const plan = { ...madePlan(), warmUpS: 900, coolDownS: 900, blocks, lengthS: 8100 };
  const html = planSheetHtml(plan, planBand(plan), language, [], plannedBlocks(plan));
  expect(html.replaceAll("\u00a0", " ")).toContain(said);
  const bands = [...html.matchAll(/class="band" x="([\d.]+)" y="([\d.]+)" width="([\d.]+)"/g)]
    .map((one) => ({ fromS: ((Number(one[1]) - 40) / 350) * 8100, widthS: (Number(one[3]) / 350) * 8100 }))
    .filter(({ widthS }) => widthS > 300);
  // The plan's band before and after; the block's own in between; none in the rest, in warming up and in rolling out.
  expect(bands.map(({ fromS }) => Math.round(fromS / 60)).sort((a, b) => a - b)).toEqual([15, 30, 70]);
  expect(bands.find(({ fromS }) => Math.abs(fromS - 1800) < 60)!.widthS).toBeCloseTo(1800, -2);
  const { lengthS: _, ...unsaid } = { ...plan, blocks: [] };
  const bare = planSheetHtml(unsaid, planBand(unsaid), language, []);
  expect(bare).toContain(agreed);
  expect(bare).not.toContain("<svg");
});

test.each([
  ["past", "2026-05-15", false],
  ["today", "2026-05-16", true],
  ["tomorrow", "2026-05-17", true],
] as const)("an event of %s (%s) is named: %s", async (_when, date, named) => {
  const folder = mkdtempSync(join(tmpdir(), "followcar-plan-"));
  try {
    const planPath = join(folder, "asked.json");
    writeFileSync(planPath, JSON.stringify({ target: 200, event: { name: "Three Valleys", duration: "4 h", date } }));
    // A minute before midnight, where this computer is.
    const host = { ...testHost(), nowMs: () => new Date(2026, 4, 16, 23, 59).getTime() };
    for (const language of ["en", "de"] as const) {
      const choices = { planPath, targetW: null, toleranceW: null, setting: null };
      await planJourney(choices, join(folder, language), language, host);
      const sheet = readFileSync(join(folder, language, "plan.html"), "utf8");
      expect(sheet.includes("Three Valleys"), language).toBe(named);
      expect(sheet.replaceAll("\u00a0", " ").includes("4 h"), language).toBe(named);
      expect(sheet).not.toMatch(/Your event|Dein Ziel/);
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
