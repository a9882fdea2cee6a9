// What holds of the words of every ride: one set of figures, and nothing asked for that the road forbids.
import { beforeAll, describe, expect, test } from "vitest";
import type { Plan } from "../../main/contract/plan.ts";
import { PressureState } from "../../main/contract/reading.ts";
import type { Shot } from "../../main/contract/film.ts";
import type { Ride } from "../../main/contract/ride.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { rideTimeAt } from "../../overlay/instant/rideTimeAt.ts";
import { planSheetWords } from "../../overlay/words/planSheetWords.ts";
import { durationText } from "../../overlay/words/numbers.ts";
import { bareRidePlan, type NamedRide, type RideWords, sensiblePlan, wordsOf } from "../support/rideWords.ts";
import { lapseFigures } from "../bench/lapses.ts";
import { storyRides, cell } from "./storyRides.ts";

let rides: NamedRide[] = [];
const said: { name: string; ride: Ride; plan: Plan; words: RideWords }[] = [];
beforeAll(async () => {
  rides = await storyRides();
  for (const { name, ride } of rides)
    for (const plan of [sensiblePlan(ride), bareRidePlan(ride)])
      said.push({ name, ride, plan, words: await wordsOf(ride, plan, { filmed: plan.targetW !== null }) });
}, 300_000);

