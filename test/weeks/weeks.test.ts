import AxeBuilder from "@axe-core/playwright";
import { existsSync } from "node:fs";
import { mkdir, mkdtemp, writeFile } from "node:fs/promises";
import { HtmlValidate } from "html-validate";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { describe, expect, test } from "vitest";
import type { RideFigures } from "../../main/contract/rideFigures.ts";
import { newDebrief } from "../../main/debrief/debriefDocument.ts";
import { saveDebrief } from "../../main/debrief/debriefStore.edge.ts";
import { debriefsUnder } from "../../main/debrief/debriefsUnder.edge.ts";
import { rideFigures } from "../../main/debrief/rideFigures.ts";
import { driftTrend, weeksLog } from "../../main/weeks/weeksLog.ts";
import { couldTell } from "../../main/weeks/weeksRide.ts";
import { weeksHtml } from "../../main/weeks/weeksHtml.tsx";
import { weeksWords } from "../../overlay/words/weeksWords.ts";
import { madePlan, madeReading, madeRide } from "../film/madeReading.ts";
import { said } from "../support/said.ts";

const DAY_MS = 86_400_000;
const first = Date.UTC(2026, 2, 1, 9);
const base = rideFigures(
  madeRide(),
  madePlan(),
  madeReading(madeRide()),
  {
    shares: { inPercent: 62, belowPercent: 20, abovePercent: 10, offPercent: 4, unknownPercent: 4 },
    again: [],
    drift: { beats: 8, giveOrTake: 2, canTell: true },
  },
  null,
);

function ride(day: number, more: Partial<RideFigures> = {}): { name: string; figures: RideFigures } {
  return { name: `ride-${day}`, figures: { ...base, startUtcMs: first + day * DAY_MS, ...more } };
}

const months = [
  ride(0, { driftBeats: 12, heldLowS: 3000, heldHighS: 3600 }),
  ride(7, { driftBeats: 11, heldLowS: 3300, heldHighS: 4200 }),
  ride(10, { setting: "trainer", meterOffsetW: 5, driftBeats: 6 }),
  ride(14, { driftBeats: 9, heldLowS: 3900, heldHighS: 4500 }),
  ride(21, { driftBeats: 8, heldLowS: 4200, heldHighS: null }),
  ride(25, { driftBeats: 2, countedS: 1800, heldLowS: 1800, heldHighS: null }),
  ride(28, { driftBeats: 6, heldLowS: 4800, heldHighS: null }),
];

