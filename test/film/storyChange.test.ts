// The one thing to change, and what is asked about.
import { describe, expect, test } from "vitest";
import type { Ride } from "../../main/contract/ride.ts";
import { judgeRide } from "../../main/journey/judge.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { bareRidePlan, wordsOf } from "../support/rideWords.ts";
import { madeRide } from "./madeReading.ts";
import { makeRide } from "../support/makeRide.ts";
import { evenRide, hardThirdRide } from "./storyRides.ts";

test("without a plan, a pause after what was hard for this ride is not asked about", () => {
  const pauses = [1800, 3000, 4200];
  const even = evenRide(7200, 200, pauses);
  const bare = bareRidePlan(even);
  expect(judgeRide(even, bare, []).facts.askable.length).toBe(3);
  // The same ride with half a minute at twice the power before each pause.
  const before = (t: number): boolean => pauses.some((at) => t >= at - 30 && t < at);
  const power = even.grid.power!;
  const watts = power.value.map((value, t) => (before(t) ? 2 * value : value));
  const hard: Ride = { ...even, grid: { ...even.grid, power: { ...power, value: watts }, power30sW: meansOf(watts) } };
  expect(judgeRide(hard, bare, []).facts.askable).toEqual([]);
  // Neither power nor heart rate says what was hard: nobody is asked.
  const blind: Ride = { ...even, grid: { ...even.grid, power: null, power30sW: null, heartRate: null } };
  expect(judgeRide(blind, bare, []).facts.askable).toEqual([]);
});

/** Centred 30 s means. */
function meansOf(watts: Float64Array): Float64Array {
  return watts.map((_, s) => {
    const around = watts.subarray(Math.max(0, s - 15), s + 15);
    return around.reduce((sum, one) => sum + one, 0) / around.length;
  });
}

describe("what is asked of a ride that was not at its plan", () => {
  /** So many minutes of each twelve below, at and above 200 W. */
  const mixed = (below: number, at: number): Ride => {
    const minute = (t: number): number => Math.floor(t / 60) % 12;
    const power = (t: number): number => (minute(t) < below ? 160 : minute(t) < below + at ? 200 : 240);
    return makeRide({
      powerW: Array.from({ length: 9000 }, (_, t) => power(t)),
      cadenceRpm: Array.from({ length: 9000 }, () => 88),
      heartRateBpm: Array.from({ length: 9000 }, (_, t) => 138 + Math.round(Math.sin(t / 47))),
    });
  };
  const plan = defaultPlan({ setting: "trainer", targetW: 200, toleranceW: 15 });

  test("above it and below it by turns: more evenly, and hardly there: closer to it", async () => {
    const { message } = await wordsOf(mixed(5, 2), plan);
    const [, held, change, next] = message.split("\n");
    expect(held).toMatch(/^You kept the pressure on for 2 h 10 min at a stretch\.$/u);
    expect(change).toMatch(/^Ride more evenly: you were above the planned 200 W for \d+ % .* and below it for \d+ %/u);
    expect(next).toMatch(/^Ride for 2 h 10 min once more, closer to 200 W: this time you were there for 1\d % /u);
  });

  test("mostly at it is praised beside the part that was not", async () => {
    const { message, data } = await wordsOf(mixed(1, 8), plan);
    const [, held, change] = message.split("\n");
    expect(data.story.teaching).toBe("tooHard");
    expect(held).toMatch(/^You rode at the planned power for 6\d % /u);
    expect(change).toMatch(/^Ride easier: /u);
  });
});

describe("what went well and what to change", () => {
  test("a few short breaks never beat a third of the ride above the plan", async () => {
    const ride = hardThirdRide();
    const plan = defaultPlan({ targetW: 200, toleranceW: 12, warmUpS: 600, coolDownS: 600 });
    const { data } = await wordsOf(ride, plan);
    expect(data.story.facts.askable.length).toBeGreaterThan(0);
    expect(data.story.teaching).toBe("tooHard");
    expect(data.story.percent).toBe(40);
  });

  test("a pause right after a surge belongs to the surge", async () => {
    const ride = evenRide(7200);
    const { power, power3sW, power30sW } = ride.grid;
    for (let start = 1000; start < 6000; start += 500) {
      for (let t = start; t < start + 60; t++)
        for (const column of [power!.value, power3sW!, power30sW!]) column[t] = 330;
      for (let t = start + 60; t < start + 76; t++) for (const column of [power!.value, power3sW!]) column[t] = 0;
    }
    const { data, message } = await wordsOf(ride, defaultPlan({ targetW: 200, toleranceW: 12 }));
    expect(data.story.facts.askable).toEqual([]);
    expect(data.story.teaching).toMatch(/surges|tooHard/);
    expect(message).toMatch(/1 min at 330 W, then 16 s without pressure/);
  });
});

describe("every setting speaks its own language", () => {
  test("planned efforts are judged as efforts, in a table", async () => {
    const ride = evenRide(3600);
    const { power, power3sW, power30sW } = ride.grid;
    for (const start of [900, 1500, 2100])
      for (let t = start; t < start + 300; t++)
        for (const column of [power!.value, power3sW!, power30sW!]) column[t] = 280;
    const blocks = [900, 1500, 2100, 2700].map((startS) => ({
      startS,
      endS: startS + 300,
      kind: "effort" as const,
      targetW: 280,
      toleranceW: 15,
    }));
    const { data, page } = await wordsOf(ride, defaultPlan({ targetW: 200, toleranceW: 15, blocks }));
    expect(data.story.facts.blocks.map(({ done }) => done)).toEqual([true, true, true, false]);
    expect(page).toContain("The blocks");
    expect(page.match(/Effort, /g)).toHaveLength(4);
    expect(page).toMatch(/Effort, 0:15:00, 5 min \| 280 W \| 280 W \| 100 %/);
  });

  test("in a group nobody is asked why the pressure was gone", async () => {
    const ride = madeRide();
    const { data, message } = await wordsOf(ride, defaultPlan({ setting: "group", targetW: 230, toleranceW: 15 }));
    expect(data.story.facts.askable).toEqual([]);
    expect(message).not.toMatch(/What happened at/);
  });
});

describe("above the plan uphill", () => {
  /** Five minutes up at 4 %, five level, and so on; at 8 m/s on both. */
  const upAndLevel = (levelW: number): Ride => {
    const up = (t: number): boolean => t % 600 < 300;
    let altitudeM = 100;
    return makeRide({
      powerW: Array.from({ length: 9000 }, (_, t) => (up(t) ? 240 : levelW)),
      altitudeM: Array.from({ length: 9000 }, (_, t) => (altitudeM += up(t) ? 0.32 : 0)),
      speedMps: Array.from({ length: 9000 }, () => 8),
      distanceM: Array.from({ length: 9000 }, (_, t) => 8 * t),
      cadenceRpm: Array.from({ length: 9000 }, () => 88),
    });
  };
  const plan = defaultPlan({ setting: "road", targetW: 200, toleranceW: 15 });

  test("alone is a matter of the rises", async () => {
    const { message, data } = await wordsOf(upAndLevel(200), plan);
    expect(data.story.teaching).toBe("rises");
    expect(message.split("\n")[2]).toMatch(/^Start each rise lower: above the planned 200 W for \d+ % .*uphill/);
  });

  test("and on the flat as well is no matter of the rises", async () => {
    const { message, data } = await wordsOf(upAndLevel(236), plan);
    expect(data.story.teaching).toBe("tooHard");
    expect(message.split("\n")[2]).toMatch(/^Ride easier: you were above the planned 200 W for \d+ % /);
  });
});
