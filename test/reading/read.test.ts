import { describe, expect, it } from "vitest";
import { type Override, PressureState } from "../../main/contract/reading.ts";
import { read } from "../../main/reading/read.ts";
import { readingJson } from "../../main/reading/readingJson.ts";
import { rideColumns } from "../../main/reading/rideColumns.ts";
import { defaultPlan, parsePlan } from "../../main/reading/plan/parsePlan.ts";
import { targetReading } from "../../main/reading/target.ts";
import { makeRide } from "../support/makeRide.ts";
import { heartRipple, rideOf, rollFree, set, steadyColumns } from "./testRides.ts";
import { heldText } from "../../overlay/words/reading/driftWords.ts";

const plan = defaultPlan({ targetW: 185, toleranceW: 12, warmUpS: 600, coolDownS: 600 });

// Common practice, no source: the trade's own facts.
describe("trade facts", () => {
  it("the first reading after a 10 min warm-up falls in minute 20 to 25", () => {
    const { drift } = read(rideOf(steadyColumns(5400)), plan, []);
    expect(drift.firstAtS).toBeGreaterThanOrEqual(20 * 60);
    expect(drift.firstAtS).toBeLessThanOrEqual(25 * 60);
  });

  it("a 2 h event asks for 2 h 24 at least and 2 h 30 as aim; an 8 h one is capped at 4 h and 5 h", () => {
    const ride = read(rideOf(steadyColumns(5400)), plan, []);
    expect(targetReading(defaultPlan({ eventS: 7200 }), ride.drift, null, true)).toMatchObject({
      minimumS: 8640,
      aimS: 9000,
    });
    expect(targetReading(defaultPlan({ eventS: 28800 }), ride.drift, null, true)).toMatchObject({
      minimumS: 14400,
      aimS: 18000,
    });
  });

  it("what was held is told as the coach would: of the whole ride, of a part between long stops, and with two readings that differ", () => {
    const { drift } = read(rideOf(steadyColumns(5400)), plan, []);
    const none = { ...drift, verdict: "no drift shown", driftBeats: 1, uncertaintyBeats: 3 } as const;
    const stretch = { startS: 600, endS: 600 + 72 * 60 };
    expect(targetReading(plan, none, stretch, true)).toMatchObject({
      heldLowS: 4320,
      heldHighS: null,
      held: { kind: "to the end", leastS: 4320, whole: true, yetApart: false },
    });
    expect(heldText(targetReading(plan, none, stretch, false).held, "en")).toBe(
      "at least 1 h 12, the part between long stops was no longer",
    );
    expect(heldText(targetReading(plan, { ...none, driftBeats: 5, isShown: true }, stretch, true).held, "en")).toMatch(
      /the two readings differ all the same$/,
    );
    // Readings that differ by chance by 41 beats show nothing held; a coach who was there may say so all the same.
    const blind = { ...none, uncertaintyBeats: 41 };
    expect(targetReading(plan, blind, stretch, true)).toMatchObject({
      heldLowS: null,
      heldHighS: null,
      held: { kind: "unknown", blindBeats: 41 },
    });
    expect(targetReading(plan, blind, stretch, true, true).heldLowS).toBe(4320);
  });

  // Common practice, no source: how long a heart held is judged at a steady power, most of it in the band.
  describe("what was held is told of a steady ride alone", () => {
    const heldOf = (watts: (s: number) => number, beats: (s: number) => number = () => 0) => {
      const columns = steadyColumns(7200);
      set(columns.powerW, 0, 7200, watts);
      set(columns.heartRateBpm, 0, 7200, (s) => Math.round(124 + heartRipple(s) + beats(s)));
      const { target } = read(rideOf(columns), plan, []);
      return { text: heldText(target.held, "en"), lowS: target.heldLowS };
    };
    it.each([
      ["at the planned power", () => 185, () => 0, /^at least 1 h 40, the main part was no longer$/],
      ["60 W above the plan", () => 245, () => 0, /not steady enough to tell: less than half of the main part/],
      [
        "easier at the end",
        (s: number) => (s < 5400 ? 185 : 140),
        (s: number) => (s < 5400 ? 0 : -11),
        /not steady enough to tell: power was 4\d W lower over the last reading/,
      ],
      [
        "with a heart that falls at the same power",
        () => 185,
        (s: number) => (s < 4000 ? 0 : -14),
        /not steady enough to tell: the heart fell by 14 beats/,
      ],
    ] as const)("%s", (_, watts, beats, said) => {
      const { text, lowS } = heldOf(watts, beats);
      expect(text).toMatch(said);
      expect(lowS === null).toBe(text.startsWith("this ride was not steady"));
    });
  });

  it("a short stop is passed over by the unbroken stretch, a long one ends it", () => {
    const stopped = (seconds: number) => {
      const columns = steadyColumns(5400);
      for (const column of [columns.speedMps, columns.powerW, columns.cadenceRpm]) set(column, 2400, 2400 + seconds, 0);
      return read(rideOf(columns), plan, []).pressure.longestUnbrokenS;
    };
    expect([stopped(20), stopped(120)]).toEqual([4200, 4800 - 2520]);
  });

  it("a stretch held without a target has no share of a band", () => {
    const columns = steadyColumns(5400);
    const share = (of: typeof plan) =>
      read(rideOf(columns), of, []).moments.find(({ kind }) => kind === "steadyStretch")?.numbers.inBandPercent;
    expect(share(plan)).toBeGreaterThan(70);
    expect(share(defaultPlan())).toBeNull();
  });

  it("124 to 133 beats is a rise of 9 beats and 7.3 %", () => {
    const columns = steadyColumns(7200);
    set(columns.heartRateBpm, 3000, 7200, (s) => Math.min(133, 124 + (s - 3000) / 300) + heartRipple(s));
    const { drift } = read(rideOf(columns), plan, []);
    expect(drift.firstBpm).toBeCloseTo(124, 9);
    expect(drift.lastBpm).toBeCloseTo(133, 9);
    expect(drift.riseBeats).toBeCloseTo(9, 9);
    expect(drift.risePercent?.toFixed(1)).toBe("7.3");
  });

  it("a trainer that reads 8 W low is put right by the meter offset, and the watts stay as recorded", () => {
    const ride = rideOf(steadyColumns(5400, 168));
    const trainer = { ...plan, setting: "trainer" as const };
    expect(read(ride, trainer, []).pressure.inBandS).toBe(0);
    const reading = read(ride, { ...trainer, meterOffsetW: 8 }, []);
    expect(reading.pressure.inBandS).toBe(4200);
    expect(reading.bandW).toEqual({ low: 165, target: 177, high: 189 });
    expect(rideColumns(ride, reading).power3s?.value[3000]).toBe(168);
  });
});

