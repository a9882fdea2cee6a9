import { HtmlValidate } from "html-validate";
import { expect, test } from "vitest";
import { planSheetHtml } from "../../main/handover/planSheetHtml.tsx";
import { planBand } from "../../main/reading/band.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { madePlan } from "../film/madeReading.ts";

test.each(["en", "de"] as const)(
  "the plan's half page is valid HTML and says what the plan asks (%s)",
  async (language) => {
    const plan = {
      ...madePlan(),
      meterOffsetW: 4,
      warmUpS: 600,
      blocks: [{ startS: 1200, endS: 1500, kind: "effort" as const, targetW: 300, toleranceW: null }],
    };
    const html = planSheetHtml(plan, planBand(plan), language, []);
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
