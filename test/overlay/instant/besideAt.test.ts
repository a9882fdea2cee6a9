// A ride beside this one: its number and its thread are those of the second at which it was at the same spot.
import { expect, test } from "vitest";
import type { ShotBeside } from "../../../main/contract/pair.ts";
import { pressureBeside, withBeside } from "../../../overlay/instant/besideAt.ts";
import { panelValuesAt } from "../../../overlay/instant/panelValuesAt.ts";
import { stateKey } from "../../../overlay/instant/stateKey.ts";
import { sampleLayout } from "../support/paintedBand.ts";
import { sampleRide } from "../support/sampleRide.ts";
import { thenFigure } from "../../../overlay/layout/panelTexts.ts";

const columns = sampleRide();
/** The other ride counts its own seconds in watts; it took the first part of the road twice as long, the second as long. */
const seconds = Array.from({ length: 101 }, (_, k) => 1000 + k);
const beside: ShotBeside = {
  name: "16 May",
  panels: ["power", "cadence", "mainPart", "drift"],
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
const at = (rideS: number) => withBeside(panelValuesAt(columns, rideS), beside, rideS);

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
    likePowerBeats: 3,
  });
});

test("off the shared road stand dashes, and its thread is not known", () => {
  for (const rideS of [4299, 4341]) {
    expect(Object.values(at(rideS).then!.values)).toEqual(Array.from({ length: 7 }, () => null));
    expect(pressureBeside(beside)![rideS] ?? 0).toBe(0);
  }
});

test("its break lies where the road was, not when", () => {
  const off = Array.from(pressureBeside(beside)!, (state, s) => (state === 1 ? s : 0)).filter((s) => s > 0);
  expect(off).toEqual([4310, 4311, 4312, 4313, 4314]);
});

test("panels that are not asked, and those that are the same for both, show one figure", () => {
  const { options } = sampleLayout(columns, 1280, 720);
  expect(thenFigure("power", at(4310), options)).toBe("1020");
  expect(thenFigure("heartRate", at(4310), options)).toBeNull();
  expect(thenFigure("cadence", at(4310), options)).toBe("80");
  expect(thenFigure("mainPart", at(4310), options)).toBe("0:02:00");
  expect(thenFigure("drift", at(4310), options)).toBe("+3");
  expect(thenFigure("gradient", at(4310), options)).toBeNull();
  expect(thenFigure("power", panelValuesAt(columns, 4310), options)).toBeNull();
});

test("another figure of the other ride alone is another picture", () => {
  const values = panelValuesAt(columns, 4310);
  expect(stateKey(withBeside(values, beside, 4310), 0)).not.toBe(stateKey(withBeside(values, beside, 4312), 0));
});
