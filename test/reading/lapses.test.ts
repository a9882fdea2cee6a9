// What excuses a loss of pressure, second by second, on made rides.
import { describe, expect, it } from "vitest";
import type { Ride } from "../../main/contract/ride.ts";
import { middlingRider, steadySpeedMps } from "../../main/maths/roadPower.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { read } from "../../main/reading/read.ts";
import { rideOf, rollFree, set, steadyColumns, type Columns } from "./testRides.ts";

const plan = defaultPlan({ targetW: 185, toleranceW: 12, warmUpS: 600, coolDownS: 300 });

/** A steady ride whose cranks stand still over a span, with what else a test changes. */
function coasting(fromS: number, toS: number, change: (columns: Columns) => void = () => undefined): Ride {
  const columns = steadyColumns(3600);
  set(columns.powerW, fromS, toS, 0);
  set(columns.cadenceRpm, fromS, toS, 0);
  change(columns);
  return rideOf(columns);
}

const told = (ride: Ride) =>
  read(ride, plan, []).breaks.map(({ startS, endS, reason, lapse }) => ({ startS, endS, reason, lapse }));

describe("a loss of pressure is judged second by second", () => {
  it("one that rolls out to a standstill is a stop from where it slows, and nobody's lapse", () => {
    // 70 s from 9 m/s down to a stand: rolled, not braked, and longer than any fixed seconds before a stop.
    const ride = coasting(1500, 1600, (c) => {
      rollFree(c, 1500, 1580, 9, 0.004);
      set(c.speedMps, 1580, 1600, 0);
    });
    expect(told(ride)).toEqual([{ startS: 1500, endS: 1600, reason: "stopped", lapse: false }]);
  });

  it("one at speed that ends in a stop is a lapse only as long as nothing explains it", () => {
    const ride = coasting(1500, 1580, (c) => {
      // Falls by 2 %, which holds 9 m/s nearly by itself.
      set(c.altitudeM, 1440, 1540, (s) => 100 - 0.18 * (s - 1440));
      set(c.altitudeM, 1540, 3600, 82);
      set(c.speedMps, 1540, 1560, (s) => 9 - 0.45 * (s - 1540));
      set(c.speedMps, 1560, 1580, 0);
    });
    const [lapse, stop] = told(ride);
    expect(lapse).toMatchObject({ startS: 1500, reason: "unexplained", lapse: true });
    expect(lapse!.endS).toBeGreaterThanOrEqual(1533);
    expect(lapse!.endS).toBeLessThanOrEqual(1545);
    expect(stop).toEqual({ startS: lapse!.endS, endS: 1580, reason: "stopped", lapse: false });
  });

  it("crawling below 6 km/h and rolling into it is no lapse", () => {
    const ride = coasting(1500, 1560, (c) => set(c.speedMps, 1490, 1570, 1.5));
    expect(told(ride).every(({ lapse }) => !lapse)).toBe(true);
    const into = coasting(1500, 1560, (c) => {
      set(c.speedMps, 1500, 1530, (s) => 7 - 0.185 * (s - 1500));
      set(c.speedMps, 1530, 1570, 1.5);
    });
    expect(told(into)).toEqual([{ startS: 1500, endS: 1560, reason: "stopped", lapse: false }]);
  });

  it("a U-turn on a wide road excuses the slowing into it", () => {
    const ride = coasting(1500, 1530, (c) => {
      set(c.speedMps, 1500, 1518, (s) => 8 - 0.25 * (s - 1500));
      set(c.speedMps, 1518, 1535, 3.5);
      set(c.courseDeg, 1519, 1529, (s) => 90 + 18 * (s - 1518));
      set(c.courseDeg, 1529, 3600, 270);
    });
    expect(told(ride)).toEqual([{ startS: 1500, endS: 1530, reason: "corner", lapse: false }]);
  });

  // Free-roll speed by Martin et al., J Appl Biomech 1998;14:276-291: 44 km/h at -4 %, 55 km/h at -6 %.
  it("a steep descent excuses where rolling free is about as fast as pressing on the level, at any speed", () => {
    expect(Math.round(3.6 * steadySpeedMps(middlingRider, 0, -0.04))).toBe(44);
    expect(Math.round(3.6 * steadySpeedMps(middlingRider, 0, -0.06))).toBe(55);
    const down = (percent: number, mps: number) =>
      told(
        coasting(1500, 1540, (c) => {
          set(c.speedMps, 1400, 1600, mps);
          set(c.altitudeM, 1440, 1600, (s) => 100 - (mps * (s - 1440) * percent) / 100);
          set(c.altitudeM, 1600, 3600, 100 - (mps * 160 * percent) / 100);
        }),
      );
    // Held back at 28 km/h down 6 %: the brakes, not the legs, set the speed.
    expect(down(6, 7.8)).toEqual([{ startS: 1500, endS: 1540, reason: "steep descent", lapse: false }]);
    expect(down(4, 9)).toMatchObject([{ reason: "steep descent" }]);
    // 2 % is ridden, not rolled: free roll stays at 28 km/h.
    expect(down(2, 9)).toMatchObject([{ reason: "unexplained", lapse: true }]);
    // Over a top at 20 km/h on 3 %, rolling free takes more than 20 s to get going: no steep descent, but the road carries.
    expect(down(3, 5.5)).toMatchObject([{ reason: "cannot tell", lapse: false }]);
  });

  // A bicycle that nobody presses slows down on the level: by 4.6 m/s from 9 m/s in 40 s (Martin et al., as above).
  it("where the speed stays up or rises against the road, nobody can tell", () => {
    const at = (change: (columns: Columns) => void) => told(coasting(1500, 1520, change));
    const cannotTell = [{ startS: 1500, endS: 1520, reason: "cannot tell", lapse: false }];
    // 29 km/h held for 20 s: a wheel ahead, a wind behind, or a meter that drops out.
    expect(at((c) => set(c.speedMps, 1450, 1550, 8))).toEqual(cannotTell);
    // Gathers speed up a climb of 4.8 %.
    expect(
      at((c) => {
        set(c.speedMps, 1400, 1500, 6);
        set(c.speedMps, 1500, 1520, (s) => 6 + 0.05 * (s - 1500));
        set(c.speedMps, 1520, 1600, 7);
        set(c.altitudeM, 1440, 1600, (s) => 100 + 0.3 * (s - 1440));
        set(c.altitudeM, 1600, 3600, 148);
      }),
    ).toEqual(cannotTell);
    // Slows, then jumps by 5 km/h within three seconds.
    expect(
      at((c) => {
        rollFree(c, 1500, 1512);
        set(c.speedMps, 1512, 1516, (s) => c.speedMps[1511]! + 0.35 * (s - 1511));
        set(c.speedMps, 1516, 1530, c.speedMps[1515]!);
      }),
    ).toEqual(cannotTell);
    // As it rolls: a lapse.
    expect(at((c) => rollFree(c, 1500, 1520, 9))).toMatchObject([{ reason: "unexplained", lapse: true }]);
  });

  it("where the road's fall alone holds the speed, nobody can tell", () => {
    const down = (percent: number, mps: number) =>
      told(
        coasting(1500, 1520, (c) => {
          set(c.speedMps, 1400, 1600, mps);
          set(c.altitudeM, 1400, 1600, (s) => 100 - (mps * (s - 1400) * percent) / 100);
          set(c.altitudeM, 1600, 3600, 100 - (mps * 200 * percent) / 100);
        }),
      );
    // Free roll at -2 % is 28 km/h: slower than that the road carries.
    expect(down(2, 6)).toMatchObject([{ reason: "cannot tell", lapse: false }]);
    expect(down(2, 9)).toMatchObject([{ reason: "unexplained", lapse: true }]);
  });

  it("a break that brakes down to 9 km/h was on its way to a stop, one that rolls down to it was not", () => {
    const down = (lostMps: number) =>
      told(
        coasting(1500, 1520, (c) => {
          set(c.speedMps, 1450, 1500, 6);
          rollFree(c, 1500, 1510, 6);
          const mps = c.speedMps[1509]!;
          set(c.speedMps, 1510, 1524, (s) => Math.max(2.6, mps - lostMps * (s - 1509)));
        }),
      );
    expect(down(0.37)).toEqual([{ startS: 1500, endS: 1520, reason: "stopped", lapse: false }]);
    expect(down(0.08)).toMatchObject([{ startS: 1500, endS: 1520, reason: "unexplained", lapse: true }]);
  });

  // Free roll from 47 km/h on the level takes 18 s down to the 33 km/h that 185 W give there (Martin et al., as above).
  it("running out of a steep descent is the descent's, as long as it is as fast as pressing on the level", () => {
    const after = (waitS: number) =>
      told(
        coasting(1500 + waitS, 1518 + waitS, (c) => {
          set(c.speedMps, 1380, 1500 + waitS, 13);
          rollFree(c, 1500 + waitS, 1518 + waitS, 13);
          set(c.altitudeM, 1380, 1500, (s) => 200 - 0.05 * 13 * (s - 1380));
          set(c.altitudeM, 1500, 3600, 122);
        }),
      );
    expect(3.6 * steadySpeedMps(middlingRider, 185, 0)).toBeCloseTo(33, 0);
    expect(after(0)).toEqual([{ startS: 1500, endS: 1518, reason: "steep descent", lapse: false }]);
    // Pressed again after it, and stopped pressing later: that is no more the descent's.
    expect(after(25)).toMatchObject([{ startS: 1525, endS: 1543, reason: "unexplained", lapse: true }]);
  });

  it("what made a rider brake sets the pace until it rises again", () => {
    const braked = (thenMps: number) =>
      told(
        coasting(1502, 1515, (c) => {
          set(c.speedMps, 1486, 1490, (s) => 9 - 1.1 * (s - 1485));
          set(c.speedMps, 1490, 1502, thenMps);
          rollFree(c, 1502, 1515, thenMps);
        }),
      );
    expect(braked(4.8)).toEqual([{ startS: 1502, endS: 1515, reason: "braking", lapse: false }]);
    expect(braked(8)).toMatchObject([{ startS: 1502, endS: 1515, reason: "unexplained", lapse: true }]);
  });

  it("creeping up to a stop with a touch of pressure on the way is a stop", () => {
    const creeping = (touchW: number) =>
      told(
        coasting(1500, 1550, (c) => {
          rollFree(c, 1500, 1530, 9);
          set(c.speedMps, 1530, 1540, c.speedMps[1529]!);
          set(c.speedMps, 1540, 1550, (s) => (c.speedMps[1529]! * (1549 - s)) / 10);
          set(c.powerW, 1530, 1538, touchW);
          set(c.cadenceRpm, 1530, 1538, 60);
        }),
      );
    expect(creeping(90)[0]).toEqual({ startS: 1500, endS: 1530, reason: "stopped", lapse: false });
    // Pressed as ever, the way to the stop began later.
    expect(creeping(185)[0]).toMatchObject({ startS: 1500, endS: 1530, reason: "unexplained", lapse: true });
  });

  it("a bend that is no corner leaves its seconds open, and a lapse is what lies outside it", () => {
    const bent = (toS: number) =>
      told(
        coasting(1500, toS, (c) => {
          rollFree(c, 1500, toS, 8.6);
          set(c.courseDeg, 1505, 1509, (s) => 90 + 9.25 * (s - 1504));
          set(c.courseDeg, 1509, 3600, 127);
        }),
      );
    expect(bent(1512)).toEqual([{ startS: 1500, endS: 1512, reason: "cannot tell", lapse: false }]);
    const [open, lapse] = bent(1540);
    expect(open).toMatchObject({ startS: 1500, reason: "cannot tell", lapse: false });
    expect(lapse).toMatchObject({ startS: open!.endS, endS: 1540, reason: "unexplained", lapse: true });
  });

  it("in a slow passage on a level road nobody can tell", () => {
    const passage = (mps: number, rise: number) =>
      told(
        coasting(1500, 1512, (c) => {
          set(c.speedMps, 1440, 1580, mps);
          rollFree(c, 1500, 1512, mps, rise);
          set(c.altitudeM, 1440, 3600, (s) => c.altitudeM[s - 1]! + (s < 1580 ? rise * c.speedMps[s]! : 0));
        }),
      );
    expect(passage(5.5, 0)).toEqual([{ startS: 1500, endS: 1512, reason: "cannot tell", lapse: false }]);
    expect(passage(7.5, 0)).toMatchObject([{ reason: "unexplained", lapse: true }]);
    // A climb is slow by itself.
    expect(passage(5.5, 0.015)).toMatchObject([{ reason: "unexplained", lapse: true }]);
  });

  it("a coast that goes on from a corner is a lapse of its own length", () => {
    const ride = coasting(1497, 1545, (c) => {
      rollFree(c, 1490, 1560, 8);
      set(c.courseDeg, 1500, 1506, (s) => 90 + 15 * (s - 1499));
      set(c.courseDeg, 1506, 3600, 180);
    });
    const [corner, lapse] = told(ride);
    expect(corner).toMatchObject({ startS: 1497, reason: "corner", lapse: false });
    expect(lapse).toMatchObject({ startS: corner!.endS, endS: 1545, lapse: true });
  });
});
