// A coach's words and reasons from the command line: they stand in debrief.json as the window would put them there, film
// and message follow, each can be taken back, and nothing is written where somebody else has the debrief open.
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { hostname, tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { judge } from "../../main/cli/verbs/judge.ts";
import { say } from "../../main/cli/verbs/say.ts";
import type { SaidWords } from "../../main/contract/saidWords.ts";
import type { DebriefDocument } from "../../main/contract/debrief.ts";
import { loadDebrief } from "../../main/debrief/debriefStore.edge.ts";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { openDebrief } from "../../main/journey/openDebrief.ts";
import { prepareDebrief } from "../../main/journey/preparedDebrief.ts";
import { shellWord } from "../../overlay/words/shellWord.ts";
import { aboutText } from "../../overlay/words/aboutText.ts";
import { clockText } from "../../overlay/words/numbers.ts";
import { debriefRequest } from "../support/debriefRequest.ts";
import { rejected } from "../support/said.ts";
import { testHost } from "../support/tools.ts";

const context = { signal: new AbortController().signal, report: () => undefined, language: "en" as const };
/** A debrief of a ride without footage. */
const request = debriefRequest({ paths: [], targetW: 162, language: "en" });

let root = "";
let folder = "";

async function says(options: Record<string, string | string[]> = {}): Promise<SaidWords> {
  return (await say.run([folder], options, context)).json as SaidWords;
}
const line = ({ lines }: SaidWords, what: string) => lines.find((one) => one.what === what)!;
const document = async (): Promise<DebriefDocument> => (await loadDebrief(folder)).document;
const text = (): string => readFileSync(join(folder, "debrief.json"), "utf8");

beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), "followcar-says-"));
  process.env.FOLLOWCAR_CACHE = join(root, "cache");
  const ridePath = join(root, "ride.fit");
  writeFileSync(ridePath, demoRideFile(demoRide(7)));
  ({ folder } = await prepareDebrief({ ...request, paths: [ridePath] }, testHost(), context, false));
}, 120_000);

afterAll(() => {
  delete process.env.FOLLOWCAR_CACHE;
  rmSync(root, { recursive: true, force: true });
});

describe("say", () => {
  it("shows all that is said without changing anything", async () => {
    const before = text();
    const said = await says();
    expect(said.lines.map(({ what, by }) => `${what} ${by}`)).toEqual([
      "held made",
      "change made",
      "next made",
      "notes made",
      "questions made",
    ]);
    for (const { text, made } of said.lines) expect(text).toBe(made);
    expect(said.message.trim().split("\n")[2]).toBe(line(said, "change").text);
    expect(text()).toBe(before);
  }, 60_000);

  it("puts the coach's words in place of made ones, in message and film, and takes them back", async () => {
    const made = await says();
    const own = await says({ change: " Start the rise lower. ", question: ["Cold?", "Who pulled?"], note: "Good." });
    expect(line(own, "change")).toEqual({
      what: "change",
      text: "Start the rise lower.",
      by: "yours",
      made: line(made, "change").made,
    });
    expect(line(own, "questions").text).toBe("Cold?\nWho pulled?");
    expect(line(own, "held")).toEqual(line(made, "held"));
    expect(own.message).toContain("Start the rise lower.");
    expect((await document()).words).toMatchObject({ change: "Start the rise lower.", notes: "Good.", held: null });
    const { standing } = await openDebrief(folder, testHost(), false);
    expect(JSON.stringify(standing.film)).toContain("Start the rise lower.");
    expect(readFileSync(join(folder, "debrief.json.bak"), "utf8")).not.toContain("Start the rise lower.");
    expect(await says({ made: ["change", "questions", "note"] })).toEqual(made);
  }, 120_000);

  it("puts the coach's own length of the next ride into the made line, and takes it back", async () => {
    const made = await says();
    const own = await says({ "next-length": "95" });
    expect(line(own, "next")).toMatchObject({ by: "made" });
    expect(line(own, "next").text).toContain("for 1 h 35 min.");
    expect((await document()).words.nextS).toBe(5700);
    expect((await document()).figures?.askedS).toBe(5700);
    expect(await rejected(says({ "next-length": "3" }))).toContain("a number of minutes from 5 to 1440");
    expect(await rejected(says({ "next-length": "1h30" }))).toContain("--next-length 1h30");
    expect(await says({ made: ["next-length"] })).toEqual(made);
    expect((await document()).words.nextS).toBeNull();
  }, 120_000);

  it("refuses what says nothing, too much or two things", async () => {
    const before = text();
    const refusal = (options: Record<string, string | string[]>): Promise<string> => rejected(says(options));
    expect(await refusal({ change: "  " })).toContain("--made change");
    expect(await refusal({ question: ["a", "b", "c", "d"] })).toContain("three questions");
    expect(await refusal({ made: ["title"] })).toContain("held, change, next, next-length, note, questions");
    expect(await refusal({ made: ["held"], held: "x" })).toContain("Leave one of the two away");
    expect(await refusal({ change: "x".repeat(20_001) })).not.toBe("");
    expect(text()).toBe(before);
  }, 60_000);
});

