// Even power as praise: only where nine tenths of the pedalled time lay close together, in figures that the ride's own
// columns give, and never beside a change that says the opposite.
import { expect, it } from "vitest";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import type { Ride } from "../../main/contract/ride.ts";
import { makeRide } from "../support/makeRide.ts";
import { wordsOf } from "../support/rideWords.ts";

const SECONDS = 4800;

/** An hour and twenty minutes of so much swing about 200 W, in waves of 8 min, on the level; a cadence that wanders. */
function swinging(swingW: number): Ride {
  const at = (f: (t: number) => number): number[] => Array.from({ length: SECONDS }, (_, t) => f(t));
  // Up and down at one rate: every power between is ridden for as long as every other.
  const wave = (t: number): number => 4 * Math.abs((t % 480) / 480 - 0.5) - 1;
  // A short roll every nine minutes: no long stretch to praise.
  const rolls = (t: number): boolean => t % 540 >= 528;
  return makeRide({
    powerW: at((t) => (rolls(t) ? 0 : Math.round(200 + swingW * wave(t) + 8 * Math.sin(t / 5)))),
    cadenceRpm: at((t) => (rolls(t) ? 0 : Math.round(80 + 14 * Math.sin(t / 90)))),
    speedMps: at(() => 8),
    altitudeM: at(() => 100),
    latDeg: at((t) => 47.1 + t * 7e-5),
    lonDeg: at(() => 11.6),
  });
}

/** Share of the 30 s means of a span, as the power of each second gives them, that lie between two powers; none that reach into a roll. */
function shareBetween(ride: Ride, startS: number, endS: number, lowW: number, highW: number): number {
  const watts = [...(ride.grid.power?.value.slice(startS, endS) ?? [])];
  const means = watts.flatMap((_, s) => {
    const around = watts.slice(s - 15, s + 15);
    return s < 15 || around.length < 30 || around.includes(0) ? [] : [around.reduce((sum, one) => sum + one, 0) / 30];
  });
  return means.filter((one) => one >= lowW - 0.5 && one <= highW + 0.5).length / means.length;
}

it("is told where it was even, with figures that nine tenths of the ride lie between", async () => {
  const ride = swinging(18);
  const { data, message } = await wordsOf(ride, defaultPlan());
  const even = data.story.facts.evenPower;
  expect(even).not.toBeNull();
  const { startS, endS } = data.reading.counted;
  const share = shareBetween(ride, startS, endS, even?.lowW ?? 0, even?.highW ?? 0);
  expect(share).toBeGreaterThan(0.88);
  expect(share).toBeLessThan(0.95);
  expect(data.story.held.kind).toBe("smooth");
  expect(message).toContain(`${even?.lowW} W to ${even?.highW} W for nine tenths of the time on the pedals`);
  expect(message.split("\n")[1]).not.toContain("%");
  const german = (await wordsOf(ride, defaultPlan(), { language: "de" })).message;
  expect(german).toContain(`neun Zehntel der getretenen Zeit ${even?.lowW} W bis ${even?.highW} W`);
});

it("is no praise where it swung, nor where the ride is told to be more even", async () => {
  const wide = await wordsOf(swinging(60), defaultPlan());
  expect(wide.data.story.facts.evenPower).toBeNull();
  expect(wide.data.story.held.kind).not.toBe("smooth");
  // Even, but far above what was asked: easier comes first, and even power over the plan is no praise.
  const hard = await wordsOf(swinging(18), defaultPlan({ targetW: 150, toleranceW: 10 }));
  expect(hard.data.story.facts.evenPower).not.toBeNull();
  expect(["surges", "tooHard"]).toContain(hard.data.story.teaching);
  expect(hard.data.story.held.kind).not.toBe("smooth");
});
