// The log that helps to report a fault: of the last 10 starts, and without a place, a name or a path.
import { mkdtempSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, afterEach, expect, test, vi } from "vitest";
import { Failure } from "../../main/contract/failure.ts";
import { beginLog, endLog, logEvent, logFailure, logFolder } from "../../main/host/log.edge.ts";
import { runProgram } from "../support/runProgram.ts";

const state = mkdtempSync(join(tmpdir(), "followcar-logs "));
vi.stubEnv("FOLLOWCAR_STATE", state);
afterEach(endLog);
afterAll(() => {
  vi.unstubAllEnvs();
  rmSync(state, { recursive: true, force: true });
});

const logs = (): string[] => readdirSync(logFolder()).sort();
const newest = (): string => readFileSync(join(logFolder(), logs().at(-1)!), "utf8");
/** Within one thousandth of a second two starts would share a name. */
const soon = (): Promise<void> => new Promise((done) => setTimeout(done, 5));

test("says what failed, where in our code, and what the system said", () => {
  beginLog("read");
  let cause: unknown = null;
  try {
    readFileSync(join(state, "Mara Lind", "home 47.123456,11.654321.fit"));
  } catch (error) {
    cause = error;
  }
  logEvent("render running");
  logFailure(new Failure("frames-missing", { frames: 29, of: 30, subject: { kind: "card" } }, cause));
  expect(newest()).toMatch(/^followcar \d+\.\d+\.\d+ read, \d{4}-.*, Node v\d+/);
  expect(newest()).toMatch(/^\d+\.\d{3} render running$/m);
  expect(newest()).toMatch(/failed: frames-missing \(tool-failed\) frames=29 of=30/);
  expect(newest()).toContain("Error ENOENT open");
  expect(newest()).toMatch(/ at .*log\.test\.ts:\d+:\d+/);
  if (process.platform !== "win32") expect(statSync(join(logFolder(), logs().at(-1)!)).mode & 0o777).toBe(0o600);
});

test("holds no place, no name, no path, whatever an error quotes", () => {
  const secrets = ["Mara", "Lind", "47.12", "11.65", "home", "sunday", "Gasse"];
  const text = `Mara Lind, 47.123456 11.654321\n    at Mara (/home/mara/sunday.ts:1:1)\nGasse 4`;
  const path = "/home/mara/Mara Lind/sunday.fit";
  beginLog("debrief");
  const named = new Error(text);
  named.name = "Mara Lind";
  Object.assign(named, { code: "Mara Lind", syscall: path });
  for (const error of [
    named,
    new TypeError(text, { cause: new SyntaxError(`"Mara" is not valid JSON`) }),
    text,
    { latDeg: 47.123456 },
    new Failure("folder-with-links", { folder: path, links: ["Mara", path], more: 2 }),
    new Failure("plan-file-no-json", { path, said: text }),
    new Failure("panels-unpainted", {
      said: `[mov,mp4] ${path}\n[in#0 @ 0x5f] Error opening input file Mara Lind.mp4.\n[mov @ 0x5f] title Mara Lind\n[h264 @ 0x5f] no frame`,
    }),
  ])
    logFailure(error);
  const written = newest();
  for (const secret of secrets) expect(written).not.toContain(secret);
  expect(written).toContain("folder-with-links");
  expect(written).toContain("more=2");
  // What ffmpeg says of itself is kept.
  expect(written).toContain("[h264] no frame");
});

test("of the last 10 starts only, and nothing else there is touched", async () => {
  writeFileSync(join(logFolder(), "my notes.log"), "mine");
  for (let k = 0; k < 13; k++) {
    beginLog(`read ${k}`);
    endLog();
    await soon();
  }
  const names = logs().filter((name) => name !== "my notes.log");
  expect(names).toHaveLength(10);
  expect(names.map((name) => /read (\d+)/.exec(readFileSync(join(logFolder(), name), "utf8"))?.[1])).toEqual(
    Array.from({ length: 10 }, (_, k) => String(k + 3)),
  );
  expect(logs()).toContain("my notes.log");
});

test("the command writes one for each start; a folder that can't be written costs nothing", async () => {
  rmSync(logFolder(), { recursive: true });
  const { code } = await runProgram(["read", join(state, "Mara Lind.fit")], { env: { FOLLOWCAR_STATE: state } });
  expect(code).toBe(3);
  expect(logs()).toHaveLength(1);
  expect(newest()).toMatch(/failed: \S+ \(file-unreadable\)/);
  expect(newest()).not.toContain("Mara");
  const file = join(state, "a file");
  writeFileSync(file, "");
  const there = await runProgram(["read", "test/fixtures/rides/power-heart-1s.fit"], {
    env: { FOLLOWCAR_STATE: file },
  });
  expect(there.code).toBe(0);
}, 60_000);