describe("judge", () => {
  it("gives a break a reason by a time within it, and the computed one back", async () => {
    const { reading } = (await openDebrief(folder, testHost(), false)).standing.judged;
    const lapse = reading.breaks.find((one) => one.lapse)!;
    const at = clockText(lapse.startS + 2);
    const judged = async (words: string[]) => (await judge.run([folder], { break: words }, context)).lines;
    expect((await judged([`${at}=descent`]))[0]).toMatch(/steep descent, excused/);
    expect((await document()).overrides).toEqual([
      { what: "break", startS: lapse.startS, endS: lapse.endS, set: "steep descent", reason: null },
    ]);
    const now = (await openDebrief(folder, testHost(), false)).standing.judged.reading;
    expect(now.breaks.filter((one) => one.lapse)).toHaveLength(reading.breaks.filter((one) => one.lapse).length - 1);
    expect((await judged([`${at}=van from the left`]))[0]).toContain("van from the left");
    expect((await document()).overrides).toHaveLength(1);
    expect((await judged([`${at}=computed`]))[0]).toContain("a lapse");
    expect((await document()).overrides).toEqual([]);
  }, 120_000);

  it("refuses a time without a break, an unknown reason, and a known one with a slip in it", async () => {
    const before = text();
    const refusal = (word: string): Promise<string> => rejected(judge.run([folder], { break: [word] }, context));
    expect(await refusal("0:00:10=descent")).toMatch(/no break in pressure at 0:00:10; the nearest begins at/);
    expect(await refusal("1:00:00=decent")).toContain("decent is not known");
    expect(await refusal("1:00:00")).toContain("1:54:00=descent");
    expect(await refusal("later=descent")).toContain("later is no time");
    expect(text()).toBe(before);
  }, 60_000);

  it("names the nearest break so that the remedy can be done as told, however short the break is", async () => {
    const { breaks } = (await openDebrief(folder, testHost(), false)).standing.judged.reading;
    // One that no list of longer ones holds, with nothing near it.
    const short = breaks.find(
      ({ startS, endS }, index) => endS - startS < 10 && startS - (breaks[index - 1]?.endS ?? 0) > 60,
    )!;
    const refusal = await rejected(judge.run([folder], { break: [`${clockText(short.startS - 20)}=corner`] }, context));
    expect(refusal).toContain(`and lasts ${Math.round(short.endS - short.startS)} s.`);
    expect(refusal).toContain("`followcar read RIDE --breaks` lists those of 10 s or more");
    const time = /give --break ([\d:]+)=REASON/.exec(refusal)![1]!;
    const judged = (words: string) => judge.run([folder], { break: [`${time}=${words}`] }, context);
    expect((await judged("corner")).json).toMatchObject({ breaks: [{ startS: short.startS, reason: "corner" }] });
    await judged("computed");
  }, 120_000);

  it("ticks what was practised, asked for or not", async () => {
    const tick = (...skill: string[]) => judge.run([folder], { skill }, context);
    expect((await tick("drops=2", "one-hand=3")).lines).toEqual([
      "Hands in the drops: done 2 times",
      "One hand: done 3 times",
    ]);
    expect((await tick("drops=1")).json).toMatchObject({
      breaks: [],
      skills: [{ skill: "drops", repeats: null, done: 1 }, {}],
    });
    expect((await document()).plan.skills).toHaveLength(2);
    // Not asked for and not done is nothing to tell.
    expect((await tick("breathing=0")).json).toMatchObject({ skills: [{ skill: "drops" }, { skill: "one hand" }] });
    expect((await document()).plan.skills).toHaveLength(2);
    expect((await says()).message).toMatch(/practised: (hands in the drops, once|one hand, 3 times)/);
    expect(await rejected(tick("wheelies=2"))).toContain("drops, one hand, breathing, corners");
    expect(await rejected(tick("drops=often"))).toContain("how many times");
  }, 120_000);

  it("writes nothing where another program has the debrief open", async () => {
    const lock = join(folder, "debrief.lock");
    writeFileSync(lock, JSON.stringify({ pid: process.ppid, host: hostname(), since: new Date().toISOString() }));
    const before = text();
    expect(await rejected(says({ change: "Other words." }))).toMatch(/open/);
    expect(text()).toBe(before);
    rmSync(lock);
  }, 60_000);
});

