// Numbers that decide what an athlete is told, each from both sides: written out here, not read from where they are set.
import { describe, expect, it } from "vitest";
import { freeRollDecelerationMps2, middlingRider } from "../../main/maths/roadPower.ts";
import { defaultPlan } from "../../main/reading/plan/parsePlan.ts";
import { read } from "../../main/reading/read.ts";
import { rideOf, rollFree, set, steadyColumns, type Columns } from "./testRides.ts";

const planAt = (targetW: number) => defaultPlan({ targetW, toleranceW: 12, warmUpS: 600, coolDownS: 300 });
const plan = planAt(185);

/** The reading of a steady hour with what a test changes. */
function reading(change: (columns: Columns) => void, by = plan, watts = 185) {
  const columns = steadyColumns(3600, watts);
  change(columns);
  return read(rideOf(columns), by, []);
}

/** The cranks at rest over a span, rolling free on the level. */
function coast(columns: Columns, fromS: number, toS: number): void {
  set(columns.powerW, fromS, toS, 0);
  set(columns.cadenceRpm, fromS, toS, 0);
  rollFree(columns, fromS, toS);
}

const kinds = (kind: string, change: (columns: Columns) => void, by = plan) =>
  reading(change, by).moments.filter((moment) => moment.kind === kind);

describe("pressure", () => {
  it("is gone below 20 W, or a tenth of the target where that is more", () => {
    const breaks = (watts: number, targetW: number) =>
      reading((c) => set(c.powerW, 1500, 1512, watts), planAt(targetW), targetW).breaks.length;
    expect([breaks(19, 185), breaks(21, 185)]).toEqual([1, 0]);
    expect([breaks(29, 300), breaks(31, 300)]).toEqual([1, 0]);
  });

  it("is back from 30 W on, or 15 % of the target where that is more", () => {
    const lengthS = (watts: number, targetW: number) => {
      const [one] = reading(
        (c) => {
          set(c.powerW, 1500, 1505, 0);
          set(c.powerW, 1505, 1515, watts);
        },
        planAt(targetW),
        targetW,
      ).breaks;
      return one!.endS - one!.startS;
    };
    expect([lengthS(29, 185), lengthS(31, 185)]).toEqual([15, 5]);
    expect([lengthS(44, 300), lengthS(46, 300)]).toEqual([15, 5]);
  });

  it("that is gone for 3 s is a break, for 10 s a lapse, and two are one with a second between them", () => {
    const breaks = (seconds: number) => reading((c) => coast(c, 1500, 1500 + seconds)).breaks;
    expect(breaks(2)).toHaveLength(0);
    expect(breaks(3)).toHaveLength(1);
    expect(breaks(9)).toMatchObject([{ lapse: false }]);
    expect(breaks(10)).toMatchObject([{ lapse: true }]);
    const apart = (seconds: number) =>
      reading((c) => {
        set(c.powerW, 1500, 1505, 0);
        set(c.powerW, 1505 + seconds, 1510 + seconds, 0);
      }).breaks.length;
    expect([apart(1), apart(2)]).toEqual([1, 2]);
  });

  it("is not lost in a sample or two while the cranks turn at more than 40, and is over with a value held for 3 s", () => {
    const offS = (seconds: number, rpm: number) =>
      reading((c) => {
        set(c.powerW, 1500, 1500 + seconds, 0);
        set(c.cadenceRpm, 1500, 1500 + seconds, rpm);
      }).pressure.offS;
    expect([offS(2, 41), offS(2, 39), offS(3, 41)]).toEqual([0, 2, 3]);
    const startS = (heldS: number) =>
      reading((c) => {
        coast(c, 1500, 1520);
        set(c.powerW, 1500, 1500 + heldS, 185);
      }).breaks[0]!.startS;
    expect([startS(3), startS(4)]).toEqual([1500, 1501]);
  });

  it("lasts unbroken over an excused break of 30 s, over no longer one", () => {
    const unbroken = (change: (columns: Columns) => void) => reading(change).pressure.longestUnbrokenS;
    const stop = (seconds: number) => (c: Columns) => {
      set(c.powerW, 1500, 1500 + seconds, 0);
      set(c.cadenceRpm, 1500, 1500 + seconds, 0);
      set(c.speedMps, 1500, 1500 + seconds, 1.4);
    };
    expect([unbroken(stop(30)), unbroken(stop(31))]).toEqual([2700, 1769]);
  });
});

