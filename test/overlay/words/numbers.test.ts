import { expect, test } from "vitest";
import * as numbers from "../../../overlay/words/numbers.ts";
import { phrasesFor } from "../../../overlay/words/phrases.ts";

const {
  clockText,
  durationText,
  factorText,
  fixedText,
  gradientText,
  hourText,
  signedText,
  speedText,
  wholeText,
  DASH,
} = numbers;

test("times", () => {
  expect([0, 59.99, 60, 3599, 3600, 4360, 36_000].map(clockText)).toEqual([
    "0:00:00",
    "0:00:59",
    "0:01:00",
    "0:59:59",
    "1:00:00",
    "1:12:40",
    "10:00:00",
  ]);
  expect(clockText(-12)).toBe("\u22120:00:12");
  expect([8, 60, 220, 3600, 7800, 119.6].map(durationText)).toEqual([
    "8 s",
    "1 min",
    "3 min 40 s",
    "1 h",
    "2 h 10 min",
    "2 min",
  ]);
  expect(hourText(4200)).toBe("1:10");
  expect([0, 7.25, 59.96, 119.2, 5940].map(numbers.filmTimeText)).toEqual([
    "0:00.0",
    "0:07.3",
    "1:00.0",
    "1:59.2",
    "99:00.0",
  ]);
});

test("units: 10 m/s are 36 km/h and 22.4 mph (1 mile = 1609.344 m, international yard and pound agreement of 1959)", () => {
  expect(speedText(10, "metric")).toEqual({ figure: "36.0", unit: "km/h" });
  expect(speedText(10, "imperial")).toEqual({ figure: "22.4", unit: "mph" });
  expect(speedText(10, "metric", { decimal: "," }).figure).toBe("36,0");
  expect(numbers.distanceText(42_195, "imperial").figure).toBe("26.2");
});

test("signs: a true minus, no minus zero, plus where it says a difference", () => {
  expect(fixedText(-0.04, 1)).toBe("0.0");
  expect(fixedText(-2.5, 1)).toBe("\u22122.5");
  expect([6, 0, -2, 0.4].map(signedText)).toEqual(["+6", "\u00b10", "\u22122", "\u00b10"]);
  expect([8, 0.5, 0.25, 0.125, 1.5, 1 / 3].map((factor) => factorText(factor))).toEqual([
    "8 \u00d7",
    "0.5 \u00d7",
    "0.25 \u00d7",
    "0.125 \u00d7",
    "1.5 \u00d7",
    "0.33 \u00d7",
  ]);
});

test("what is missing is a dash everywhere", () => {
  for (const nothing of [null, Number.NaN, Infinity]) {
    const all = [
      clockText(nothing),
      durationText(nothing),
      wholeText(nothing),
      signedText(nothing),
      fixedText(nothing, 1),
      factorText(nothing),
      hourText(nothing),
    ];
    expect(new Set(all)).toEqual(new Set([DASH]));
    for (const quantity of [
      speedText(nothing, "metric"),
      gradientText(nothing),
      numbers.powerText(nothing),
      numbers.heartRateText(nothing),
      numbers.cadenceText(nothing),
    ])
      expect(quantity.figure).toBe(DASH);
  }
});

test("no language leaves a panel without its word", () => {
  for (const language of ["en", "de"] as const) {
    const phrases = phrasesFor(language);
    for (const part of [phrases.panels, phrases.units, phrases.chart])
      for (const [key, text] of Object.entries(part)) expect(text, key).not.toBe("");
  }
});
