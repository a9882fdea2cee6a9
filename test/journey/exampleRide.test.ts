// The ride that a newcomer tries the program on: made once, found there afterwards, made anew where a file is gone.
import { mkdtempSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { exampleRide } from "../../main/journey/exampleRide.ts";
import { testTools } from "../support/tools.ts";

const cacheDir = mkdtempSync(join(tmpdir(), "followcar-example-"));
afterAll(() => rmSync(cacheDir, { recursive: true, force: true }));

it("is made once, in the cache folder, and again where one of its files is gone", async () => {
  let steps = 0;
  const make = () =>
    exampleRide(
      { cacheDir, tools: testTools() },
      { signal: new AbortController().signal, report: () => (steps += 1) },
      { small: true },
    );
  const made = await make();
  expect(steps).toBeGreaterThan(0);
  expect([made.ridePath, made.planPath, ...made.clipPaths].every((path) => path.startsWith(cacheDir))).toBe(true);
  const madeMs = made.clipPaths.map((path) => statSync(path).mtimeMs);
  steps = 0;
  expect(await make()).toEqual(made);
  expect(steps).toBe(0);
  expect(made.clipPaths.map((path) => statSync(path).mtimeMs)).toEqual(madeMs);
  rmSync(made.clipPaths[0]!);
  const again = await make();
  expect(steps).toBeGreaterThan(0);
  expect(again.clipPaths.map((path) => basename(path))).toEqual(made.clipPaths.map((path) => basename(path)));
  expect(statSync(again.clipPaths[0]!).size).toBeGreaterThan(0);
}, 120_000);
