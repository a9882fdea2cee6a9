import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { expect, test } from "vitest";
import { runProgram, startProgram, type ProgramRun } from "../../main/host/program.edge.ts";
import { measureLoudness } from "../../main/render/measureLoudness.edge.ts";

const run = (script: string, more: Partial<ProgramRun> = {}) =>
  runProgram({ program: process.execPath, args: ["-e", script], hungAfterS: 0.5, ...more });
const FOR_EVER = "setTimeout(() => undefined, 60_000)";
const BUSY = "const until = Date.now() + 2500; while (Date.now() < until);";

test.runIf(process.platform === "linux")("a program that is busy but silent is let work", async () => {
  expect(await run(BUSY)).toMatchObject({ code: 0, trouble: null });
});

test.runIf(process.platform === "linux")("one that neither says nor does anything is ended as hung", async () => {
  expect(await run(FOR_EVER)).toMatchObject({ code: null, signal: "SIGKILL", trouble: "hung" });
});

test("one that passes its limit is ended, however busy", async () => {
  expect(await run("for (;;);", { limitS: 1 })).toMatchObject({ code: null, trouble: "late" });
});

test("a signal ends it, and before it began nothing is started", async () => {
  const stop = new AbortController();
  const guard = () => {
    setImmediate(() => stop.abort());
    return () => undefined;
  };
  expect(await run(FOR_EVER, { signal: stop.signal, guard, hungAfterS: 60 })).toMatchObject({ trouble: "cancelled" });
  const began: number[] = [];
  const noted = (pid: number) => {
    began.push(pid);
    return () => undefined;
  };
  expect(await run(FOR_EVER, { signal: stop.signal, guard: noted })).toMatchObject({ trouble: "cancelled" });
  expect(began).toEqual([]);
});

test("what it wrote is whole, and the end of what it said is kept", async () => {
  const { code, stdout, stderr } = await run(
    'process.stdout.write("ä".repeat(200_000)); process.stderr.write("x".repeat(200_000) + "the last"); process.exitCode = 3;',
  );
  expect(code).toBe(3);
  expect(stdout.toString("utf8")).toBe("ä".repeat(200_000));
  expect(stderr.length).toBe(16_000);
  expect(stderr.endsWith("the last")).toBe(true);
});

test("what feeding it threw ends it and is handed on", async () => {
  const wrong = new Error("the file broke off");
  const feed = () => Promise.reject(wrong);
  expect(await run(FOR_EVER, { feed, hungAfterS: 60 })).toMatchObject({ code: null, signal: "SIGKILL", unfed: wrong });
});

test("what can't be started is told, be it not there or asked for what the system does not take", async () => {
  const asked: readonly (readonly [string, string])[] = [
    [join(tmpdir(), "nowhere", "ffmpeg"), "-version"],
    [tmpdir(), "-version"],
    [process.execPath, "a name with \0 in it"],
    [process.execPath, "x".repeat(5_000_000)],
  ];
  for (const [program, argument] of asked) {
    expect(await runProgram({ program, args: [argument] })).toMatchObject({ code: null, trouble: "not started" });
    const { started, ended } = startProgram(program, [argument], "ignored");
    expect(await started).toBeInstanceOf(Error);
    expect((await ended).notStarted).toBeInstanceOf(Error);
  }
});

test.runIf(process.platform === "linux")(
  "an ffmpeg that stands still while loudness is measured is ended",
  async () => {
    const ffmpeg = resolve("test/fixtures/standins/hang.mjs");
    const measured = measureLoudness("ride.wav", [], null, { ffmpeg, ffprobe: "" }, undefined, 0.5);
    await expect(measured).rejects.toMatchObject({ code: "tool-hung" });
  },
);
