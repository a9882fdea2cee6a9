import { describe, expect, it } from "vitest";
import { Failure } from "../../main/contract/failure.ts";
import { parseDurationS } from "../../main/reading/plan/duration.ts";
import { parseAthlete, targetFor } from "../../main/reading/plan/parseAthlete.ts";
import { defaultPlan, parsePlan } from "../../main/reading/plan/parsePlan.ts";
import { planHelp } from "../../main/reading/plan/planHelp.ts";

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

  it.each(["", "soon", "-5", "1:75:00", "10:99", "h", Number.NaN, -1])("refuses %s", (text) => expect(parseDurationS(text)).toBeNull());
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
    expect(plan).toMatchObject({ targetW: 185, toleranceW: 12, warmUpS: 600, coolDownS: 600, eventS: 12600, meterOffsetW: 8 });
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
    [{ blocks: [{ from: 0, to: 20 }, { from: 10, to: 30 }] }, "blocks"],
    [{ excuses: ["tired"] }, "excuses"],
    [{ setting: "velodrome" }, "setting"],
    [[], "whole"],
    [null, "whole"],
    ["text", "whole"],
  ])("that is wrong names the file, the key and the remedy: %j", (json, key) => {
    const failure = failureOf(json);
    expect(failure.code).toBe("plan-not-valid");
    expect(failure.sentence).toContain("long ride.json");
    expect(failure.sentence).toContain(key);
    expect(failure.remedy).toContain("plan --help");
  });

  it("has every key in its help", () => {
    for (const key of ["title", "rider", "setting", "target", "tolerance", "range", "heartBand", "warmUp", "coolDown", "blocks", "event", "floor", "excuses", "limits", "meterOffset", "units", "note"]) {
      expect(planHelp).toContain(`"${key}"`);
    }
    const example = /Example:\s+(\{[\s\S]*\})/.exec(planHelp)?.[1] ?? "";
    expect(parsePlan(JSON.parse(example), "example").targetW).toBe(185);
  });
});

describe("an athlete's dated targets", () => {
  const athlete = parseAthlete(
    {
      name: "Ida",
      meter: "crank meter B",
      homeZone: { anything: true },
      targets: [
        { date: "2026-01-10", target: 180, source: "test", meter: "crank meter A" },
        { date: "2026-05-01", target: 190, meter: "crank meter B" },
        { date: "2026-04-01", setting: "trainer", target: 182, tolerance: 8 },
      ],
      events: [{ name: "Three Valleys", duration: "3 h 30" }],
    },
    "athlete.json",
  );
  const on = (day: string) => Date.parse(`${day}T09:00:00Z`);

  it("are chosen by setting and day", () => {
    expect(targetFor(athlete, "road", on("2026-05-20")).target?.targetW).toBe(190);
    expect(targetFor(athlete, "group", on("2026-05-20")).target?.targetW).toBe(190);
    expect(targetFor(athlete, "trainer", on("2026-05-20")).target?.targetW).toBe(182);
    expect(targetFor(athlete, "road", on("2025-05-20")).target).toBeNull();
  });

  it("are said when older than 8 weeks or from another meter", () => {
    expect(targetFor(athlete, "road", on("2026-05-20")).warnings).toEqual([]);
    const old = targetFor(athlete, "road", on("2026-04-20")).warnings;
    expect(old.some((warning) => warning.includes("weeks before"))).toBe(true);
    expect(old.some((warning) => warning.includes("another meter"))).toBe(true);
  });

  it("that are wrong name the key", () => {
    expect(() => parseAthlete({ targets: [{ date: "May", target: 180 }] }, "athlete.json")).toThrow(/targets\.0\.date/);
  });
});
