// Renders in processes of their own: two at the same time, and killed outright.
import { afterAll, beforeAll, expect, test } from "vitest";
import { killedRenders, renderPlace, type RenderPlace } from "../torture/renders.ts";

let place: RenderPlace;
beforeAll(async () => {
  place = await renderPlace();
}, 60_000);
afterAll(() => place.remove());

test("two whole renders at once, of one film to two places and to one, do not disturb each other", async () => {
  expect((await place.run("alone.mp4")).said).toBe("");
  const alone = await place.hashes("alone.mp4");
  for (const [one, other] of [
    ["first.mp4", "second.mp4"],
    ["same.mp4", "same.mp4"],
  ] as const) {
    // Nothing is there of the last one: each part is made by both.
    await place.clearCache();
    expect(await Promise.all([place.run(one), place.run(other)])).toEqual([
      { code: 0, said: "" },
      { code: 0, said: "" },
    ]);
    expect(await place.hashes(one)).toBe(alone);
    expect(await place.hashes(other)).toBe(alone);
    expect(await place.leftBehind()).toEqual([]);
  }
}, 180_000);

test("killed 4 times at some point of a render: no half film, the same frames, nothing left", async () => {
  const { tried, faults } = await killedRenders(4, 32, Date.now() + 40_000);
  expect(faults).toEqual([]);
  expect(tried).toBeGreaterThan(0);
}, 180_000);