describe("weeksLog", () => {
  test("road and trainer stand apart, oldest first; what has no date or figures is left out and said", () => {
    const log = weeksLog(
      [...months].reverse().concat([ride(3, { startUtcMs: null }), { name: "new", figures: null } as never]),
    );
    expect(log.groups.map((group) => [group.place, group.rides.length])).toEqual([
      ["road", 6],
      ["trainer", 1],
    ]);
    expect(log.groups[1]!.offsetsW).toEqual([5]);
    expect(log.groups[0]!.rides.map((one) => one.startUtcMs)).toEqual(
      [...log.groups[0]!.rides.map((one) => one.startUtcMs)].sort((a, b) => a - b),
    );
    expect(log.leftOut).toEqual([
      { name: "ride-3", because: "no date" },
      { name: "new", because: "no figures" },
    ]);
  });

  test("only rides like the newest in duration and power are compared", () => {
    const [road] = weeksLog(months).groups;
    expect(road!.rides.map((one) => one.like)).toEqual([true, true, true, true, false, true]);
    const stronger = weeksLog([...months, ride(35, { meanW: base.meanW! * 1.2 })]).groups[0]!;
    expect(stronger.rides.filter((one) => one.like)).toHaveLength(1);
  });

  // Theil-Sen of an exact line is that line; one outlier in seven does not move it (breakdown point 29 %, Sen 1968).
  test("the trend is the median slope, and there is none under five rides", () => {
    const line = Array.from({ length: 7 }, (_, week) => ride(7 * week, { driftBeats: 14 - week }));
    expect(weeksLog(line).groups[0]!.trend).toMatchObject({ rides: 7, shown: true });
    expect(weeksLog(line).groups[0]!.trend!.beatsPerWeek).toBeCloseTo(-1, 9);
    expect(weeksLog(line).groups[0]!.trend).toMatchObject({ fromUtcMs: first, toUtcMs: first + 42 * DAY_MS });
    expect(weeksLog(line).groups[0]!.trend!.fromBeats).toBeCloseTo(14, 9);
    expect(weeksLog(line).groups[0]!.trend!.toBeats).toBeCloseTo(8, 9);
    const spiked = line.map((one, index) => (index === 3 ? ride(21, { driftBeats: 40 }) : one));
    expect(weeksLog(spiked).groups[0]!.trend!.beatsPerWeek).toBeCloseTo(-1, 1);
    expect(weeksLog(line.slice(0, 4)).groups[0]!.trend).toBeNull();
    const flat = line.map((one, index) => ({ ...one, figures: { ...one.figures, driftBeats: 8 + (index % 2) } }));
    expect(weeksLog(flat).groups[0]!.trend!.shown).toBe(false);
    expect(driftTrend([])).toBeNull();
  });

  // A ride whose error is wider than the drift that is acceptable says nothing of the heart, on any page.
  test("only rides that could tell are counted; a wide error says can't tell", () => {
    const line = Array.from({ length: 7 }, (_, week) => ride(7 * week, { driftBeats: 14 - week }));
    const wide = line.map(({ name, figures }, index) => ({
      name,
      figures: index % 2 === 0 ? figures : { ...figures, driftBeats: 31, uncertaintyBeats: 12, driftCanTell: false },
    }));
    expect(weeksLog(wide).groups[0]?.trend).toBeNull();
    const more = [...wide, ride(49, { driftBeats: 7 })];
    expect(weeksLog(more).groups[0]?.trend?.rides).toBe(5);
    expect(weeksLog(more).groups[0]?.trend?.beatsPerWeek).toBeCloseTo(-1, 6);
    const page = weeksHtml(weeksLog(more), null, "en", []);
    expect(page.match(/<td[^>]*>can't tell<\/td>|<td[^>]*>can&#x27;t tell<\/td>/g)?.length).toBe(6);
    expect(page).not.toContain("31.0");
    expect(weeksHtml(weeksLog(wide), null, "de", [])).toContain("die es sagen konnten: 4.");
    // Debriefs saved before this was kept are told by their error.
    const before = { ...base, driftCanTell: null, correctedForPower: true };
    expect(couldTell({ figures: { ...before, driftBeats: 9, uncertaintyBeats: 4 } })).toBe(true);
    expect(couldTell({ figures: { ...before, driftBeats: 9, uncertaintyBeats: 6 } })).toBe(false);
    expect(couldTell({ figures: { ...before, driftBeats: null } })).toBe(false);
  });

  test("excused breaks enter no score", () => {
    const made = madeRide();
    const reading = madeReading(made);
    const excused = {
      ...reading,
      pressure: { ...reading.pressure, offS: reading.pressure.offS + 900, excusedOffS: 900 },
    };
    expect(
      rideFigures(
        made,
        madePlan(),
        excused,
        { shares: null, again: [], drift: { beats: 8, giveOrTake: 2, canTell: true } },
        null,
      ).inBandPercent,
    ).toBeCloseTo(base.inBandPercent!, 9);
  });
});

describe("the page", () => {
  const html = weeksHtml(weeksLog(months), "Ines <Falk>", "en", []);

  test("at least is open-ended: an arrow, and no number is an average", () => {
    const svg = html.match(/<svg[^>]*aria-labelledby="road-held.*?<\/svg>/s)![0];
    expect(svg.match(/l-8 -9z/g)).toHaveLength(3);
    // Figures stay on one line with their units.
    expect(html).toContain("at least 1\u00a0h\u00a020\u00a0min");
    expect(html.match(/class="trend"/g)).toHaveLength(1);
    expect(html).toContain("<h1>Weeks: Ines &lt;Falk&gt;</h1>");
    expect(weeksHtml(weeksLog(months), "Ines Falk", "en", [], false)).not.toContain("<h1");
    expect(html).toContain("Over 5 rides alike, the heart drifts 6\u00a0beats less (1.5 a week).");
    expect(weeksHtml(weeksLog(months.slice(0, 3)), null, "en", [])).toContain(
      "Rides alike that could tell: 2. Under 5 there is no line.",
    );
    expect(html).not.toMatch(/NaN|Infinity|undefined/);
    expect(html).toContain("Ines &lt;Falk&gt;");
  });

  test.each([
    [-6, "the heart drifts 6 beats less (0.9 a week).", "wurde die Drift um 6 Schläge kleiner (0,9 je Woche)."],
    [
      -3,
      "the heart drifts 3 beats less; it differs by as much",
      "wurde die Drift um 3 Schläge kleiner; so viel schwankt sie",
    ],
    [
      1,
      "the heart drifts 1 beat more; it differs by as much",
      "wurde die Drift um 1 Schlag größer; so viel schwankt sie",
    ],
    // Of a change of nothing there is nothing to set beside it.
    [0.3, "the heart drifts as much as before.", "blieb die Drift gleich."],
  ])("says which way drift went: %d beats over the weeks", (changeBeats, english, german) => {
    const trend = { rides: 7, beatsPerWeek: changeBeats / 7, changeBeats, shown: Math.abs(changeBeats) > 4 };
    expect(weeksWords("en").trend(trend, 7)).toContain(`Over 7 rides alike, ${english}`);
    expect(weeksWords("de").trend(trend, 7)).toContain(`Über 7 ähnliche Fahrten ${german}`);
    if (english.endsWith(".")) expect(weeksWords("en").trend(trend, 7)).toBe(`Over 7 rides alike, ${english}`);
  });

  test.each([html, weeksHtml(weeksLog([]), null, "de", []), weeksHtml(weeksLog([months[0]!]), null, "de", [])])(
    "is valid HTML",
    async (page) => {
      const report = await new HtmlValidate({
        extends: ["html-validate:recommended", "html-validate:document"],
        rules: { "require-csp-nonce": "off" },
      }).validateString(page);
      expect(
        report.results.flatMap((result) => result.messages.map((one) => `${one.line}: ${one.ruleId} ${one.message}`)),
      ).toEqual([]);
    },
  );

  const CHROMIUM = ["/usr/bin/chromium", "/usr/bin/google-chrome"].find((path) => existsSync(path)) ?? null;
  const needed = (process.env["FOLLOWCAR_REQUIRE"] ?? "").split(",").includes("chromium");
  test.skipIf(CHROMIUM === null && !needed)("axe finds nothing", async () => {
    const browser = await chromium.launch({ executablePath: CHROMIUM ?? "chromium", args: ["--no-sandbox"] });
    try {
      const page = await (await browser.newContext({ viewport: { width: 390, height: 844 } })).newPage();
      await page.setContent(html);
      const found = await new AxeBuilder({ page }).analyze();
      expect(found.violations.map((one) => `${one.id}: ${one.nodes[0]?.html}`)).toEqual([]);
      expect(await page.evaluate("document.documentElement.scrollWidth")).toBeLessThanOrEqual(390);
    } finally {
      await browser.close();
    }
  });
});

describe("debriefsUnder", () => {
  test("reads each debrief below, and a broken one is a warning", async () => {
    const folder = await mkdtemp(join(tmpdir(), "weeks ü "));
    for (const name of ["a", "b", "broken", "none"]) await mkdir(join(folder, name));
    for (const name of ["a", "b"])
      await saveDebrief(join(folder, name), { ...newDebrief(madePlan(), [], "r"), figures: base });
    await writeFile(join(folder, "broken", "debrief.json"), "{");
    const { debriefs, warnings } = await debriefsUnder(folder);
    expect(debriefs.map((one) => one.name)).toEqual(["a", "b"]);
    expect(debriefs[0]!.figures).toEqual(base);
    expect(warnings).toHaveLength(1);
    expect(said(warnings)[0]).toContain("broken");
    await expect(debriefsUnder(join(folder, "nowhere"))).rejects.toMatchObject({ code: "file-unreadable" });
  });
});
