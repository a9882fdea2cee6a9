import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readJourney, readJson, readLines } from "../../main/journey/judge.ts";
import { Failure } from "../../main/contract/failure.ts";
import { failureText } from "../../overlay/words/notices/noticeText.ts";

const choices = { planPath: null, athleteDir: null, targetW: null, toleranceW: null, setting: null };
const rides = "test/fixtures/rides";
let folder = "";
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "odd-"));
});
afterAll(() => rm(folder, { recursive: true }));

/** A ride as CSV: what a row holds at each second. */
async function csv(name: string, row: (s: number) => readonly (number | string)[], seconds = 3600): Promise<string> {
  const path = join(folder, name);
  const lines = Array.from({ length: seconds }, (_, s) => row(s).join(","));
  await writeFile(path, ["seconds,power,heart rate,cadence,speed (km/h)", ...lines].join("\n"));
  return path;
}
const power = (s: number) => 170 + ((s * 7919) % 31) - 15;
const heart = (s: number) => Math.round(134 + 3 * Math.sin(s / 90));
const cadence = (s: number) => Math.round(88 + 6 * Math.sin(s / 37) + ((s * 31) % 3));
const kmh = (s: number) => (30 + 3 * Math.sin(s / 50)).toFixed(1);

describe("everything odd about a file is said by read, in its lines and its JSON", () => {
  test.each([
    ["bad-crc.fit", "The file's checksum does not match: it was damaged or changed, and some values may be wrong."],
    ["cut-short.fit", "The file is shorter than it says; the records that are whole are read."],
    ["dead-heart-sensor.fit", "Heart rate is 0 throughout: the sensor is taken as absent."],
    [
      "five-sessions.fit",
      "The file holds 5 sessions (swimming, transition, cycling, transition, running); only what was ridden is read.",
    ],
  ])("%s", async (file, sentence) => {
    const outcome = await readJourney(join(rides, file), choices);
    const [lines, json] = [readLines(outcome, "en"), readJson(outcome, "en")];
    expect(lines).toContain(`Mind: ${sentence}`);
    expect((json as { warnings: string[] }).warnings).toContain(sentence);
  });

  test.each([
    [
      "zero.csv",
      (s: number) => [s, s < 1200 ? power(s) : 0, heart(s), cadence(s), kmh(s)],
      "Power stayed at 0 with the pedals turning from 0:20:00 to 1:00:00: the meter gave no data there.",
    ],
    [
      "ends.csv",
      (s: number) => [s, s < 1200 ? power(s) : "", heart(s), cadence(s), kmh(s)],
      "Power is missing from 0:20:00 to 1:00:00.",
    ],
    [
      "frozen.csv",
      (s: number) => [s, s < 1200 ? power(s) : 171, heart(s), cadence(s), kmh(s)],
      "Power stood still at one value from 0:20:00 to 1:00:00 while cadence and speed changed: it is left out there.",
    ],
    [
      "no-pulse.csv",
      (s: number) => [s, power(s), s < 1200 ? heart(s) : 255, cadence(s), kmh(s)],
      "The heart rate sensor had no pulse from 0:20:00 to 1:00:00: what it gave there is left out.",
    ],
  ])("%s", async (name, row, sentence) => {
    const outcome = await readJourney(await csv(name, row), { ...choices, targetW: 170 });
    const { reading } = outcome;
    const [lines, json] = [readLines(outcome, "en"), readJson(outcome, "en")];
    expect(lines).toContain(`Mind: ${sentence}`);
    expect((json as { warnings: string[] }).warnings).toContain(sentence);
    expect(reading.pressure.lapses).toBe(0);
    expect(reading.drift.driftBeats).toBeNull();
    expect(JSON.stringify(json)).not.toMatch(/NaN|Infinity/);
    expect(lines.join("\n")).not.toMatch(/NaN|Infinity|undefined/);
  });

  test("laps stand in the JSON", async () => {
    const json = readJson(await readJourney(join(rides, "heart-two-laps.tcx"), choices), "en");
    const { laps } = json as { laps: { startS: number; endS: number; trigger: string }[] };
    expect(laps.length).toBe(2);
    expect(laps[0]!.startS).toBe(0);
  });

  test("a file whose clock stands is refused with the reason", async () => {
    const path = await csv("stands.csv", (s) => [0, power(s), heart(s), cadence(s), kmh(s)], 60);
    const failure = await readJourney(path, choices).catch((error: unknown) => error);
    expect(failure).toBeInstanceOf(Failure);
    expect(failureText((failure as Failure).notice, "en", "command").sentence).toBe(
      "All records of stands.csv have one and the same time: there is no clock in it to read the ride by.",
    );
  });
});
