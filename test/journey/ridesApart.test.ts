import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { Ride } from "../../main/contract/ride.ts";
import { RidesApart } from "../../main/journey/apart/ridesApart.edge.ts";
import { RIDES_HERE } from "../../main/journey/judge.ts";
import { defaultPlan } from "../../main/reading/plan/parsePlan.ts";

let folder = "";
const rides = new RidesApart();
beforeAll(async () => (folder = await mkdtemp(join(tmpdir(), "apart "))));
afterAll(async () => {
  await rides.close();
  await rm(folder, { recursive: true, force: true });
});

const document = { plan: defaultPlan({ targetW: 180 }), overrides: [], ownMoments: [] };
const known = { athlete: null, earlier: [], roads: [] };

async function written(name: string, powerW: number): Promise<string> {
  const path = join(folder, name);
  const lines = Array.from({ length: 1800 }, (_, k) => `${k},${powerW},140`);
  await writeFile(path, ["time,power,hr", ...lines].join("\n"));
  return path;
}

/** Judged apart as it is judged here, and by its own power. */
async function judgedAs(path: string, ride: Ride, powerW: number): Promise<void> {
  const apart = await rides.judge(path, ride, document, known);
  expect(apart.summary).toEqual((await RIDES_HERE.judge(path, ride, document, known)).summary);
  expect(JSON.stringify(apart.facts)).toBe(JSON.stringify((await RIDES_HERE.judge(path, ride, document, known)).facts));
  expect(apart.summary.power.meanW).toBeCloseTo(powerW, 0);
}

test("a ride is judged as it was read, though its file was written anew and read again", async () => {
  const path = await written("ride.csv", 170);
  const first = await rides.read(path);
  await written("ride.csv", 230);
  const second = await rides.read(path);
  await judgedAs(path, first, 170);
  await judgedAs(path, second, 230);
});

test("and so is one that the thread has no more", async () => {
  const path = await written("old.csv", 150);
  const old = await rides.read(path);
  await written("old.csv", 250);
  for (let k = 0; k < 9; k += 1) await rides.read(await written(`other${k}.csv`, 200));
  await judgedAs(path, old, 150);
  await rides.keep([]);
  await judgedAs(path, old, 150);
});