describe("a hole in the data", () => {
  it("of 3 s ends no unbroken stretch, a longer one does", () => {
    const unbroken = (holeS: number) =>
      reading((c) => set(c.powerW, 1500, 1500 + holeS, NaN)).pressure.longestUnbrokenS;
    expect([unbroken(3), unbroken(4)]).toEqual([2700, 1796]);
  });
});

describe("what the road excuses", () => {
  const reasonOf = (fromS: number, toS: number, change: (columns: Columns) => void) =>
    reading((c) => {
      coast(c, fromS, toS);
      change(c);
    }).breaks[0]?.reason;

  it("braking slows down by 0.4 m/s2 more than rolling free does", () => {
    const slowing = (moreMps2: number) =>
      reasonOf(1500, 1508, (c) => {
        let mps = 9;
        set(c.speedMps, 1500, 1508, () => (mps -= freeRollDecelerationMps2(middlingRider, mps, 0) + moreMps2));
        set(c.speedMps, 1508, 1540, mps);
      });
    expect(slowing(0.34)).not.toBe("braking");
    expect(slowing(0.46)).toBe("braking");
  });

  it("a turn is a corner at 30 m, at 1.5 m/s2 to the side, and at any width from 90 degrees on", () => {
    const corner = (degrees: number, mps: number, overS: number) =>
      reasonOf(1500, 1508, (c) => {
        set(c.speedMps, 1470, 1540, mps);
        rollFree(c, 1500, 1508, mps);
        set(c.courseDeg, 1502, 1502 + overS, (s) => 90 + (degrees * (s - 1501)) / overS);
        set(c.courseDeg, 1502 + overS, 3600, 90 + degrees);
      }) === "corner";
    // 60 degrees at 4 m/s in 6 s have a radius of 23 m, in 10 s one of 38 m.
    expect([corner(60, 4, 6), corner(60, 4, 10)]).toEqual([true, false]);
    // At 9 m/s in 5 s 1.9 m/s2, in 8 s 1.2 m/s2.
    expect([corner(60, 9, 5), corner(60, 9, 8)]).toEqual([true, false]);
    expect([corner(96, 5.6, 10), corner(86, 5.6, 10)]).toEqual([true, false]);
  });

  it("a stop is one from 2 s on, and excuses the 10 s after it", () => {
    const after = (waitS: number) =>
      reading((c) => {
        set(c.powerW, 1500, 1530, 0);
        set(c.speedMps, 1500, 1530, 0);
        coast(c, 1530 + waitS, 1536 + waitS);
      }).breaks.at(-1)!.reason;
    expect([after(6), after(9)]).toEqual(["stopped", "unexplained"]);
    const stands = (seconds: number) => reasonOf(1500, 1506, (c) => set(c.speedMps, 1510, 1510 + seconds, 0));
    expect([stands(1), stands(2)]).toEqual(["unexplained", "stopped"]);
  });
});

describe("how long the heart held", () => {
  it("is told where power over the last reading is within a tenth of that over the first", () => {
    const steady = (share: number) => {
      const columns = steadyColumns(7200);
      set(columns.powerW, 5400, 7200, 185 * share);
      return read(rideOf(columns), plan, []).target.held?.kind !== "not steady";
    };
    expect([steady(0.91), steady(0.89)]).toEqual([true, false]);
    expect([steady(1.09), steady(1.11)]).toEqual([true, false]);
  });
});

describe("a heart level that is unusual", () => {
  const columns = steadyColumns(3600);
  const odd = (bpm: number, rides = 5, powerW = 185) =>
    read(
      rideOf(columns),
      plan,
      [],
      Array.from({ length: rides }, () => ({ firstBpm: bpm, powerW })),
    ).moments.filter(({ kind }) => kind === "oddHeart").length;

  it("lies 12 beats from that of five rides at power within 12 W", () => {
    expect([odd(124 - 11), odd(124 - 13)]).toEqual([0, 1]);
    expect([odd(124 + 11), odd(124 + 13)]).toEqual([0, 1]);
    expect([odd(100, 4), odd(100, 5)]).toEqual([0, 1]);
    expect([odd(100, 5, 198), odd(100, 5, 196)]).toEqual([0, 1]);
  });
});