describe("the counted part", () => {
  const columns = steadyColumns(5400);
  it("is what the plan gives", () => {
    expect(read(rideOf(columns), plan, []).counted).toMatchObject({ source: "plan", startS: 600, endS: 4800 });
  });

  it("is the lap between two presses by hand, never automatic ones", () => {
    const laps = (trigger: "manual" | "auto") => [
      { startS: 0, endS: 900, trigger },
      { startS: 900, endS: 4700, trigger },
      { startS: 4700, endS: 5400, trigger },
    ];
    const bare = defaultPlan();
    expect(read(rideOf(columns, { laps: laps("manual") }), bare, []).counted).toMatchObject({
      source: "laps",
      startS: 900,
      endS: 4700,
    });
    expect(read(rideOf(columns, { laps: laps("auto") }), bare, []).counted.source).toBe("default minutes");
  });

  it("is where power settles into the band", () => {
    const ramp = steadyColumns(5400);
    set(ramp.powerW, 0, 800, 110);
    set(ramp.powerW, 4900, 5400, 100);
    const { counted } = read(rideOf(ramp), defaultPlan({ targetW: 185 }), []);
    expect(counted.source).toBe("settled power");
    expect(Math.abs(counted.startS - 800)).toBeLessThanOrEqual(30);
    expect(Math.abs(counted.endS - 4900)).toBeLessThanOrEqual(30);
  });

  it("is 10 min off either end else", () => {
    expect(read(rideOf(columns), defaultPlan(), []).counted).toMatchObject({
      source: "default minutes",
      startS: 600,
      endS: 4800,
    });
  });

  it("is parted by a stop of more than 5 min and by a planned rest, not by a shorter stop", () => {
    const stop = (lengthS: number) => {
      const stopped = steadyColumns(5400);
      set(stopped.speedMps, 2000, 2000 + lengthS, 0);
      set(stopped.powerW, 2000, 2000 + lengthS, 0);
      return read(rideOf(stopped), plan, []).counted.stretches.length;
    };
    expect(stop(320)).toBe(2);
    expect(stop(280)).toBe(1);
    const rest = parsePlan(
      {
        target: 185,
        blocks: [
          { from: 10, to: 40 },
          { from: 40, to: 45, kind: "rest" },
          { from: 45, to: 80 },
        ],
      },
      "p",
    );
    expect(read(rideOf(columns), rest, []).counted.stretches).toEqual([
      { startS: 600, endS: 2400 },
      { startS: 2700, endS: 4800 },
    ]);
  });
});

