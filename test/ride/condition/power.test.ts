import { describe, expect, test } from "vitest";
import { makeRide } from "../../support/makeRide.ts";
import { range } from "../../support/trackText.ts";
import { panelValuesAt } from "../../../overlay/instant/panelValuesAt.ts";
import { shownColumns } from "../../support/shownColumns.ts";
import { said } from "../../support/said.ts";

const steady = (n: number, w = 200) => range(n).map(() => w);

describe("power", () => {
  test("a value above 2500 W is no rider's, one above 1000 W only with its neighbours", () => {
    const powerW = steady(60);
    powerW[20] = 2600;
    powerW[40] = 1200;
    const ride = makeRide({ powerW });
    expect([ride.grid.power!.value[20], ride.grid.power!.state[20]]).toEqual([NaN, 2]);
    expect([ride.grid.power!.value[40], ride.grid.power!.state[40]]).toEqual([NaN, 2]);
    expect(ride.raw.powerW[40]).toBe(1200);
    expect(said(ride.warnings)).toEqual(["2 power values no rider makes are left out."]);
    const sprint = steady(60);
    for (let k = 30; k < 38; k++) sprint[k] = 1100;
    expect(makeRide({ powerW: sprint }).grid.power!.value[33]).toBe(1100);
  });

  test("a zero of 1 or 2 s while the cranks turn is a dropout; a longer one, or with the cranks still, is coasting", () => {
    const powerW = steady(60);
    for (const k of [20, 21, 30, 31, 32, 45]) powerW[k] = 0;
    const cadenceRpm = range(60).map((k) => (k >= 44 && k <= 46 ? 0 : 85));
    const { power } = makeRide({ powerW, cadenceRpm }).grid;
    expect([power!.state[20], power!.state[21]]).toEqual([2, 2]);
    expect([power!.value[31], power!.value[45]]).toEqual([0, 0]);
  });

  test("3 s mean: trailing, zeros counted, 2 of 3 present, afresh after a pause", () => {
    const powerW = [100, 200, 300, 0, 400, NaN, NaN, NaN, NaN, 500, 500];
    const { power3sW } = makeRide({ powerW }).grid;
    expect(power3sW![0]).toBeNaN();
    expect(power3sW![1]).toBe(150);
    expect(power3sW![2]).toBe(200);
    expect(power3sW![4]).toBeCloseTo(700 / 3, 9);
    expect(power3sW![7]).toBeNaN();
    expect(power3sW![9]).toBeNaN();
    expect(power3sW![10]).toBe(500);
    const paused = makeRide({ powerW: steady(60), pauses: [{ startS: 20, endS: 40 }], dropPaused: true });
    expect(paused.grid.power3sW![40]).toBeNaN();
    expect(paused.grid.power3sW![41]).toBe(200);
  });

  test("3 s mean: a value held over a hole is no measurement, and a spike takes its own second alone", () => {
    for (const hole of [1, 2, 3]) {
      const powerW: number[] = steady(40, 300);
      for (let k = 20; k < 20 + hole; k++) powerW[k] = NaN;
      powerW[20 + hole] = 100;
      const { power, power3sW } = makeRide({ powerW }).grid;
      expect(power!.state[20]).toBe(3);
      // The first second after a hole of two or more stands alone; after one, it has the second before the hole.
      expect(power3sW![20 + hole], `after ${hole} s`).toEqual(hole === 1 ? 200 : NaN);
      expect(power3sW![21 + hole]).toBe(200);
    }
    const spiked: number[] = steady(40);
    spiked[20] = 2600;
    const ride = makeRide({ powerW: spiked });
    const shown = range(8, 17).map((k) => panelValuesAt(shownColumns(ride), k).powerW);
    expect(shown).toEqual([200, 200, 200, null, 200, 200, 200, 200]);
  });

  test("30 s mean: centred, 24 of 30 present, not over a pause", () => {
    const powerW = range(120).map((k) => (k < 60 ? 100 : 300));
    const { power30sW } = makeRide({ powerW }).grid;
    expect(power30sW![60]).toBe(200);
    expect(power30sW![30]).toBe(100);
    expect(power30sW![8]).toBeNaN();
    expect(power30sW![9]).toBe(100);
    expect(power30sW![119]).toBeNaN();
  });

  test("holes of up to 3 s are held, longer ones stay empty", () => {
    const powerW: number[] = steady(60);
    for (const k of [20, 21, 22, 40, 41, 42, 43]) powerW[k] = NaN;
    const { power } = makeRide({ powerW }).grid;
    expect([power!.value[22], power!.state[22]]).toEqual([200, 3]);
    expect([power!.value[40], power!.state[40]]).toEqual([NaN, 0]);
  });

  test("in a variable ride a sample stands until the next, at most 10 s, and is not averaged", () => {
    const timeS = [0, 4, 9, 14, 40, 46];
    const ride = makeRide({ timeS, powerW: [100, 200, 300, 400, 500, 600] });
    expect(ride.mode).toBe("variable");
    expect(ride.grid.power3sW![6]).toBe(200);
    expect(ride.grid.power!.state[6]).toBe(3);
    expect(ride.grid.power!.value[23]).toBe(400);
    expect(ride.grid.power!.value[24]).toBeNaN();
  });
});