describe("files that were handed over before", () => {
  const LAST = "Not yet in message.txt, debrief.html, film.mp4: followcar render FOLDER --hand-over";
  const lastOf = ({ lines }: { lines: readonly string[] }): string => lines.at(-1)!.replace(folder, "FOLDER");

  it("are named with the command that makes them say what was changed, only where they were made", async () => {
    const fresh = await say.run([folder], { next: "Ride it again." }, context);
    expect(fresh.json).toMatchObject({ outdated: [] });
    expect(fresh.lines.join("\n")).not.toContain("followcar render");
    const { message } = fresh.json as SaidWords;
    for (const name of ["message.txt", "debrief.html", "film.mp4"]) writeFileSync(join(folder, name), message);
    expect((await say.run([folder], {}, context)).lines.join("\n")).not.toContain("followcar render");
    const changed = await say.run([folder], { next: "Ride it lower." }, context);
    expect(lastOf(changed)).toBe(LAST);
    expect(changed.json).toMatchObject({
      outdated: [join(folder, "message.txt"), join(folder, "debrief.html"), join(folder, "film.mp4")],
    });
    // Who looks at it later is told of the message that would be sent.
    const later = await say.run([folder], {}, { ...context, language: "de" });
    expect(lastOf(later)).toBe("Noch nicht in message.txt: followcar render FOLDER --hand-over");
    const ticked = await judge.run([folder], { skill: ["corners=2"], "trust-paths": true }, context);
    expect(lastOf(ticked)).toBe(`${LAST} --trust-paths`);
    expect(ticked.json).toMatchObject({
      outdated: [join(folder, "message.txt"), expect.any(String), expect.any(String)],
    });
    // The same once more changes nothing: what was handed over in between says it.
    const { standing } = await openDebrief(folder, testHost(), false);
    const [first] = standing.judged.reading.breaks;
    const same = { skill: ["corners=2"], break: [`${clockText(first!.startS)}=descent`] };
    expect((await judge.run([folder], same, context)).json).toMatchObject({ outdated: { length: 3 } });
    writeFileSync(join(folder, "message.txt"), (await says()).message);
    expect((await judge.run([folder], same, context)).json).toMatchObject({ outdated: [] });
  }, 120_000);

  it("are named by a command that a shell takes as it stands", () => {
    expect(["sunday-debrief", "my ride", 'the "long" $1', "-x"].map(shellWord)).toEqual([
      "sunday-debrief",
      '"my ride"',
      '"the \\"long\\" \\$1"',
      "./-x",
    ]);
  });
});

describe("what was asked", () => {
  it("comes back with the athlete's next ride, from one debrief's file to the other's message", async () => {
    const athleteDir = join(root, "mara");
    mkdirSync(athleteDir);
    const shown = async (name: string, truth: ReturnType<typeof demoRide>, language: "en" | "de" = "en") => {
      const ridePath = join(root, `${name}.fit`);
      writeFileSync(ridePath, demoRideFile(truth));
      const outDir = join(athleteDir, name);
      await prepareDebrief({ ...request, paths: [ridePath], outDir, athleteDir, language }, testHost(), context, false);
      return outDir;
    };
    const first = await shown("first", demoRide(7));
    const asked = (await say.run([first], { "next-length": "100" }, context)).json as SaidWords;
    expect(asked.message).toContain("for 1 h 40 min.");
    expect(asked.message).not.toContain("last time");
    const week = demoRide(8);
    const second = await shown("second", { ...week, startUtcMs: week.startUtcMs + 7 * 86_400_000 });
    const { message } = (await say.run([second], {}, context)).json as SaidWords;
    const { heldLowS, heldHighS } = (await loadDebrief(second)).document.figures ?? {};
    expect(heldLowS).not.toBeNull();
    const held = heldHighS === null ? `held at least ${aboutText(heldLowS ?? 0)}` : "held ";
    expect(message).toContain(`Asked 1 h 40 min last time: ${held}`);
    expect(message).toMatch(/held (at least )?(\d+ h )?\d+ min( to (\d+ h )?\d+ min)?\. /);
    const german = await shown("third", { ...week, startUtcMs: week.startUtcMs + 14 * 86_400_000 }, "de");
    expect(((await say.run([german], {}, context)).json as SaidWords).message).toContain("Beim letzten Mal verlangt");
  }, 240_000);
});