describe("one set of figures", () => {
  test("there are rides to compare", () => {
    expect(rides.length).toBeGreaterThanOrEqual(process.env.FOLLOWCAR_DATA ? 25 : 4);
  });

  test("message, page and film say the same three lines", () => {
    for (const { words } of said) {
      const [, held, change, next] = words.message.split("\n");
      for (const line of [held, change, next]) expect(words.page).toContain(line);
      const film = words.film.join("\n");
      expect(film).toContain(next);
      const { story } = words.data;
      if (story.teaching !== "nothing") expect(film).toContain(change);
    }
  });

  test("page and coach's page agree field by field", () => {
    let compared = 0;
    const same = (one: string | null | undefined, other: string | null | undefined): void => {
      if (one === null || one === undefined || other === null || other === undefined) return;
      expect(one.replaceAll("\u00a0", " ")).toBe(other.replaceAll("\u00a0", " "));
      compared++;
    };
    for (const { words } of said) {
      const { page, coach } = words;
      const shares = /in the band (\d+) % of the main part, below it (\d+) %, above it (\d+) %, off (\d+) %/i.exec(
        coach,
      );
      if (shares !== null && words.data.story.facts.shares !== null) {
        const inPlan = cell(page, "At the plan") ?? cell(page, "In the heart range");
        const rows = [inPlan, cell(page, "Below it"), cell(page, "Above it")];
        rows.forEach((row, index) => same(row, `${shares[index + 1]} %`));
        same(cell(page, "No pressure on the pedals"), `${shares[4]} %`);
      }
      same(cell(page, "Main part"), /Main part: [\d:]+ to [\d:]+, ([^(]*?)(?: in \d+ stretches)? \(/.exec(coach)?.[1]);
      same(cell(page, "Power, mean"), /In the main part: mean power (\d+ W)/.exec(coach)?.[1]);
      same(cell(page, "Heart rate, mean"), /In the main part:.*mean heart rate (\d+)/.exec(coach)?.[1]);
      same(cell(page, "Cadence, mean"), /In the main part:.*mean cadence (\d+)/.exec(coach)?.[1]);
      const drift = /Drift at the same power: ([+\u2212-]?)(\d+) beats?, give or take (\d+)/.exec(coach);
      const told = /At the same power it would be (?:(\d+) beats? (?:more|fewer)|the same), give or take (\d+)/.exec(
        page,
      );
      if (told !== null && drift !== null) {
        same(told[1] ?? "0", drift[2]);
        same(told[2], drift[3]);
      }
      const card = /At the same power: (?:(\d+) beats? (?:more|fewer)|the same), give or take (\d+)/.exec(
        words.film.join("\n"),
      );
      if (told !== null || card !== null) expect([card?.[1], card?.[2]]).toEqual([told?.[1], told?.[2]]);
      // What a share says went well is the share of the table.
      const { held } = words.data.story;
      if (held.kind === "share")
        same(`${held.percent} %`, cell(page, "At the plan") ?? cell(page, "In the heart range"));
    }
    expect(compared).toBeGreaterThan(20);
  });
});

describe("every figure in a caption is of the seconds shown", () => {
  test("recomputed from the ride's columns", () => {
    let figures = 0;
    for (const { name, ride, words } of said) {
      const { reading } = words.data;
      const power = ride.grid.power?.value;
      const states = reading.columns.pressureState;
      const mean = (values: readonly number[]): number => values.reduce((sum, one) => sum + one, 0) / values.length;
      for (const item of words.standing.film.items) {
        if (item.type !== "shot" || item.id === "held") continue;
        const moment = reading.moments[item.moment!]!;
        const shot: Shot = item;
        const from = rideTimeAt(shot.clock, shot.mediaStartS);
        const to = rideTimeAt(shot.clock, shot.mediaEndS);
        const startS = Math.floor(Math.max(from, moment.startS));
        const text = shot.captions.map((caption) => caption.text).join(" / ");
        const watts = /(\d+) W/.exec(text)?.[1];
        if (watts !== undefined && power !== undefined) {
          const endS = Math.ceil(Math.min(to, moment.endS));
          const seconds = Array.from({ length: endS - startS }, (_, k) => startS + k);
          const shown =
            moment.kind === "riseThenOff"
              ? seconds.filter(
                  (s) => s < moment.endS - (moment.numbers["coastS"] ?? 0) && states[s] === PressureState.above,
                )
              : seconds;
          const values = shown.map((s) => power[s]!).filter((value) => Number.isFinite(value));
          expect(`${name}: ${Math.round(mean(values))}`).toBe(`${name}: ${watts}`);
          figures++;
        }
        const span = /^(.+?) at \d+ W/.exec(text)?.[1];
        if (span !== undefined) {
          expect(span).toBe(durationText(moment.endS - moment.startS));
          expect(from).toBeLessThanOrEqual(moment.startS + 1);
          expect(to).toBeGreaterThanOrEqual(moment.endS - 1);
          figures++;
        }
        const off = /[Nn]o pressure for ([^/]+?)(?: \/|$)/.exec(text)?.[1];
        if (off !== undefined) {
          const seen = Array.from(states.subarray(Math.floor(from), Math.ceil(to))).filter(
            (state) =>
              state === PressureState.off || state === PressureState.offExcused || state === PressureState.offUnclear,
          ).length;
          // The seconds said lie on the picture; the handles around a moment may show a few more.
          expect(seen).toBeGreaterThanOrEqual(secondsOf(off));
          figures++;
        }
      }
    }
    expect(figures).toBeGreaterThan(process.env.FOLLOWCAR_DATA ? 20 : 3);
  });
});

/** `1 min 16 s` in seconds. */
function secondsOf(text: string): number {
  const [, minutes = "0", seconds = "0"] = /^(?:(\d+) min)? ?(?:(\d+) s)?$/.exec(text.replaceAll("\u00a0", " ")) ?? [];
  return 60 * Number(minutes) + Number(seconds);
}

describe("safety comes before training", () => {
  test("pressure is asked for only where speed, grade and turn allow it", () => {
    for (const { name, ride, plan, words } of said) {
      const all = [words.message, words.page, ...words.film].join("\n");
      for (const sentence of all.split(/(?<=[.?!])\s/)) {
        const asks =
          /\bkeep (a light|the|pressing)\b.*pressure|\bpress (a little|on|over|harder)|push (more|harder|on)\b|closer to the plan/i;
        if (!asks.test(sentence)) continue;
        const free =
          /free and level or rising/.test(sentence) || plan.setting === "trainer" || /no one thing/i.test(sentence);
        expect(free, `${name}: ${sentence}`).toBe(true);
      }
      if (plan.setting === "trainer") continue;
      // What is shown as evidence of missing pressure, and what is asked about, is no descent, corner, stop or traffic.
      const { story, reading } = words.data;
      const shown = new Set(words.data.film.items.flatMap(({ moment }) => (moment === null ? [] : [moment])));
      for (const index of shown) {
        const moment = reading.moments[index]!;
        if (moment.kind !== "lapse") continue;
        const asked = story.facts.askable.filter((one) => one.startS < moment.endS && one.endS > moment.startS);
        expect(asked.length, `${name} at ${moment.startS}`).toBeGreaterThan(0);
      }
      for (const span of story.facts.askable) {
        const figures = lapseFigures(ride, span);
        expect(figures.gradePercent).toBeGreaterThanOrEqual(-1);
        expect(figures.turnDeg).toBeLessThan(30);
        expect(figures.leastKmh).toBeGreaterThan(10);
        expect(figures.startKmh).toBeLessThan(43.3);
      }
    }
  });

  test("the sheet before the ride asks for it nowhere else", () => {
    const told = (setting: "road" | "trainer") =>
      planSheetWords("en").todo({ ...defaultPlan({ setting }), lowW: 170, highW: 200, lengthS: null });
    expect(told("road")[0]).toMatch(/free and level or rising, keep a light, even pressure/);
    expect(told("trainer").join(" ")).not.toMatch(/road|rise/);
  });

  test("the film's caution names cameras and the computer", () => {
    for (const { words } of said)
      expect(words.film.at(-1)).toMatch(/Touch neither camera nor bike computer while you move/);
  });
});

describe("what went well and what to change", () => {
  test("no praise below 60 %, and never the opposite of what follows", () => {
    for (const { name, words } of said) {
      const lines = words.message.split("\n");
      expect(lines.length, name).toBeGreaterThan(2);
      const [, held, change] = lines as [string, string, string];
      const percent = /(\d+) %/.exec(held)?.[1];
      if (percent !== undefined) expect(Number(percent), `${name}: ${held}`).toBeGreaterThanOrEqual(60);
      // Most of the ride at the plan is no opposite of the part that was not (storyChange.test.ts); less is.
      if (/at the planned power|in the planned heart range/.test(held) && /^Ride (easier|more evenly)/.test(change))
        expect(Number(percent), `${name}: ${held} ${change}`).toBeGreaterThanOrEqual(
          2 * Number(/above .*?(\d+) % of the main part/.exec(change)![1]),
        );
      if (/cadence was even/.test(held)) expect(change).not.toMatch(/cadence/);
    }
  });
});

describe("the next ride", () => {
  test("is one small step", () => {
    for (const { words } of said) {
      const step = words.data.story.next;
      if ("askS" in step) expect(step.askS).toBeLessThanOrEqual(words.data.story.facts.mainS * 1.35 + 300);
    }
  });
});

describe("every setting speaks its own language", () => {
  test("a trainer has no rises, no road and no way", () => {
    for (const { plan, words } of said) {
      if (plan.setting !== "trainer") continue;
      const all = [words.message, words.page.split("Good to know")[0], ...words.film.slice(0, -1)].join("\n");
      expect(all).not.toMatch(/\brise\b|\brises\b|uphill|road|\bkm\b/i);
    }
  });

  test("nothing is said of a sensor that the file has not", () => {
    for (const { name, ride, words } of said) {
      const all = [words.message, words.page.split("Good to know")[0], ...words.film.slice(0, -1)].join("\n");
      if (ride.grid.power === null) expect(all, name).not.toMatch(/planned power|Power and heart|\d W\b/);
      if (ride.grid.heartRate === null) expect(all, name).not.toMatch(/and heart rate|your heart|level heart/i);
    }
  });
});
