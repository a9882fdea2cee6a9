// The computer's clock is set back, or on, while the program runs or between two starts.
import { mkdtempSync, readFileSync, readdirSync, rmSync, statSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, afterEach, beforeEach, expect, test, vi } from "vitest";
import { lockDebrief } from "../../main/debrief/debriefLock.edge.ts";
import { beginLog, endLog, logEvent, logFolder } from "../../main/host/log.edge.ts";
import { watchChild } from "../../main/host/watchChild.edge.ts";
import { workProgress } from "../../main/render/jobResult.edge.ts";

const state = mkdtempSync(join(tmpdir(), "followcar-clock "));
vi.stubEnv("FOLLOWCAR_STATE", state);
const DAY_MS = 86_400_000;
const nowMs = Date.UTC(2026, 4, 3, 12);
beforeEach(() => {
  vi.useFakeTimers({ toFake: ["Date"] });
  vi.setSystemTime(nowMs);
});
afterEach(() => {
  endLog();
  vi.useRealTimers();
});
afterAll(() => {
  vi.unstubAllEnvs();
  rmSync(state, { recursive: true, force: true });
});

test("a lock is renewed by the clock of the disk, whatever ours says: no other computer takes it for one that was left", async () => {
  const folder = mkdtempSync(join(state, "debrief "));
  const probe = (): number => {
    writeFileSync(join(folder, "probe"), "");
    return statSync(join(folder, "probe")).mtimeMs;
  };
  vi.useFakeTimers({ toFake: ["Date", "setInterval", "clearInterval"] });
  vi.setSystemTime(probe() - 600_000);
  const lock = await lockDebrief(folder);
  expect(lock.held).toBe(true);
  // As if it had not been renewed for five minutes: what is looked for can't be there already.
  const oldS = probe() / 1000 - 300;
  utimesSync(join(folder, "debrief.lock"), oldS, oldS);
  await vi.advanceTimersByTimeAsync(20_000);
  const offMs = (): number => Math.abs(statSync(join(folder, "debrief.lock")).mtimeMs - probe());
  await vi.waitFor(() => expect(offMs()).toBeLessThan(10_000), { timeout: 20_000 });
  if (lock.held) await lock.release();
  expect(readdirSync(folder)).toEqual(["probe"]);
});

test("set back by a day, each new start keeps its log, and of the earlier ones the last", () => {
  const start = (atMs: number, word: string): void => {
    vi.setSystemTime(atMs);
    beginLog("read");
    logEvent(word);
    endLog();
  };
  for (let k = 0; k < 10; k++) start(nowMs + k * 1000, `before ${k}`);
  for (let k = 0; k < 3; k++) start(nowMs - DAY_MS + k * 1000, `after ${k}`);
  const said = readdirSync(logFolder())
    .map((name) => /(before|after) \d/.exec(readFileSync(join(logFolder(), name), "utf8"))?.[0])
    .sort();
  const before = [3, 4, 5, 6, 7, 8, 9].map((k) => `before ${k}`);
  expect(said).toEqual(["after 0", "after 1", "after 2", ...before].sort());
});

test("set back while it runs, the log counts on", () => {
  beginLog("read");
  vi.setSystemTime(nowMs - DAY_MS);
  logEvent("later");
  const last = readdirSync(logFolder()).map((name) => readFileSync(join(logFolder(), name), "utf8"));
  expect(last.find((text) => text.includes(" later"))).toMatch(/^\d+\.\d{3} later$/m);
});

test("set on by an hour, a program that works is not taken for one that hangs", () => {
  vi.useFakeTimers({ toFake: ["Date", "setInterval", "clearInterval", "performance"] });
  let killed = false;
  const watch = watchChild({ pid: undefined, kill: () => (killed = true) }, 1);
  vi.setSystemTime(nowMs + 3_600_000);
  vi.advanceTimersByTime(2500);
  expect(killed).toBe(false);
  // Silent for longer than any program may be, it is.
  vi.advanceTimersByTime(20_000);
  expect(killed).toBe(true);
  watch.end();
});

test("set back while a film is rendered, its progress is told on", () => {
  vi.useFakeTimers({ toFake: ["Date", "performance"] });
  const told: number[] = [];
  const { signal } = new AbortController();
  const progress = workProgress({ signal, report: ({ done }) => void told.push(done) }, 100);
  progress.at(10, { kind: "join" } as never);
  vi.setSystemTime(nowMs - DAY_MS);
  vi.advanceTimersByTime(1500);
  progress.at(50, { kind: "join" } as never);
  expect(told).toEqual([0.1, 0.5]);
});
