// FOLLOWCAR_DEBUG=1 shows all that caused a failure: our code and facts, the words of the program that failed, stacks.
import { chmodSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { runProgram } from "../support/runProgram.ts";
import { testTools } from "../support/tools.ts";

let folder = "";

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "followcar-debug-"));
  writeFileSync(join(folder, "ride.fit"), demoRideFile(demoRide(7)));
  // Answers as ffmpeg does until it is to write a film, which reports its progress.
  writeFileSync(
    join(folder, "ffmpeg"),
    `#!/bin/sh\ncase " $* " in *" -progress "*) echo "[libx264] made to fail here" >&2; exit 3;; esac\nexec ${testTools().ffmpeg} "$@"\n`,
  );
  chmodSync(join(folder, "ffmpeg"), 0o755);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const failing = (debug: Record<string, string>) =>
  runProgram(["debrief", "ride.fit", "--length", "20", "--preset", "draft", "--out", "made"], {
    cwd: folder,
    env: { FOLLOWCAR_FFMPEG: join(folder, "ffmpeg"), FOLLOWCAR_CACHE: join(folder, "cache"), ...debug },
  });

it("shows the whole chain behind an ffmpeg that failed", async () => {
  const { code, stderr } = await failing({ FOLLOWCAR_DEBUG: "1" });
  expect(code).toBe(1);
  const [first, ...causes] = stderr.slice(stderr.indexOf("Failure: ")).split("\ncaused by: ");
  expect(first).toMatch(/^Failure: ffmpeg-failed \{.*"exitCode":3.*\}\n +at /);
  // Where it was thrown first, before the job carried it as data; then what ffmpeg itself said.
  expect(causes.length).toBeGreaterThanOrEqual(2);
  expect(causes[0]).toMatch(/^Failure: ffmpeg-failed \{.*"exitCode":3.*\}\n +at /);
  expect(causes.at(-1)).toMatch(/^Error: (.*\n)*.*made to fail here\n( +at .*\n)+/);
});

it("shows nothing of it otherwise", async () => {
  const { stderr } = await failing({ FOLLOWCAR_DEBUG: "" });
  expect(stderr).toContain("made to fail here");
  expect(stderr).not.toMatch(/caused by|\n +at /);
});
