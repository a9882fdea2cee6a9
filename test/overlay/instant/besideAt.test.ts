// A ride beside this one: its number and its thread are those of the second at which it was at the same spot.
import { describe, expect, test } from "vitest";
import type { ShotBeside } from "../../../main/contract/pair.ts";
import { pressureBeside, threadBeside, withBeside } from "../../../overlay/instant/besideAt.ts";
import { panelValuesAt } from "../../../overlay/instant/panelValuesAt.ts";
import { stateKey } from "../../../overlay/instant/stateKey.ts";
import { sampleLayout } from "../support/paintedBand.ts";
import { sampleRide } from "../support/sampleRide.ts";
import { panelTexts, thenFigure } from "../../../overlay/layout/panelTexts.ts";

const columns = sampleRide();
/** The other ride counts its own seconds in watts; it took the first part of the road twice as long, the second as long. */
const seconds = Array.from({ length: 101 }, (_, k) => 1000 + k);
const beside: ShotBeside = {
  name: "16 May",
  panels: ["power", "cadence", "mainPart", "drift", "gradient"],
  spots: { firstS: [4300, 4320, 4340], secondS: [1000, 1040, 1060] },
  series: {
    startS: 1000,
    lateS: null,
    variable: false,
    powerW: seconds,
    heartRateBpm: seconds.map(() => null),
    speedMps: seconds.map(() => 5),
    cadenceRpm: seconds.map(() => 80),
    countedS: seconds.map((s) => s - 900),
    likePowerBeats: seconds.map(() => 3),
    pressure: seconds.map((s) => (s >= 1020 && s < 1030 ? 1 : 5)),
    altitudeM: seconds.map(() => null),
  },
};
const at = (rideS: number) => withBeside(columns, panelValuesAt(columns, rideS), beside, rideS);

test.each([
  [4300, 1000],
  [4310, 1020],
  [4320, 1040],
  [4330, 1050],
])("at %d s the other was at its second %d", (rideS, there) => {
  expect(at(rideS).then!.values).toEqual({
    rideS: there,
    countedS: there - 900,
    powerW: there,
    heartRateBpm: null,
    cadenceRpm: 80,
    speedMps: 5,
    // The same road: the same figure, and one place on the map.
    gradientPercent: panelValuesAt(columns, rideS).gradientPercent,
    likePowerBeats: 3,
  });
  expect(at(rideS).then!.spotS).toBe(rideS);
});

test("off the shared road stand dashes, and its thread is not known", () => {
  for (const rideS of [4299, 4341]) {
    expect(Object.values(at(rideS).then!.values)).toEqual(Array.from({ length: 8 }, () => null));
    expect(at(rideS).then!.spotS).toBeNull();
    expect(pressureBeside(beside)![rideS] ?? 0).toBe(0);
  }
});

test("its break lies where the road was, not when", () => {
  const off = Array.from(pressureBeside(beside)!, (state, s) => (state === 1 ? s : 0)).filter((s) => s > 0);
  expect(off).toEqual([4310, 4311, 4312, 4313, 4314]);
});

test("panels that are not asked show one figure, the gradient the road's for both", () => {
  const { options } = sampleLayout(columns, 1280, 720);
  expect(thenFigure("power", at(4310), options)).toBe("1020");
  expect(thenFigure("heartRate", at(4310), options)).toBeNull();
  expect(thenFigure("cadence", at(4310), options)).toBe("80");
  expect(thenFigure("mainPart", at(4310), options)).toBe("0:02:00");
  expect(thenFigure("drift", at(4310), options)).toBe("+3");
  expect(thenFigure("gradient", at(4310), options)).toBe(panelTexts("gradient", at(4310), options).figure);
  expect(thenFigure("power", panelValuesAt(columns, 4310), options)).toBeNull();
});

test("another figure of the other ride alone is another picture", () => {
  const values = panelValuesAt(columns, 4310);
  expect(stateKey(withBeside(columns, values, beside, 4310), 0)).not.toBe(
    stateKey(withBeside(columns, values, beside, 4312), 0),
  );
});

describe("by time from a common spot", () => {
  const timed: ShotBeside = { ...beside, byTimeFromS: 4300 };
  const then = (rideS: number) => withBeside(columns, panelValuesAt(columns, rideS), timed, rideS).then!;

  // The other takes 2 s for each of this ride's at first: as long after the common spot it is half as far.
  test.each([
    [4300, 1000, 4300],
    [4310, 1010, 4305],
    [4340, 1040, 4320],
    [4350, 1050, 4330],
  ])("at %d s the other is at its second %d, where this ride was at %d", (rideS, otherS, spotS) => {
    expect(then(rideS).values).toMatchObject({ rideS: otherS, powerW: otherS, countedS: otherS - 900 });
    expect(then(rideS).spotS).toBe(spotS);
    const under = panelValuesAt(columns, spotS).gradientPercent;
    expect(then(rideS).values.gradientPercent).toBe(under);
    expect(threadBeside(timed, rideS)!.untilS).toBe(spotS);
  });

  test("the two gradients are not the same where the road is not", () => {
    expect(then(4350).values.gradientPercent).not.toBe(panelValuesAt(columns, 4350).gradientPercent);
  });

  test("past the road that both rode stand dashes and no mark", () => {
    for (const rideS of [4299, 4361]) {
      expect(new Set(Object.values(then(rideS).values))).toEqual(new Set([null]));
      expect(then(rideS).spotS).toBeNull();
    }
  });

  test("a place of the other alone is another picture", () => {
    const values = panelValuesAt(columns, 4310);
    const key = (spotS: number) => stateKey({ ...values, then: { ...then(4310), spotS } }, 0);
    expect(key(4305)).not.toBe(key(4306));
  });
});
