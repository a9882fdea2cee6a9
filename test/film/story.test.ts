import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import type { Plan, RiderNote } from "../../main/contract/plan.ts";
import { type DriftReading, PressureState } from "../../main/contract/reading.ts";
import type { Shot } from "../../main/contract/film.ts";
import type { Ride } from "../../main/contract/ride.ts";
import { rideFigures } from "../../main/debrief/rideFigures.ts";
import { newDebrief } from "../../main/debrief/debriefDocument.ts";
import { questionsFor } from "../../main/handover/handoverLines.ts";
import { saidWords } from "../../main/handover/saidWords.ts";
import { squadTold } from "../../main/handover/squadTold.ts";
import { judgeRide, readJson, readLines } from "../../main/journey/judge.ts";
import { nextStep } from "../../main/film/nextStep.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { noteHold } from "../../main/reading/facts/noteHold.ts";
import { rideTimeAt } from "../../overlay/instant/rideTimeAt.ts";
import type { DebriefStory } from "../../overlay/words/debriefStory.ts";
import { debriefWords } from "../../overlay/words/debriefWords.ts";
import { planSheetWords } from "../../overlay/words/planSheetWords.ts";
import { durationText } from "../../overlay/words/numbers.ts";
import {
  bareRidePlan,
  type NamedRide,
  type RideWords,
  ridesWithSensors,
  sensiblePlan,
  wordsOf,
} from "../support/rideWords.ts";
import { lapseFigures } from "../bench/lapses.ts";
import { madeRide } from "./madeReading.ts";
import { makeRide } from "../support/makeRide.ts";

const folders = process.env.FOLLOWCAR_DATA
  ? ["fit", "gpx", "tcx"].map((kind) => join(process.env.FOLLOWCAR_DATA!, kind))
  : ["test/fixtures/rides"];

/** A ride at the plan for so long, with a heart that moves by as much as hearts do; it rolls for 12 s at each pause. */
function evenRide(seconds: number, powerW = 200, pauses: readonly number[] = []): Ride {
  /** Seconds since a pause began, or null outside it and the way back to speed. */
  const since = (t: number): number | null => {
    const start = pauses.find((one) => t >= one && t < one + 36);
    return start === undefined ? null : t - start;
  };
  const rolling = (t: number): boolean => (since(t) ?? 99) < 12;
  const at = (f: (t: number) => number): number[] => Array.from({ length: seconds }, (_, t) => f(t));
  const noise = (t: number): number => Math.sin(t * 12.9898) * 0.5;
  return makeRide({
    powerW: at((t) => (rolling(t) ? 0 : powerW + Math.round(6 * Math.sin(t / 7)))),
    heartRateBpm: at((t) => 138 + Math.round(Math.sin(t / 47) + noise(t))),
    cadenceRpm: at((t) => (rolling(t) ? 0 : 88 + Math.round(2 * Math.sin(t / 11)))),
    // Rolling free on the level costs about 0.2 m/s each second at this speed.
    speedMps: at((t) => 8 - 0.2 * Math.min(since(t) ?? 0, 12) + Math.max(0, (since(t) ?? 0) - 12) * 0.1),
    altitudeM: at(() => 100),
    latDeg: at((t) => 47.1 + t * 7e-5),
    lonDeg: at(() => 11.6),
  });
}

/** Two hours at 200 W, a third of them at 235. */
function hardThirdRide(): Ride {
  const ride = evenRide(7200, 200, [4000, 4600, 5200]);
  const { power, power3sW, power30sW } = ride.grid;
  for (let t = 1000; t < 3400; t++) for (const column of [power!.value, power3sW!, power30sW!]) column[t] = 235;
  return ride;
}

