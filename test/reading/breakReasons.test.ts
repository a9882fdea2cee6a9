import { describe, expect, it } from "vitest";
import { read } from "../../main/reading/read.ts";
import { readingJson } from "../../main/reading/readingJson.ts";
import { defaultPlan, parsePlan } from "../../main/reading/plan/parsePlan.ts";
import { makeRide } from "../support/makeRide.ts";
import { rideOf, rollFree, set, steadyColumns } from "./testRides.ts";

const plan = defaultPlan({ targetW: 185, toleranceW: 12, warmUpS: 600, coolDownS: 600 });

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

  it("a corner turns by 40 degrees or more", () => {
    // A tight one, of 15 m: 39 degrees are a bend, which leaves its seconds open.
    const turned = (degrees: number) =>
      read(
        rideOf(
          off(1499, 1507, (c) => {
            set(c.speedMps, 1480, 1530, 4);
            rollFree(c, 1499, 1507, 4);
            set(c.courseDeg, 1501, 1504, (s) => 90 + (degrees * (s - 1500)) / 3);
            set(c.courseDeg, 1504, 3600, 90 + degrees);
          }),
        ),
        short,
        [],
      ).breaks[0]?.reason;
    expect(turned(39)).not.toBe("corner");
    expect(turned(41)).toBe("corner");
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