describe("breaks and their reasons", () => {
  const off = (
    fromS: number,
    toS: number,
    change: (columns: ReturnType<typeof steadyColumns>) => void = () => undefined,
  ) => {
    const columns = steadyColumns(3600);
    set(columns.powerW, fromS, toS, 0);
    set(columns.cadenceRpm, fromS, toS, 0);
    rollFree(columns, fromS, toS);
    change(columns);
    return columns;
  };
  const short = { ...plan, coolDownS: 300 };

  it("a coast of 20 s on a straight, flat road is unexplained and a lapse", () => {
    // 0.23 m/s2 is how a bicycle rolls out at this speed.
    const reading = read(
      rideOf(
        off(1500, 1520, (c) => {
          set(c.speedMps, 1500, 1520, (s) => 9 - 0.22 * (s - 1500));
          set(c.speedMps, 1520, 1540, (s) => 4.6 + 0.22 * (s - 1520));
        }),
      ),
      short,
      [],
    );
    expect(reading.breaks).toHaveLength(1);
    expect(reading.breaks[0]).toMatchObject({
      reason: "unexplained",
      excused: false,
      lapse: true,
      startS: 1500,
      endS: 1520,
    });
    expect(reading.moments.find((moment) => moment.kind === "lapse")?.numbers["durationS"]).toBe(20);
  });

  it("shorter than 3 s is no break, shorter than 10 s no lapse", () => {
    expect(read(rideOf(off(1500, 1502)), short, []).breaks).toHaveLength(0);
    expect(read(rideOf(off(1500, 1502)), short, []).pressure.offS).toBe(2);
    expect(read(rideOf(off(1500, 1508)), short, []).breaks[0]?.lapse).toBe(false);
  });

  it("rolling up to a standstill is stopped", () => {
    const columns = off(1500, 1530, (c) => {
      set(c.speedMps, 1500, 1510, (s) => 9 * (1 - (s - 1500) / 10));
      set(c.speedMps, 1510, 1530, 0);
      set(c.speedMps, 1530, 1540, (s) => s - 1530);
    });
    expect(read(rideOf(columns), short, []).breaks[0]).toMatchObject({
      reason: "stopped",
      excused: true,
      lapse: false,
    });
  });

  it("a corner excuses the seconds around it, and a long coast before it stays a lapse", () => {
    const corner = (fromS: number) =>
      read(
        rideOf(
          off(fromS, 1509, (c) => {
            // A road that falls by 2 % holds 9 m/s nearly by itself: no slowing into the corner.
            set(c.speedMps, fromS, 1515, 9);
            set(c.altitudeM, 1400, 1515, (s) => 100 - 0.18 * (s - 1400));
            set(c.altitudeM, 1515, 3600, 79.3);
            set(c.courseDeg, 1500, 1506, (s) => 90 + 15 * (s - 1499));
            set(c.courseDeg, 1506, 3600, 180);
          }),
        ),
        short,
        [],
      ).breaks[0];
    expect(corner(1497)).toMatchObject({ reason: "corner", excused: true });
    expect(corner(1460)).toMatchObject({ excused: false, lapse: true });
  });

  it("braking is told from rolling out", () => {
    const slow = (mps2: number) =>
      read(
        rideOf(
          off(1500, 1508, (c) => {
            set(c.speedMps, 1500, 1504, (s) => 9 - mps2 * (s - 1499));
            set(c.speedMps, 1504, 1530, 9 - 4 * mps2);
          }),
        ),
        short,
        [],
      ).breaks[0]?.reason;
    expect(slow(1.5)).toBe("braking");
    expect(slow(0.2)).toBe("unexplained");
  });

  it("a steep, fast descent excuses, a gentle one does not", () => {
    const descent = (percent: number) =>
      read(
        rideOf(
          off(1500, 1540, (c) => {
            set(c.speedMps, 1400, 1600, 13);
            rollFree(c, 1500, 1540, 13, -percent / 100);
            set(c.altitudeM, 1440, 1600, (s) => c.altitudeM[s - 1]! - (c.speedMps[s]! * percent) / 100);
            set(c.altitudeM, 1600, 3600, c.altitudeM[1599]!);
          }),
        ),
        short,
        [],
      ).breaks[0];
    expect(descent(6)).toMatchObject({ reason: "steep descent", excused: true });
    expect(descent(2)).toMatchObject({ excused: false });
  });

  it("without position, speed or altitude nothing is blamed", () => {
    const { powerW, cadenceRpm, heartRateBpm, speedMps } = off(1500, 1530);
    for (const ride of [makeRide({ powerW, cadenceRpm, heartRateBpm }), makeRide({ powerW, cadenceRpm, speedMps })]) {
      const reading = read(ride, short, []);
      expect(reading.breaks[0]).toMatchObject({ reason: "cannot tell", excused: null, lapse: false });
      expect(reading.pressure.cannotTellOffS).toBe(30);
    }
  });

  it("in a group whatever is not excused is cannot tell; on a trainer there are no road excuses", () => {
    const ride = rideOf(off(1500, 1530));
    expect(read(ride, { ...short, setting: "group" }, []).breaks[0]).toMatchObject({
      reason: "cannot tell",
      excused: null,
      lapse: false,
    });
    expect(read(ride, { ...short, setting: "trainer" }, []).breaks[0]).toMatchObject({ reason: "unexplained" });
  });

  it("come from cadence 0 where there is no power, and from nothing where there is neither", () => {
    const columns = off(1500, 1530);
    const ride = rideOf({ ...columns, powerW: [] });
    const reading = read(ride, defaultPlan({ warmUpS: 600, coolDownS: 300 }), []);
    expect(reading.breaks).toHaveLength(1);
    expect(reading.drift.correctedForPower).toBe(false);
    const bare = read(makeRide({ heartRateBpm: columns.heartRateBpm, speedMps: columns.speedMps }), defaultPlan(), []);
    const json = readingJson({}, bare, "en") as { pressure: Record<string, unknown> };
    expect(json.pressure["breaks"]).toBeNull();
    expect(json.pressure["lapses"]).toBeNull();
    expect(json.pressure["offS"]).toBeNull();
    expect(json.pressure["inBandS"]).toBeNull();
  });

  it("a planned rest is none, a planned effort no surge", () => {
    const columns = off(1500, 1560);
    set(columns.powerW, 2000, 2060, 300);
    const blocks = [
      { from: 10, to: 25 },
      { from: 25, to: 26, kind: "rest" },
      { from: 26, to: 33.3 },
      { from: 33.3, to: 34.4, kind: "effort", target: 300 },
      { from: 34.4, to: 55 },
    ];
    const reading = read(rideOf(columns), parsePlan({ target: 185, blocks }, "p"), []);
    expect(reading.breaks).toHaveLength(0);
    expect(reading.surges).toHaveLength(0);
    expect(read(rideOf(columns), short, []).surges).toHaveLength(1);
  });

  it("power just after a stop is pulling away, no surge", () => {
    const columns = off(1500, 1530, (c) => {
      set(c.speedMps, 1500, 1530, 0);
      set(c.powerW, 1530, 1542, 320);
    });
    expect(read(rideOf(columns), short, []).surges).toHaveLength(0);
  });

  it("a sample or two lost with the cranks turning is no break; a held value after they stop is", () => {
    const lost = steadyColumns(3600);
    for (let s = 1500; s < 1560; s += 4) set(lost.powerW, s, s + 2, 0);
    expect(read(rideOf(lost), short, []).breaks).toHaveLength(0);
    const held = steadyColumns(3600);
    set(held.cadenceRpm, 1500, 1508, 0);
    set(held.powerW, 1502, 1508, 0);
    expect(read(rideOf(held), short, []).breaks[0]?.startS).toBe(1500);
  });
});