let rides: NamedRide[] = [];
const said: { name: string; ride: Ride; plan: Plan; words: RideWords }[] = [];
beforeAll(async () => {
  rides = [
    ...(await ridesWithSensors(folders)),
    { name: "made", ride: madeRide() },
    { name: "even", ride: evenRide(7200) },
  ];
  for (const { name, ride } of rides)
    for (const plan of [sensiblePlan(ride), bareRidePlan(ride)])
      said.push({ name, ride, plan, words: await wordsOf(ride, plan, { filmed: plan.targetW !== null }) });
}, 300_000);

const cell = (page: string, label: string): string | null =>
  new RegExp(`^${label} \\|[^|]*\\| ([^|]*?) \\|`, "m").exec(page)?.[1] ?? null;

/** What is said of a ride at so many watts with so many asked, by every door, in both languages. */
async function doubted(ride: Ride, plan: Plan, more: { nextS?: number } = {}) {
  const made = await Promise.all(
    (["en", "de"] as const).map(async (language) => {
      const own = { held: null, change: null, next: null, nextS: more.nextS ?? null, notes: null, questions: null };
      return wordsOf(ride, plan, { language, filmed: true, more: { words: own } });
    }),
  );
  return made.map((words) => ({ ...words, all: [words.message, words.page, ...words.film].join("\n") }));
}

describe("a target that looks wrong for the ride", () => {
  const asked = (targetW: number): Plan =>
    defaultPlan({ setting: "road", targetW, toleranceW: 15, eventS: 14_400, eventName: "Three Valleys" });

  test.each([
    [107, 170],
    [282, 180],
  ])("ridden %s W, asked %s W: the target comes first, in every output and both languages", async (riddenW, askedW) => {
    for (const words of await doubted(evenRide(9000, riddenW), asked(askedW))) {
      const { reading, facts } = words.standing.judged;
      expect(facts.targetDoubt).toEqual({ by: "power", askedW, riddenW: facts.meanW });
      expect(words.data.story.next.kind).toBe("target");
      expect(words.all).not.toMatch(/once more|noch einmal|Ride easier|Fahr leichter|closer to|näher/u);
      const line = words.message.split("\n")[3]!;
      expect(line).toMatch(
        /Talk with your coach about the target first|Sprich mit deinem Trainer zuerst über das Ziel/u,
      );
      expect(words.page).toContain(line);
      expect(words.film.join("\n")).toContain(line);
      // The event's rule of thumb is about the planned power, and no week asks for it.
      expect(words.data.story.event).toBeNull();
      // The coach is told why, and what to do, on the coach's page, the command line and in its JSON.
      const code = reading.warnings.map((one) => one.code);
      expect(code).toContain("reading-target-doubt");
      expect(words.coach).toMatch(/--target/u);
      expect(readLines(words.standing.judged, "en").join("\n")).toContain(`asked ${askedW} W, ridden ${facts.meanW} W`);
      expect(readJson(words.standing.judged, "en")).toMatchObject({
        target: { doubt: { by: "power", askedW, riddenW: facts.meanW } },
      });
    }
  });

  test("a coach who says how long the next ride is keeps the target", async () => {
    for (const { message } of await doubted(evenRide(9000, 107), asked(170), { nextS: 5400 }))
      expect(message).toMatch(/Ride at 170 W for 1 h 30 min\.|Fahr 170 W, 1 h 30 min lang\./u);
  });

  test("much rolling between pressure at the plan, and a rider carried away, do not put it in doubt", () => {
    const rolling = makeRide({
      powerW: Array.from({ length: 9000 }, (_, t) => (t % 60 < 27 ? 0 : 170)),
      cadenceRpm: Array.from({ length: 9000 }, (_, t) => (t % 60 < 27 ? 0 : 85)),
    });
    const judged = judgeRide(rolling, asked(170), []);
    expect(judged.facts.meanW! / 170).toBeLessThan(0.7);
    expect(judged.facts.targetDoubt).toBeNull();
    expect(judgeRide(evenRide(9000, 204), asked(170), []).facts.targetDoubt).toBeNull();
  });

  test("a heart far outside the planned range, without power", async () => {
    const ride = evenRide(9000);
    const bare: Ride = { ...ride, grid: { ...ride.grid, power: null, power30sW: null } };
    const plan = defaultPlan({ setting: "road", heartLowBpm: 100, heartHighBpm: 112 });
    for (const { message, all } of await doubted(bare, plan)) {
      expect(message).toMatch(
        /a heart rate of 100 to 112 was asked, 138 was|ein Puls von 100 bis 112, gefahren im Mittel 138/u,
      );
      expect(all).not.toMatch(/once more|noch einmal/u);
    }
    const near = defaultPlan({ setting: "road", heartLowBpm: 115, heartHighBpm: 127 });
    expect(judgeRide(bare, near, []).facts.targetDoubt).toBeNull();
  });
});

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

