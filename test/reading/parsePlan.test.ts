import { describe, expect, it } from "vitest";
import { Failure } from "../../main/contract/failure.ts";
import { parseDurationS } from "../../main/reading/plan/duration.ts";
import { parseAthlete } from "../../main/debrief/athlete.ts";
import { athletePlan } from "../../main/reading/plan/athletePlan.ts";
import { targetFor, targetWarnings } from "../../main/reading/plan/targetFor.ts";
import { defaultPlan, parsePlan } from "../../main/reading/plan/parsePlan.ts";
import { planHelp } from "../../main/reading/plan/planHelp.ts";
import { refused, said } from "../support/said.ts";
import { failureSaid } from "../support/said.ts";

const failureOf = (json: unknown): Failure => {
  try {
    parsePlan(json, "long ride.json");
  } catch (error) {
    if (error instanceof Failure) return error;
  }
  throw new Error("it was accepted");
};

describe("durations as people write them", () => {
  it.each([
    [10, 600],
    ["10:00", 600],
    ["1:30:00", 5400],
    ["90", 5400],
    ["90 min", 5400],
    ["2 h", 7200],
    ["2 h 30", 9000],
    ["2h30", 9000],
    ["45 s", 45],
    ["0", 0],
  ])("%s", (text, seconds) => expect(parseDurationS(text)).toBe(seconds));

  it.each(["", "soon", "-5", "1:75:00", "10:99", "h", Number.NaN, -1])("refuses %s", (text) =>
    expect(parseDurationS(text)).toBeNull(),
  );
});

describe("a plan file", () => {
  it("is read with its friendly keys", () => {
    const plan = parsePlan(
      {
        title: "Long base ride",
        setting: "road",
        target: 185,
        tolerance: 12,
        warmUp: "10:00",
        coolDown: 10,
        event: { name: "Three Valleys", duration: "3 h 30" },
        meterOffset: 8,
        note: { heat: "hot, no shade" },
      },
      "plan.json",
    );
    expect(plan).toMatchObject({
      targetW: 185,
      toleranceW: 12,
      warmUpS: 600,
      coolDownS: 600,
      eventS: 12600,
      meterOffsetW: 8,
    });
    expect(plan.note.heat).toBe("hot, no shade");
    expect(plan.note.sleep).toBeNull();
  });

  it("takes a range for a target with its tolerance", () => {
    expect(parsePlan({ range: [170, 200] }, "p.json")).toMatchObject({ targetW: 185, toleranceW: 15 });
  });

  it("gives a bare target the usual tolerance and an empty file the defaults", () => {
    expect(parsePlan({ target: 185 }, "p.json").toleranceW).toBe(12);
    expect(parsePlan({}, "p.json")).toEqual(defaultPlan());
  });

  it.each([
    [{ targt: 185 }, "targt"],
    [{ target: "185" }, "target"],
    [{ target: -5 }, "target"],
    [{ target: 185, tolerance: 300 }, "tolerance"],
    [{ tolerance: 12 }, "tolerance"],
    [{ target: 185, range: [170, 200] }, "range"],
    [{ range: [200, 170] }, "range"],
    [{ warmUp: "soon" }, "warmUp"],
    [{ event: { duration: "2:00" } }, "event"],
    [{ blocks: [{ from: 10, to: 5 }] }, "blocks.0.to"],
    [
      {
        blocks: [
          { from: 0, to: 20 },
          { from: 10, to: 30 },
        ],
      },
      "blocks",
    ],
    [{ excuses: ["tired"] }, "excuses"],
    [{ setting: "velodrome" }, "setting"],
    [[], "whole"],
    [null, "whole"],
    ["text", "whole"],
  ])("that is wrong names the file, the key and the remedy: %j", (json, key) => {
    const failure = failureOf(json);
    expect(failure.code).toBe("plan-not-valid");
    expect(failureSaid(failure).sentence).toContain("long ride.json");
    expect(failureSaid(failure).sentence).toContain(key);
    expect(failureSaid(failure).remedy).toContain("plan --help");
  });

  it("has every key in its help", () => {
    for (const key of [
      "title",
      "rider",
      "setting",
      "target",
      "tolerance",
      "range",
      "heartBand",
      "warmUp",
      "coolDown",
      "blocks",
      "event",
      "floor",
      "excuses",
      "limits",
      "meterOffset",
      "units",
      "note",
    ]) {
      expect(planHelp).toContain(`"${key}"`);
    }
    const example = /Example:\s+(\{[\s\S]*\})/.exec(planHelp)?.[1] ?? "";
    expect(parsePlan(JSON.parse(example), "example").targetW).toBe(160);
  });
});

