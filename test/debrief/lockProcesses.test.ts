// One debrief, many programs that ask for it at the same instant: one gets it, in processes of their own.
import { build } from "esbuild";
import { spawn } from "node:child_process";
import { mkdir, mkdtemp, readFile, readdir, rm, writeFile } from "node:fs/promises";
import { hostname, tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";

const PROGRAMS = 6;
const ROUNDS = 10;
const EVERY_MS = 500;

let top = "";
const program = resolve("dist", "test", "lockChild.mjs");
beforeAll(async () => {
  top = await mkdtemp(join(tmpdir(), "followcar-locks-"));
  await build({
    entryPoints: ["test/debrief/lockChild.ts"],
    outfile: program,
    bundle: true,
    platform: "node",
    target: "node20",
    format: "esm",
    packages: "external",
    logLevel: "error",
  });
});
afterAll(() => rm(top, { recursive: true, force: true }));

const now = () => new Date().toISOString();

test.each([
  ["no lock", null],
  ["the lock of a process that is gone", () => ({ pid: 4_190_000, host: hostname(), since: now(), began: null })],
  // Its number is that of a process that runs: this one, which began at another time.
  [
    "the lock of another under a number of today",
    () => ({ pid: process.pid, host: hostname(), since: now(), began: "x 1" }),
  ],
])(
  "of %s, one of 6 programs at once gets it, 10 times",
  async (name, left) => {
    const folder = join(top, name);
    const diary = join(folder, "diary");
    for (let round = 0; round < ROUNDS; round++) {
      await mkdir(join(folder, String(round)), { recursive: true });
      if (left !== null) await writeFile(join(folder, String(round), "debrief.lock"), JSON.stringify(left()));
    }
    // All have started by then, on a busy machine too.
    const firstMs = Date.now() + 4000;
    const ends = await Promise.all(
      Array.from({ length: PROGRAMS }, () => {
        const args = [program, folder, firstMs, EVERY_MS, ROUNDS, diary].map(String);
        const child = spawn(process.execPath, args, { stdio: ["ignore", "ignore", "inherit"] });
        return new Promise((done) => child.on("close", done));
      }),
    );
    expect(ends).toEqual(Array(PROGRAMS).fill(0));
    const lines = (await readFile(diary, "utf8")).trim().split("\n");
    expect(lines.filter((line) => line.endsWith("TWO"))).toEqual([]);
    const gotIn = new Set(lines.map((line) => line.split(" ")[0]));
    expect(gotIn.size).toBe(ROUNDS);
    for (let round = 0; round < ROUNDS; round++) expect(await readdir(join(folder, String(round)))).toEqual([]);
  },
  90_000,
);