test("a cadence sensor that wrote nothing keeps no heart from being judged", () => {
  const ride = evenRide(9000);
  const cadence = { ...ride.grid.cadence!, value: new Float64Array(9000).fill(NaN) };
  const silent: Ride = { ...ride, grid: { ...ride.grid, power: null, power30sW: null, cadence } };
  const { facts } = judgeRide(silent, defaultPlan({ setting: "road", heartLowBpm: 132, heartHighBpm: 144 }), []);
  expect(facts.shares?.inPercent).toBe(100);
  // Nor does it know of any pressure.
  expect([facts.pressed, facts.longestUnbrokenS]).toEqual([null, null]);
});

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

test("a distance that nobody rode in the recording is not told", async () => {
  const [cut] = (await ridesWithSensors(["test/fixtures/rides"])).filter(({ name }) => name === "empty-places.tcx");
  const { page } = await wordsOf(cut!.ride, sensiblePlan(cut!.ride));
  expect(cell(page, "Whole ride")).toBe("1 s");
});

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

  test("a note of illness holds every line of every ride", async () => {
    for (const { name, ride } of rides) {
      const plan = sensiblePlan(ride);
      const ill = { ...plan, note: { ...plan.note, feel: "rode with a fever" } };
      const words = await wordsOf(ride, ill, { filmed: true });
      const { message, page, film } = words;
      saysNothingToChange(words, "Nothing to change on this ride: get well first.");
      const next = message.split("\n")[3];
      expect(next, name).toMatch(/rest and recovery come first.*decide with your coach/);
      const all = [message, page.split("Good to know")[0], ...film].join("\n");
      expect(all, name).not.toMatch(
        /longer than|once more|closer to the plan|keep a light pressure|Rule of thumb|build up/i,
      );
    }
  });

  /** Kinds of moment that show a fault, or when the heart gave way. */
  const FAULTS = new Set(["riseThenOff", "surge", "lapse", "breakRun", "cadenceBlock", "driftOnset"]);

  test.each<[keyof RiderNote, string, RegExp, RegExp]>([
    ["feel", "rode with a fever", /get well first\.$/, /Werde erst einmal gesund\.$/],
    ["feel", "my chest felt tight", /see a doctor first\.$/, /Geh zuerst zum Arzt\.$/],
    ["illness", "a cold", /get well first\.$/, /Werde erst einmal gesund\.$/],
    ["feel", "my knee hurt all day", /get well first\.$/, /Werde erst einmal gesund\.$/],
    ["medicine", "ibuprofen", /your health comes first\.$/, /Deine Gesundheit geht vor\.$/],
    ["sleep", "4 h", /sleep enough first\.$/, /Schlaf dich erst einmal aus\.$/],
    ["foodAndDrink", "nothing to eat", /eat and drink enough first\.$/, /Iss und trink erst einmal genug\.$/],
    ["illness", "a bit of something", /your note comes first\.$/, /Deine Notiz geht vor\.$/],
  ])("%s: %s: nothing to change, no fault shown or asked about, in any output", async (field, text, en, de) => {
    const ride = hardThirdRide();
    const plan = sensiblePlan(ride);
    const ill = { ...plan, note: { ...plan.note, [field]: text } };
    for (const [language, change] of [["en", en] as const, ["de", de] as const]) {
      const words = await wordsOf(ride, ill, { language, filmed: true });
      const line = words.message.split("\n")[2]!;
      expect(line).toMatch(/^(Nothing to change on this ride|An dieser Fahrt gibt es nichts zu ändern): /u);
      expect(line).toMatch(change);
      saysNothingToChange(words, line);
      // The coach sees what the ride alone would say, and what the coach says wins.
      const [, , alone] = (await wordsOf(ride, plan, { language, filmed: true })).message.split("\n");
      expect(alone).toMatch(/above the planned 205 W|über den geplanten 205 W/u);
      expect(words.coach).toContain(alone);
      const own = { held: null, change: "Sit up at the top.", next: null, nextS: null, notes: null, questions: null };
      const said = await wordsOf(ride, ill, { language, filmed: true, more: { words: own } });
      expect(said.message.split("\n")[2]).toBe("Sit up at the top.");
      expect(said.film.join("\n")).toContain("Sit up at the top.");
    }
  });

  /** No card with what to change, no moment that shows a fault; the coach is told why. Asked is how they are. */
  function saysNothingToChange(words: RideWords, line: string): void {
    const { film, reading } = words.data;
    expect(words.page).toContain(line);
    expect(saidWords(words.data, words.standing.document.words).lines[1]!.text).toBe(line);
    expect(squadTold(words.data, 0, []).lines[1]).toBe(line);
    const kinds = film.items.flatMap(({ moment }) => (moment === null ? [] : reading.moments[moment]!.kind));
    expect(kinds.filter((kind) => FAULTS.has(kind))).toEqual([]);
    expect(film.items.map(({ id }) => id)).not.toContain("change");
    if (reading.moments.some(({ kind }) => FAULTS.has(kind)))
      expect(film.leftOut.join("\n")).toMatch(/the rider's note comes before|die Notiz des Fahrers geht vor/u);
    expect(words.message.split("\n")[4]).toMatch(/How are you now\?|Wie geht es dir jetzt\?/u);
    expect(questionsFor(words.data, debriefWords(words.data.language)).join(" ")).not.toMatch(/\d/u);
  }

  test("an ill rider's film shows the ride where it was filmed, and ends with rest", async () => {
    const ride = evenRide(7200);
    const plan = sensiblePlan(ride);
    const { standing, film } = await wordsOf(
      ride,
      { ...plan, note: { ...plan.note, feel: "fever" } },
      { filmed: true },
    );
    expect(standing.film.items.map(({ id }) => id)).toEqual(["title", "plan", "held", "heart", "closing"]);
    expect(film[2]).toBe("(shot) Here the pressure was steady / Now getting well comes first");
  });

  test("a lesson made of an ill rider's ride neither teaches a fault nor says why not", async () => {
    const ride = madeRide();
    const plan = sensiblePlan(ride);
    const ill = { ...plan, note: { ...plan.note, feel: "fever" } };
    const document = newDebrief(ill, [], "ride");
    for (const language of ["en", "de"] as const) {
      const settings = { ...document.settings, language, forWhom: "lesson" as const };
      const { message, page, film, data } = await wordsOf(ride, ill, { filmed: true, more: { settings } });
      const all = [message, page, ...film].join("\n");
      expect(all).not.toMatch(/Your note|get well|comes? first|Notiz|gesund|geht vor/iu);
      expect(message).toMatch(/without anything to change|ohne dass daran etwas zu ändern wäre/u);
      const kinds = data.film.items.flatMap(({ moment }) =>
        moment === null ? [] : data.reading.moments[moment]!.kind,
      );
      expect(kinds.filter((kind) => FAULTS.has(kind))).toEqual([]);
    }
  });

  const note = (field: keyof RiderNote, text: string): RiderNote => ({ ...defaultPlan().note, [field]: text });
  test.each<[keyof RiderNote, string]>([
    ["feel", "I had a fever yesterday"],
    ["feel", "not great, chest felt tight"],
    ["feel", "no fever, but a sore throat"],
    ["feel", "Fieber war gestern noch da"],
    ["feel", "ohne Fieber, aber starke Kopfschmerzen"],
    ["feel", "Brustschmerzen beim Treten"],
    ["feel", "mir war schwindlig"],
    ["feel", "heart was racing at the top"],
    ["feel", "felt faint after the climb"],
    ["feel", "not without pain"],
    ["illness", "getting over the flu"],
    ["illness", "Erkältung"],
    ["illness", "a bit of something"],
    ["illness", "irgendwas im Anflug"],
    ["medicine", "Ibuprofen"],
    ["medicine", "blood pressure stuff"],
    ["medicine", "Betablocker seit Montag"],
    ["kit", "crashed on the gravel, knee hurts"],
    ["sleep", "4 h"],
    ["sleep", "5,5 Stunden"],
    ["sleep", "hardly slept"],
    ["sleep", "schlecht geschlafen"],
    ["feel", "slept 3 hours"],
    ["foodAndDrink", "no breakfast"],
    ["foodAndDrink", "nichts gegessen"],
    ["foodAndDrink", "ran out of food at half way"],
    ["feel", "\u{1F912}\u{1F912}"],
    ["illness", "\u0645\u0631\u064A\u0636 \u0627\u0644\u064A\u0648\u0645"],
    ["feel", "x".repeat(10_001)],
  ])("%s: %s holds", (field, text) => {
    expect(noteHold(note(field, text))).not.toBeNull();
  });

  test.each<[keyof RiderNote, string]>([
    ["feel", "no fever"],
    ["feel", "No chest pain, no dizziness."],
    ["feel", "strong all day, legs good"],
    ["feel", "kein Fieber und keine Schmerzen"],
    ["feel", "schmerzfrei"],
    ["feel", "pain-free"],
    ["illness", "none"],
    ["illness", "not ill"],
    ["illness", "keine"],
    ["illness", "gesund"],
    ["medicine", "no medicine"],
    ["medicine", "nein"],
    ["sleep", "8 h"],
    ["sleep", "7,5 Stunden, gut"],
    ["foodAndDrink", "2 bottles, 3 bars"],
    ["foodAndDrink", "zwei Flaschen, drei Riegel"],
    ["heat", "28 degrees, windy"],
    ["heat", "cold and wet"],
    ["feel", "good \u{1F600}"],
    ["illness", ""],
  ])("%s: %s holds nothing", (field, text) => {
    expect(noteHold(note(field, text))).toBeNull();
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
      if (/at the planned power|in the planned heart range/.test(held))
        expect(change).not.toMatch(/^Ride (easier|more evenly)/);
      if (/cadence was even/.test(held)) expect(change).not.toMatch(/cadence/);
    }
  });

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

