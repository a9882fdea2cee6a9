import { describe, expect, it } from "vitest";
import { type Override, PressureState } from "../../main/contract/reading.ts";
import { read } from "../../main/reading/read.ts";
import { defaultPlan } from "../../main/reading/plan/parsePlan.ts";
import { rideOf, rollFree, set, steadyColumns } from "./testRides.ts";

const plan = defaultPlan({ targetW: 185, toleranceW: 12, warmUpS: 600, coolDownS: 600 });

const trafficAt = (startS: number, endS: number | null, reason: string | null): Override => ({
  what: "break",
  startS,
  endS,
  set: { coach: "traffic" },
  reason,
});

describe("what the coach overrules", () => {
  const columns = steadyColumns(5400);
  set(columns.powerW, 1500, 1530, 0);
  rollFree(columns, 1500, 1530);
  const ride = rideOf(columns);

  it("gives a break its reason, keeps the computed one and recomputes what depends on it", () => {
    const before = read(ride, plan, []);
    expect(before.pressure.lapses).toBe(1);
    const reading = read(ride, plan, [trafficAt(1500, 1530, "lorry")]);
    expect(reading.breaks[0]).toMatchObject({
      reason: { coach: "traffic" },
      excused: true,
      lapse: false,
      setBy: "coach",
    });
    expect(reading.pressure.lapses).toBe(0);
    expect(reading.pressure.excusedOffS).toBe(30);
    expect(reading.pressure.longestUnbrokenS).toBeGreaterThan(before.pressure.longestUnbrokenS);
    expect(reading.moments.some((moment) => moment.kind === "lapse")).toBe(false);
    expect(reading.columns.pressureState[1510]).toBe(PressureState.offExcused);
    expect(reading.overrides).toEqual([
      { ...trafficAt(1500, 1530, "lorry"), computed: "unexplained", at: { startS: 1500, endS: 1530 } },
    ]);
    expect(reading.unsureOverrides).toEqual([]);
  });

  it("moves readings, onset and counted part", () => {
    const reading = read(ride, plan, [
      { what: "counted", set: { startS: 900, endS: 5000 }, reason: null },
      { what: "first", set: 2400, reason: null },
      { what: "onset", set: 3600, reason: "seen on the road" },
    ]);
    expect(reading.counted).toMatchObject({ source: "coach", startS: 900, endS: 5000 });
    expect(reading.drift).toMatchObject({ firstAtS: 2400, onsetS: 3600, verdict: "began" });
    expect(reading.moments.find((moment) => moment.kind === "driftOnset")?.setBy).toBe("coach");
    expect(reading.overrides.find((one) => one.what === "counted")?.computed).toEqual({ startS: 600, endS: 4800 });
    expect(reading.overrides.find((one) => one.what === "first")?.computed).toBe(1350);
  });

  it("that names nothing of this ride is asked about or said, and left out", () => {
    const gone = trafficAt(3000, null, null);
    const reading = read(ride, plan, [gone, { what: "counted", set: { startS: 900, endS: 900 }, reason: null }]);
    expect(reading.overrides).toEqual([]);
    expect(reading.unsureOverrides).toEqual([{ override: gone, among: [] }]);
    expect(reading.warnings.map(({ code }) => code).filter((code) => code.startsWith("override"))).toEqual([
      "override-without-time",
    ]);
  });

  describe("a reason whose break is read otherwise now", () => {
    const reasons = (override: Override) => {
      const cut = steadyColumns(5400);
      for (const [fromS, toS] of [
        [1500, 1518],
        [1524, 1540],
        [2000, 2008],
        [2600, 2640],
      ])
        set(cut.powerW, fromS!, toS!, 0);
      const { breaks, unsureOverrides } = read(rideOf(cut), plan, [override]);
      return {
        excused: breaks.filter(({ setBy }) => setBy === "coach").map(({ startS, endS }) => [startS, endS]),
        unsure: unsureOverrides.map(({ among }) => among.map((index) => breaks[index]!.startS)),
      };
    };

    it.each([
      ["moved by seconds", trafficAt(2005, 2013, null), [[2000, 2008]]],
      [
        "cut in parts: each takes it",
        trafficAt(1500, 1540, null),
        [
          [1500, 1518],
          [1524, 1540],
        ],
      ],
      ["known by its start alone", trafficAt(2601, null, null), [[2600, 2640]]],
    ])("%s", (_, override, excused) => expect(reasons(override)).toEqual({ excused, unsure: [] }));

    it("became part of a much longer one, or went: it excuses nothing and is asked about", () => {
      expect(reasons(trafficAt(2610, 2614, null))).toEqual({ excused: [], unsure: [[2600]] });
      expect(reasons(trafficAt(2030, 2040, null))).toEqual({ excused: [], unsure: [[2000]] });
      expect(reasons(trafficAt(4000, 4010, null))).toEqual({ excused: [], unsure: [[]] });
    });
  });
});