describe("an athlete's dated targets", () => {
  const form = {
    name: "Ida",
    units: "imperial",
    road: {
      targetW: 190,
      foundDate: "2026-05-01",
      foundMeter: "crank meter B",
      meter: "crank meter B",
      meterOffsetW: 3,
      earlier: [
        { date: "2026-01-10", targetW: 180, toleranceW: 10, source: "two steady hours", meter: "crank meter A" },
      ],
    },
    trainer: { targetW: 182, toleranceW: 8 },
    events: [
      { name: "Whenever", durationS: 7200 },
      { name: "Three Valleys", dateText: "2026-06-14", durationS: 12_600 },
      { name: "Spring Loop", dateText: "2026-04-01", durationS: 9000 },
    ],
  };
  const athlete = parseAthlete(JSON.stringify(form), "athlete.json");
  const on = (day: string) => Date.parse(`${day}T09:00:00Z`);

  it("are chosen by setting and day; a trainer target without a day holds on any", () => {
    expect(targetFor(athlete, "road", on("2026-05-20"))).toMatchObject({ targetW: 190, date: "2026-05-01" });
    expect(targetFor(athlete, "road", on("2026-05-01"))?.targetW).toBe(190);
    expect(targetFor(athlete, "group", on("2026-04-20"))).toMatchObject({ targetW: 180, toleranceW: 10 });
    expect(targetFor(athlete, "trainer", on("2020-05-20"))?.targetW).toBe(182);
    expect(targetFor(athlete, "road", null)?.targetW).toBe(190);
    expect(targetFor(athlete, "road", on("2025-05-20"))).toBeNull();
    const undated = { ...athlete, road: { ...athlete.road, foundDate: null } };
    expect(targetFor(undated, "road", on("2026-02-01"))?.targetW).toBe(190);
    expect(targetFor(undated, "road", on("2026-01-01"))).toBeNull();
  });

  // Eight weeks: common practice, no source.
  it("are said when older than 8 weeks, from another meter, or all of them found later", () => {
    expect(targetWarnings(athlete, "road", on("2026-05-20"), 190)).toEqual([]);
    expect(targetWarnings(athlete, "road", on("2026-06-26"), 190)).toEqual([]);
    expect(said(targetWarnings(athlete, "road", on("2026-06-28"), 190)).join()).toMatch(/8 weeks before/);
    const old = said(targetWarnings(athlete, "road", on("2026-04-20"), 180));
    expect(old[0]).toMatch(/180 W \(two steady hours\) is from 2026-01-10, 14 weeks before/);
    expect(old[1]).toMatch(/crank meter A; now crank meter B/);
    expect(targetWarnings(athlete, "road", on("2026-04-20"), 205)).toEqual([]);
    expect(said(targetWarnings(athlete, "road", on("2025-05-20"), null)).join()).toMatch(/found after this ride/);
  });

  it("stand where the plan says nothing, with the next event, the units and the meter's offset", () => {
    const usual = athletePlan(athlete, "road", on("2026-05-20"));
    expect(usual).toMatchObject({
      rider: "Ida",
      targetW: 190,
      toleranceW: 12,
      meterOffsetW: 3,
      units: "imperial",
      eventName: "Three Valleys",
      eventS: 12_600,
    });
    expect(athletePlan(athlete, "road", on("2026-03-20")).eventName).toBe("Spring Loop");
    expect(athletePlan(athlete, "trainer", on("2026-07-20"))).toMatchObject({
      targetW: 182,
      toleranceW: 8,
      meterOffsetW: 0,
      eventName: "Whenever",
    });
    const january = athletePlan(athlete, "road", on("2026-02-20"));
    expect(parsePlan({}, "plan.json", january)).toEqual(january);
    expect(parsePlan({ target: 200 }, "plan.json", january)).toMatchObject({ targetW: 200, toleranceW: 12 });
    expect(parsePlan({ range: [170, 180] }, "plan.json", january)).toMatchObject({ targetW: 175, toleranceW: 5 });
    expect(parsePlan({ heartBand: [120, 135] }, "plan.json", january)).toMatchObject({
      targetW: null,
      toleranceW: null,
      heartLowBpm: 120,
    });
    expect(
      parsePlan({ event: { duration: "5 h" }, units: "metric", meterOffset: 0 }, "plan.json", january),
    ).toMatchObject({ eventName: null, eventS: 18_000, units: "metric", meterOffsetW: 0 });
  });

  it("that are wrong, and keys that are not known, are named", () => {
    const saidOf = (value: unknown) => refused(() => parseAthlete(JSON.stringify(value), "ida/athlete.json"));
    expect(saidOf({ name: "Ida", road: { earlier: [{ date: "May", targetW: 180 }] } })).toMatch(
      /ida\/athlete\.json.*road\.earlier\.0\.date/,
    );
    expect(saidOf({ name: "Ida", target: 180 })).toMatch(/"target"/);
  });
});
