// What a base-ride coach asks for next stands in `read`, its JSON, the coach's page and the window's reading, and is the
// same number in all of them.
import { describe, expect, it } from "vitest";
import { coachHtml } from "../../main/handover/coachHtml.tsx";
import { judgeRide, readJson, readLines } from "../../main/journey/judge.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { durationText } from "../../overlay/words/numbers.ts";
import { hourTable } from "../../overlay/words/reading/hourTable.ts";
import { readingText } from "../../overlay/words/reading/readingText.ts";
import { makeRide } from "../support/makeRide.ts";
import { madeHandover } from "../handover/madeHandover.ts";
import { pageText } from "../support/rideWords.ts";
import { range } from "../support/trackText.ts";
import { seeded } from "../ride/mutate.ts";

/** Three and a half hours: a stop of 7 minutes in the middle, power that fades, a left share that wanders. */
const N = 12_600;
const random = seeded(31);
const standing = (s: number) => s >= 6000 && s < 6420;
const ride = makeRide({
  startUtcMs: Date.UTC(2026, 4, 16, 7, 12),
  utcOffsetMin: 120,
  powerW: range(N).map((s) => (standing(s) ? 0 : Math.round(192 - s / 400 + 16 * (random() - 0.5)))),
  heartRateBpm: range(N).map((s) => Math.round(128 + s / 900 + 2 * Math.sin(s / 60) + random())),
  cadenceRpm: range(N).map((s) => (standing(s) ? 0 : Math.round(87 + 4 * Math.sin(s / 40)))),
  speedMps: range(N).map((s) => (standing(s) ? 0 : 8.6 + 0.5 * Math.sin(s / 300))),
  altitudeM: range(N).map((s) => 400 + 60 * Math.sin(s / 900)),
  leftPercent: range(N).map((s) => (standing(s) ? NaN : 51 + Math.sin(s / 700))),
});
const plan = defaultPlan({ targetW: 180, toleranceW: 15 });
const judged = judgeRide(ride, plan, []);
const { reading, summary } = judged;
const lines = readLines(judged, "en");
const json = JSON.parse(JSON.stringify(readJson(judged, "en"))) as {
  ride: { localStart: string };
  drift: Record<string, number>;
  base: Record<"meanW" | "meanBpm" | "meanRpm" | "workKj" | "fadePercent", number> & {
    hours: Record<string, number>[];
    exposure: { inBandS: number[] };
  };
  parts: Record<string, number | boolean>[];
};
const page = pageText(
  coachHtml({ ...madeHandover(), ride, reading, readJson: json, readLines: lines, units: "metric", language: "en" }),
);
/** The window says the lines without the table, and draws the table of the same figures. */
const window = readingText(reading, summary, { units: "metric", door: "window", hours: false });
const table = hourTable(reading.base.hours, "metric");

/** A sentence of `read` that stands word for word on the page and in the window. */
function everywhere(pattern: RegExp): RegExpExecArray {
  const line = lines.find((one) => pattern.test(one));
  expect(line, `${String(pattern)}\n${lines.join("\n")}`).toBeDefined();
  expect(page).toContain(line!.trim());
  expect(window).toContain(line);
  return pattern.exec(line!)!;
}

describe("the same number by every door", () => {
  it("day and local start", () => {
    const [, day, clock] = everywhere(/^test\.fit: (16 May 2026), (09:12), 3 h 30 min/);
    expect([day, clock, json.ride.localStart]).toEqual(["16 May 2026", "09:12", "2026-05-16T09:12"]);
    expect(page).toContain("local start | 2026-05-16T09:12");
  });

  it("means and work of the main part", () => {
    const said = everywhere(
      /mean power (\d+) W, mean heart rate (\d+), mean cadence (\d+) while pedalling, work (\d+) kJ/,
    );
    const { meanW, meanBpm, meanRpm, workKj } = json.base;
    expect(said.slice(1).map(Number)).toEqual([meanW, meanBpm, meanRpm, workKj].map(Math.round));
  });

  it("power beside each heart reading", () => {
    const first = everywhere(/^First heart reading (\d+) at (\d+) W/);
    const last = everywhere(/^Last heart reading (\d+) at (\d+) W/);
    const { firstBpm, firstPowerW, lastBpm, lastPowerW } = json.drift;
    expect([...first.slice(1), ...last.slice(1)].map(Number)).toEqual(
      [firstBpm, firstPowerW, lastBpm, lastPowerW].map((one) => Math.round(one!)),
    );
    expect(page).toContain(`power at the first heart reading, W | ${Math.round(100 * firstPowerW!) / 100}`);
  });

  it("the table by the hour, with left and right", () => {
    expect(table.columns).toEqual(
      expect.arrayContaining(["W", "heart rate", "W a beat", "cadence", "km/h", "m up", "left, %"]),
    );
    expect(table.rows.length).toBe(json.base.hours.length);
    expect(table.rows.length).toBeGreaterThanOrEqual(3);
    table.rows.forEach((row, at) => {
      expect(page).toContain(row.join(" | "));
      const line = lines.find((one) => one.startsWith(`  ${row[0]} to ${row[1]}`))!;
      for (const cell of row.slice(2)) expect(line).toMatch(new RegExp(`(^|[ ,])${cell.replace(".", "\\.")}([ ,.]|$)`));
      const { meanW, meanBpm, wattsPerBeat, leftPercent } = json.base.hours[at]!;
      expect(row.slice(2, 5)).toEqual([
        String(Math.round(meanW!)),
        String(Math.round(meanBpm!)),
        wattsPerBeat!.toFixed(2),
      ]);
      expect(row.at(-1)).toBe(leftPercent!.toFixed(1));
    });
  });

  it("fade from the first to the last hour", () => {
    const [, percent] = everywhere(/^Power faded by (\d+) %/);
    expect(Number(percent)).toBe(Math.round(json.base.fadePercent));
  });

  it("time in the band by unbroken length, its method named", () => {
    const [line] = everywhere(/^Time in the band by unbroken length: .*Mathiassen and Winkel 1991\)\.$/);
    for (const seconds of json.base.exposure.inBandS.filter((one) => one > 0))
      expect(line).toContain(`${durationText(seconds)} in stretches of`);
  });

  it("each part between long stops, the last one too", () => {
    expect(json.parts.length).toBe(2);
    for (const part of json.parts) {
      const found = lines.find((one) => one.includes(`heart rate ${Math.round(Number(part["firstBpm"]))} to`));
      expect(found).toContain(`to ${Math.round(Number(part["lastBpm"]))}, drift`);
      expect(page).toContain(found!.trim());
      expect(window).toContain(found);
    }
    expect(json.parts.filter(({ told }) => told === true)).toHaveLength(1);
  });
});
