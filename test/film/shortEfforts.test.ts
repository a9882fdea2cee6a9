import { describe, expect, test } from "vitest";
import type { Plan } from "../../main/contract/plan.ts";
import type { Ride } from "../../main/contract/ride.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { makeRide } from "../support/makeRide.ts";
import { wordsOf } from "../support/rideWords.ts";

const STARTS = [900, 1500, 2100, 2700];
const EFFORT_S = 300;

interface Told {
  /** Power at a second; 280 W is planned in the efforts, 200 W elsewhere. */
  readonly powerW: (t: number) => number;
  readonly speedMps?: (t: number) => number;
  readonly altitudeM?: (t: number) => number;
  readonly places?: boolean;
}

function ride({ powerW, speedMps = () => 8, altitudeM = () => 100, places = true }: Told): Ride {
  const at = (f: (t: number) => number): number[] => Array.from({ length: 3600 }, (_, t) => f(t));
  return makeRide({
    powerW: at((t) => powerW(t) + Math.round(4 * Math.sin(t / 7))),
    heartRateBpm: at((t) => 138 + Math.round(Math.sin(t / 47))),
    cadenceRpm: at((t) => 88 + Math.round(2 * Math.sin(t / 11))),
    speedMps: at(speedMps),
    altitudeM: at(altitudeM),
    ...(places ? { latDeg: at((t) => 47.1 + t * 7e-5), lonDeg: at(() => 11.6) } : {}),
  });
}

const plan = (more: Partial<Plan> = {}): Plan => ({
  ...defaultPlan({ setting: "road", targetW: 200, toleranceW: 15 }),
  blocks: STARTS.map((startS) => ({
    startS,
    endS: startS + EFFORT_S,
    kind: "effort" as const,
    targetW: 280,
    toleranceW: 15,
  })),
  ...more,
});
const within = (t: number, startS: number, lengthS = EFFORT_S): boolean => t >= startS && t < startS + lengthS;
/** All efforts as planned but the last, which is given up after two minutes. */
const givenUp = (t: number): number =>
  STARTS.some((startS) => within(t, startS, startS === 2700 ? 120 : EFFORT_S)) ? 280 : 200;

describe("a planned effort that stayed below the plan", () => {
  test("is the one thing to change, with the stretch that shows it", async () => {
    const en = await wordsOf(ride({ powerW: givenUp }), plan(), { filmed: true });
    expect(en.data.story).toMatchObject({ teaching: "efforts", times: 1 });
    const [short] = en.data.reading.moments.filter(({ kind }) => kind === "effortShort");
    expect(short!.startS).toBeGreaterThanOrEqual(2805);
    expect(short!.endS).toBeLessThanOrEqual(3000);
    expect(en.message.split("\n")[2]).toMatch(
      new RegExp(
        "^Where the road is free, ride each planned effort as asked: 1 of 4 stayed below the plan, " +
          String.raw`for example (2|3) min( \d+ s)? at 200 W\. If that was too much, tell your coach\.$`,
      ),
    );
    expect(en.film.join("\n")).toMatch(/\(shot\) (2 min \d\d s at|Here) 200 W, planned 280 W/);
    expect(en.page).toMatch(/Planned effort, below the plan, at 0:4\d:\d\d/);
    const de = await wordsOf(ride({ powerW: givenUp }), plan(), { language: "de", filmed: true });
    expect(de.message.split("\n")[2]).toMatch(
      new RegExp(
        "^Wo die Straße frei ist, fahr jeden harten Block wie geplant: Einer von 4 lag unter dem Plan, " +
          String.raw`zum Beispiel (2|3) min( \d+ s)? bei 200 W\. War es zu viel, sag es deinem Trainer\.$`,
        "u",
      ),
    );
  });

  test("efforts that were left out weigh more than a short break", async () => {
    const never = await wordsOf(ride({ powerW: () => 200 }), plan(), { filmed: true });
    expect(never.data.story).toMatchObject({ teaching: "efforts", times: 4 });
    expect(never.message).toContain("all 4 stayed below the plan");
  });

  test.each<[string, Told, Partial<Plan>]>([
    ["a stop", { powerW: givenUp, speedMps: (t) => (within(t, 2825, 150) ? 0 : 8) }, {}],
    ["a descent", { powerW: givenUp, altitudeM: (t) => 100 - 0.4 * Math.max(0, Math.min(t, 3000) - 2800) }, {}],
    ["a road that is not known", { powerW: givenUp, places: false }, {}],
    ["a group", { powerW: givenUp }, { setting: "group" }],
    ["ridden two minutes later", { powerW: (t) => (STARTS.some((s) => within(t, s + 120)) ? 280 : 200) }, {}],
    ["a sensor that was away", { powerW: (t) => (within(t, 2820, 180) ? NaN : givenUp(t)) }, {}],
  ])("is not told where %s explains it", async (_, told, more) => {
    const { data, message } = await wordsOf(ride(told), plan(more), { filmed: true });
    expect(data.reading.moments.map(({ kind }) => kind)).not.toContain("effortShort");
    expect(data.story.teaching).not.toBe("efforts");
    expect(message).not.toMatch(/planned effort/);
  });

  test("is judged on a trainer, where there is no road", async () => {
    const { message } = await wordsOf(ride({ powerW: givenUp, places: false }), plan({ setting: "trainer" }));
    expect(message).toMatch(/\nRide each planned effort as asked: 1 of 4/);
  });

  test("is no matter for a rider whose note comes first: no verdict on a block, and none elsewhere", async () => {
    const ill = plan({ note: { ...plan().note, feel: "rode with a fever" } });
    for (const language of ["en", "de"] as const) {
      const { page, coach, message, film } = await wordsOf(ride({ powerW: givenUp }), ill, { language, filmed: true });
      expect(page).toMatch(/(Effort|Hart), 0:45:00, 5 min \| 280 W \| \d+ W \|$/m);
      expect([page, message, ...film].join("\n")).not.toMatch(
        /\| (no|nein) \||Done|Geschafft|planned effort|harten? Block/u,
      );
      // The coach's page keeps it.
      expect(coach).toMatch(/(Effort|Hart), 0:45:00, 5 min \|.*\| (no|nein) \|/u);
    }
  });
});
