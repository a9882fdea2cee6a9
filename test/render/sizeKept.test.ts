// Files made for a size are measured on disk: never over it, and most of it used where the film needs it.
import { existsSync } from "node:fs";
import { readdir, stat } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { CardItem, Shot } from "../../main/contract/film.ts";
import type { Clip } from "../../main/contract/footage.ts";
import { PRESETS } from "../../main/contract/presets.ts";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { renderFilm } from "../../main/render/renderFilm.edge.ts";
import { sizeBudget } from "../../main/render/sizeBudget.ts";
import { testTools } from "../support/tools.ts";
import { scratchFolder, writeNumberedClip } from "../support/video.ts";
import { countingRide, filmOf, layoutOptionsFor, quietContext, shotOf } from "./filmFixtures.ts";

const tools = testTools();
let scratch: Awaited<ReturnType<typeof scratchFolder>>;
let restless: Clip;
let calm: Clip;

beforeAll(async () => {
  scratch = await scratchFolder();
  const made = async (name: string, filters: string): Promise<Clip> => {
    const path = join(scratch.path, `${name}.mp4`);
    // Sound that takes all that it may, as wind does.
    const sound = "anoisesrc=r=48000:d=10:c=pink:seed=7:a=0.5";
    await writeNumberedClip(path, { widthPx: 640, heightPx: 360, frames: 300, rate: "30", sound, filters }, tools);
    return probeClip(path, name, tools);
  };
  restless = await made("restless", "noise=alls=50:allf=t+u");
  calm = await made("calm", "null");
});

afterAll(() => scratch.remove());

const card: CardItem = {
  type: "card",
  id: "a card",
  durationS: 2,
  card: { kind: "note", title: "A note", lines: ["one line"] },
  moment: null,
  why: "a test",
  commentPath: null,
  crossfadeS: 0,
};

async function sizeOf(name: string, items: readonly (Shot | CardItem)[], sizeMb: number) {
  const outPath = join(scratch.path, `${name}.mp4`);
  const cacheDir = join(scratch.path, `${name} cache`);
  const job = {
    film: filmOf(restless, items),
    clips: [restless, calm],
    columns: countingRide(400),
    outPath,
    preset: { ...PRESETS.phone, sizeMb },
    layoutOptions: layoutOptionsFor(640, 360),
    cacheDir,
  };
  expect(await renderFilm(job, tools, quietContext())).toMatchObject({ kind: "done" });
  const parts = existsSync(join(cacheDir, "parts")) ? await readdir(join(cacheDir, "parts")) : [];
  return { share: (await stat(outPath)).size / (sizeMb * 1e6), parts: parts.length };
}

test("a film that needs its size uses it in one pass and keeps within it", { timeout: 300_000 }, async () => {
  const items = [card, shotOf(restless, 0, 5), shotOf(restless, 3, 9), card, shotOf(restless, 1, 4), card];
  for (const sizeMb of [1.6, 4]) {
    const { share, parts } = await sizeOf(`needy ${sizeMb}`, items, sizeMb);
    expect(share).toBeLessThanOrEqual(1);
    expect(share).toBeGreaterThanOrEqual(0.85);
    // One file a part: nothing was made twice.
    expect(parts).toBeLessThanOrEqual(items.length);
  }
});

test("what calm footage leaves goes to the restless, by a second pass", { timeout: 300_000 }, async () => {
  const items = [shotOf(restless, 0, 4), shotOf(calm, 0, 9), shotOf(calm, 0, 8)];
  const { share, parts } = await sizeOf("uneven", items, 2.4);
  expect(share).toBeLessThanOrEqual(1);
  expect(share).toBeGreaterThanOrEqual(0.85);
  expect(parts).toBe(4);
});

test("a film that needs less is not blown up to its size", { timeout: 300_000 }, async () => {
  const { share } = await sizeOf("calm", [card, shotOf(calm, 0, 4)], 30);
  expect(share).toBeLessThan(0.3);
});

test("no part may take what the others need at the least, whatever comes first", () => {
  const film = filmOf(restless, [shotOf(restless, 0, 9), card, shotOf(restless, 0, 9)]);
  const budget = sizeBudget(film, PRESETS.phone, 1.5, 20);
  // The card's two seconds are silent.
  const bits = 1.5 * 8e6 * 0.98 - 160_000 * 18 - 16_000 * 2;
  let used = 0;
  for (const [part, lengthS] of [9, 2, 9].entries()) {
    const kbps = budget.ceilingKbps(part);
    // The worst that an encoder can make of it: a full buffer first, then the ceiling throughout.
    const worst = kbps * 1000 * (lengthS + 0.9);
    budget.took(part, worst);
    used += worst;
  }
  expect(used).toBeLessThanOrEqual(bits);
});