describe("sums", () => {
  it("of in, below, above, off and unknown are the counted time", () => {
    const columns = steadyColumns(5400);
    for (let s = 0; s < 5400; s++) columns.powerW[s] = 185 + 60 * Math.sin(s / 40) + (s % 97 < 9 ? -400 : 0);
    for (let s = 0; s < 5400; s++) columns.powerW[s] = Math.max(0, columns.powerW[s]!);
    const ride = rideOf(columns, { pauses: [{ startS: 2500, endS: 2600 }], dropPaused: true });
    const { pressure, counted } = read(ride, plan, []);
    const counts = counted.stretches.reduce((sum, stretch) => sum + stretch.endS - stretch.startS, 0);
    expect(pressure.inBandS + pressure.belowS + pressure.aboveS + pressure.offS + pressure.unknownS).toBe(counts);
    expect(pressure.unknownS).toBeGreaterThan(90);
    expect(pressure.longestUnbrokenS).toBeGreaterThanOrEqual(pressure.longestUnbrokenStrictS);
  });

  it("the state column tells the same as the sums", () => {
    const columns = steadyColumns(3600);
    set(columns.powerW, 1500, 1530, 0);
    rollFree(columns, 1500, 1530);
    const reading = read(rideOf(columns), plan, []);
    let off = 0;
    for (let s = 600; s < 3000; s++) if ([1, 2, 3].includes(reading.columns.pressureState[s]!)) off++;
    expect(off).toBe(reading.pressure.offS);
    expect(reading.columns.pressureState[1510]).toBe(PressureState.off);
  });
});

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
