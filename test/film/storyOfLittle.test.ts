// What can be said of a ride that tells little: short, silent sensors, stops, odd input.
import { describe, expect, test } from "vitest";
import type { DriftReading } from "../../main/contract/reading.ts";
import type { Ride } from "../../main/contract/ride.ts";
import { judgeRide } from "../../main/journey/judge.ts";
import { nextStep } from "../../main/film/nextStep.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { debriefWords } from "../../overlay/words/debriefWords.ts";
import { ridesWithSensors, sensiblePlan, wordsOf } from "../support/rideWords.ts";
import { makeRide } from "../support/makeRide.ts";
import { evenRide, cell } from "./storyRides.ts";

test("a cadence sensor that wrote nothing keeps no heart from being judged", () => {
  const ride = evenRide(9000);
  const cadence = { ...ride.grid.cadence!, value: new Float64Array(9000).fill(NaN) };
  const silent: Ride = { ...ride, grid: { ...ride.grid, power: null, power30sW: null, cadence } };
  const { facts } = judgeRide(silent, defaultPlan({ setting: "road", heartLowBpm: 132, heartHighBpm: 144 }), []);
  expect(facts.shares?.inPercent).toBe(100);
  // Nor does it know of any pressure.
  expect([facts.pressed, facts.longestUnbrokenS]).toEqual([null, null]);
});

test("a distance that nobody rode in the recording is not told", async () => {
  const [cut] = (await ridesWithSensors(["test/fixtures/rides"])).filter(({ name }) => name === "empty-places.tcx");
  const { page } = await wordsOf(cut!.ride, sensiblePlan(cut!.ride));
  expect(cell(page, "Whole ride")).toBe("1 s");
});

test("a long recording of which little counts is not called short, and its length has its stops in it", async () => {
  // Two minutes of riding on either side of a stop of an hour: the file has a hole there.
  const timeS = Array.from({ length: 240 }, (_, t) => (t < 120 ? t : t + 3600));
  const ride = makeRide({ timeS, powerW: timeS.map(() => 150), speedMps: timeS.map(() => 7) });
  const { message } = await wordsOf(ride, defaultPlan({ targetW: 150, toleranceW: 15 }));
  expect(message).toContain("You made the time and were out for 1 h 4 min.");
  expect(message).toContain("Too little of this ride counts to say what to change.");
  expect(message).toContain("Too little of this ride counts to plan by");
  const german = (await wordsOf(ride, defaultPlan({ targetW: 150, toleranceW: 15 }), { language: "de" })).message;
  expect(german).toContain("Du hast dir die Zeit genommen und warst 1 h 4 min unterwegs.");
  expect(german).toContain("Von dieser Fahrt zählt zu wenig zum Planen");
});

describe("what little of a ride can say", () => {
  test("that the heart climbed is not followed by that nobody can tell how long it held", async () => {
    const plan = defaultPlan({ setting: "road", targetW: 200, toleranceW: 15 });
    const { data } = await wordsOf(evenRide(7200), plan);
    const told = { ...data.story, heldLowS: null, heldHighS: null, teaching: "nothing" as const };
    const next = (verdict: DriftReading["verdict"]) =>
      nextStep({ target: data.reading.target, drift: { ...data.reading.drift, verdict } }, told, null);
    for (const verdict of ["rose from the start", "began"] as const)
      expect(next(verdict)).toMatchObject({ kind: "same", because: "rose" });
    for (const verdict of ["start unclear", "no drift shown", "not enough data"] as const)
      expect(next(verdict)).toMatchObject({ kind: "same", because: "can't tell" });
  });

  test.each([
    [
      "en",
      /once more: your heart rate climbed on the way, so the time stays the same\.$/,
      /once more, a little easier/,
    ],
    ["de", /lang: Dein Puls ist unterwegs gestiegen, darum bleibt es bei dieser Dauer\.$/, /am Anfang etwas leichter/],
  ] as const)("nothing to change is followed by no change (%s)", async (language, plain, easier) => {
    const plan = defaultPlan({ setting: "road", targetW: 200, toleranceW: 15 });
    const { data } = await wordsOf(evenRide(7200), plan, { language });
    const next = { kind: "same", askS: 6600, because: "rose" } as const;
    const line = (teaching: "nothing" | "drift") => debriefWords(language).nextLine({ ...data.story, teaching, next });
    expect(line("nothing")).toMatch(plain);
    expect(line("drift")).toMatch(easier);
  });

  test("a main part of nothing is no plan of 0 s, and some seconds have no shares", async () => {
    const plan = defaultPlan({ setting: "road", targetW: 200, toleranceW: 15 });
    for (const language of ["en", "de"] as const) {
      const still = evenRide(1800, 0);
      for (const { grid } of [still]) grid.speed!.value.fill(0);
      const nothing = await wordsOf(still, plan, { language });
      expect(nothing.data.story.facts.mainS).toBe(0);
      expect([nothing.page, ...nothing.film].join("\n")).not.toMatch(/(main part|Hauptteil)(:| \|  \|) 0 s/iu);
      const seconds = await wordsOf(evenRide(60), plan, { language });
      expect(seconds.data.story.facts.mainS).toBeLessThan(60);
      expect(seconds.page).not.toMatch(/^(At the plan|Below it|No pressure on|Im Plan|Darunter|Ohne Druck auf)/mu);
    }
  });
});

describe("bad input", () => {
  test.each([300, 20 * 3600])("a ride of %i s is told without a leap", async (seconds) => {
    const { message } = await wordsOf(evenRide(seconds), sensiblePlan(evenRide(seconds)));
    expect(message.split("\n").filter((line) => line !== "")).toHaveLength(5);
  });

  test("a note of 10,000 letters, no name, a target of 900 W", async () => {
    const plan = defaultPlan({ targetW: 900, note: { ...defaultPlan().note, feel: "good ".repeat(2000) } });
    const { message } = await wordsOf(evenRide(3600), plan);
    expect(message).toMatch(/^Hello, here is the film of your ride/);
    expect(message.split("\n")[3]).not.toMatch(/rest and recovery/);
  });
});