describe("a target that looks wrong", () => {
  const doubted = (change: (columns: Columns) => void, by = plan) => reading(change, by).targetDoubt !== null;

  it("lies 30 % above the ride's power or 40 % below it", () => {
    const at = (share: number) => doubted((c) => set(c.powerW, 0, 3600, 185 * share));
    expect([at(0.71), at(0.69)]).toEqual([false, true]);
    expect([at(1.39), at(1.41)]).toEqual([false, true]);
  });

  it("lies more than 15 beats from the heart's mean", () => {
    const heart = { ...defaultPlan({ warmUpS: 600, coolDownS: 300 }), heartLowBpm: 100, heartHighBpm: 110 };
    const at = (bpm: number) => {
      const columns = steadyColumns(3600);
      set(columns.heartRateBpm, 0, 3600, (s) => bpm + [0, -1, 0, 1][s % 4]!);
      return read(rideOf({ ...columns, powerW: [] }), heart, []).targetDoubt !== null;
    };
    expect([at(124), at(126)]).toEqual([false, true]);
    expect([at(86), at(84)]).toEqual([false, true]);
  });

  it("is told from 10 minutes on", () => {
    const short = (seconds: number) =>
      read(
        rideOf(steadyColumns(seconds, 100)),
        defaultPlan({ targetW: 185, toleranceW: 12, warmUpS: 60, coolDownS: 60 }),
        [],
      ).targetDoubt !== null;
    expect([short(715), short(725)]).toEqual([false, true]);
  });
});

describe("moments", () => {
  it("three breaks in five minutes are a run", () => {
    const runs = (startsS: readonly number[]) =>
      kinds("breakRun", (c) => startsS.forEach((s) => coast(c, s, s + 5))).length;
    expect(runs([1500, 1600])).toBe(0);
    expect(runs([1500, 1600, 1794])).toBe(1);
    expect(runs([1500, 1600, 1800])).toBe(0);
  });

  it("cadence 15 above or below the ride's own for two minutes is one", () => {
    // Of 2700 s counted, so that the block itself moves the mean by less than one.
    const blocks = (rpm: number, seconds: number) =>
      kinds("cadenceBlock", (c) => set(c.cadenceRpm, 1500, 1500 + seconds, rpm)).length;
    expect([blocks(88 + 15, 160), blocks(88 + 17, 160)]).toEqual([0, 1]);
    expect([blocks(88 - 15, 160), blocks(88 - 17, 160)]).toEqual([0, 1]);
    expect([blocks(120, 114), blocks(120, 124)]).toEqual([0, 1]);
  });

  it("ten minutes without a break are one, mostly in the band", () => {
    const held = (seconds: number) =>
      kinds("steadyStretch", (c) => {
        for (let s = 700; s < 3300; s += seconds + 5) coast(c, s, s + 5);
      }).length;
    expect([held(595), held(605)]).toEqual([0, 1]);
    const inBand = (share: number) =>
      kinds("steadyStretch", (c) => set(c.powerW, 600, 600 + Math.round(2700 * (1 - share)), 150)).length;
    expect([inBand(0.66), inBand(0.74)]).toEqual([0, 1]);
  });

  it("a lap pressed by hand is shown from 20 s before to 10 s after", () => {
    const lap = { startS: 0, endS: 1700, trigger: "manual" as const };
    const ride = rideOf(steadyColumns(3600), { laps: [lap] });
    const [one] = read(ride, plan, []).moments.filter(({ kind }) => kind === "marked");
    expect(one).toMatchObject({ startS: 1680, endS: 1710 });
  });

  it("above the plan on three rises of 8 m, and no pressure within a minute of their tops", () => {
    const rolling =
      ({ times = 3, riseM = 12, waitS = 20, coastS = 8, percent = 4 }) =>
      (c: Columns) => {
        for (let n = 0; n < times; n++) {
          const s0 = 900 + n * 500;
          const lengthS = Math.round((100 * riseM) / percent / 6);
          set(c.altitudeM, s0, 3600, (s) => c.altitudeM[s0 - 1]! + Math.min(riseM, ((s - s0) * riseM) / lengthS));
          set(c.speedMps, s0, s0 + lengthS, 6);
          set(c.powerW, s0, s0 + lengthS, 260);
          coast(c, s0 + lengthS + waitS, s0 + lengthS + waitS + coastS);
        }
      };
    const told = (of: Parameters<typeof rolling>[0]) => kinds("riseThenOff", rolling(of)).length;
    expect(told({})).toBe(1);
    expect(told({ times: 2 })).toBe(0);
    expect([told({ waitS: 45 }), told({ waitS: 75 })]).toEqual([1, 0]);
    expect([told({ coastS: 5 }), told({ coastS: 4 })]).toEqual([1, 0]);
    expect([told({ riseM: 10 }), told({ riseM: 7 })]).toEqual([1, 0]);
    expect([told({ percent: 2.6 }), told({ percent: 1.7 })]).toEqual([1, 0]);
  });
});