describe("the next ride", () => {
  const plan = (more: Partial<Plan> = {}): Plan =>
    defaultPlan({
      targetW: 200,
      toleranceW: 15,
      warmUpS: 600,
      coolDownS: 600,
      eventS: 4 * 3600,
      eventName: "Three Valleys",
      ...more,
    });

  test("is one small step, never a leap to the event", async () => {
    const { data, message } = await wordsOf(evenRide(7200), plan());
    const { next, facts } = data.story;
    expect(facts.mainS).toBe(6000);
    if (next.kind === "longer") {
      expect(next.askS).toBe(6900);
      expect(message).toContain("1 h 55 min, 15 min longer than this time");
    } else expect(next).toEqual({ kind: "same", askS: 6000, because: "can't tell" });
    for (const { words } of said) {
      const step = words.data.story.next;
      if ("askS" in step) expect(step.askS).toBeLessThanOrEqual(words.data.story.facts.mainS * 1.35 + 300);
    }
  });

  test("the way to a known day is a step a week", async () => {
    const ride = evenRide(7200);
    const { data, page } = await wordsOf(ride, plan({ eventDate: "2026-08-02" }));
    const weeks = data.story.event!.weeks;
    expect(weeks.length).toBeGreaterThan(3);
    expect(new Date(weeks[0]!.mondayUtcMs).toISOString().slice(0, 10)).toBe("2026-05-18");
    for (const [index, week] of weeks.slice(1).entries()) {
      expect(week.askS - weeks[index]!.askS).toBeLessThanOrEqual(900);
      expect(week.askS).toBeGreaterThanOrEqual(weeks[index]!.askS);
    }
    expect(page).toContain("Week of 18 May 2026");
  });

  test.each([
    ["past", "2026-05-16", false],
    ["of the ride's own day", "2026-05-17", true],
    ["of tomorrow", "2026-05-18", true],
  ] as const)(
    "an event %s (%s): spoken of %s, by every door and in both languages",
    async (_when, eventDate, spoken) => {
      const ride = evenRide(7200);
      expect(new Date(ride.startUtcMs!).toISOString().slice(0, 10)).toBe("2026-05-17");
      for (const language of ["en", "de"] as const) {
        const { data, standing, message, page, film, coach } = await wordsOf(ride, plan({ eventDate }), { language });
        expect(data.story.event !== null).toBe(spoken);
        for (const [where, text] of Object.entries({ page, film: film.join("\n") }))
          expect(text.includes("Three Valleys"), where).toBe(spoken);
        const { judged, document } = standing;
        const read = readLines(judged, language).join("\n");
        for (const text of [read, coach]) expect(/The event takes|Das Ziel dauert/u.test(text)).toBe(spoken);
        expect(readJson(judged, language)).toMatchObject({ target: { eventS: spoken ? 4 * 3600 : null } });
        const figures = rideFigures(judged.ride, judged.plan, judged.reading, judged.facts, null);
        expect([figures.eventName, figures.eventS]).toEqual(spoken ? ["Three Valleys", 4 * 3600] : [null, null]);
        if (!spoken)
          expect([message, page, ...film, read, coach].join("\n")).not.toMatch(/Three Valleys|your event asks/u);
        // The coach's own plan is as it was written.
        expect(document.plan.eventName).toBe("Three Valleys");
      }
    },
  );

  test("an event that is over sets no length to the next ride", async () => {
    const short = (eventDate: string) => plan({ eventDate, eventS: 3600 });
    const steps = await Promise.all(
      ["2026-05-16", "2026-06-16"].map(
        async (eventDate) => (await wordsOf(evenRide(7200), short(eventDate))).data.story.next.kind,
      ),
    );
    expect(steps[1]).not.toBe(steps[0]);
  });

  test("the coach's own length stands", async () => {
    const ride = evenRide(7200);
    const { standing } = await wordsOf(ride, plan());
    const { message } = await wordsOf(ride, plan(), { more: { words: { ...standing.document.words, nextS: 5400 } } });
    expect(message).toContain("Ride at 200 W for 1 h 30 min.");
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

describe("the last ride like it", () => {
  test("is compared in one line, only where it can tell", async () => {
    const compareLine = (story: DebriefStory): string | null => debriefWords("en").compareLine(story);
    const { data } = await wordsOf(evenRide(7200), defaultPlan({ targetW: 200, toleranceW: 15 }));
    const { facts } = data.story;
    expect(compareLine(data.story)).toBeNull();
    const like = { startUtcMs: Date.UTC(2026, 4, 10), inBand: null, breaksAnHour: null, heart: null };
    expect(compareLine({ ...data.story, facts: { ...facts, lastLike: like } })).toBeNull();
    const better = { ...like, inBand: { before: 61, now: 70 }, heart: { beats: -6, giveOrTake: 4 } };
    expect(compareLine({ ...data.story, facts: { ...facts, lastLike: better } })).toBe(
      "Beside your last ride like this (10 May 2026): 70 % at the plan, after 61 %; heart rate early on 6 beats lower at the same power, give or take 4.",
    );
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
