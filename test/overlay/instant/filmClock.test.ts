import fc from "fast-check";
import { expect, test } from "vitest";
import { filmClock, itemLengthS, type FilmItemLike } from "../../../overlay/instant/filmClock.ts";
import { rideTimeAt } from "../../../overlay/instant/rideTimeAt.ts";
import { threadFrame, threadStepFrames } from "../../../overlay/instant/threadSteps.ts";

const shot = (changes: Partial<Extract<FilmItemLike, { type: "shot" }>> = {}): FilmItemLike => ({
  type: "shot",
  mediaStartS: 10,
  mediaEndS: 16,
  speed: 1,
  freezes: [],
  crossfadeS: 0,
  captions: [],
  drawings: [],
  pageStartS: 0,
  pageEndS: 66,
  commentPath: null,
  ...changes,
});
const card = (durationS: number, crossfadeS = 0): FilmItemLike => ({
  type: "card",
  durationS,
  crossfadeS,
  commentPath: null,
});
const film = (items: FilmItemLike[], num = 25, den = 1) => filmClock({ frameRate: { num, den }, items });

test("shots and cards follow each other without a frame between or twice", () => {
  const made = film([card(2), shot(), shot({ mediaStartS: 100, mediaEndS: 108 })]);
  expect(made.spans.map((span) => [span.startFrame, span.frames])).toEqual([
    [0, 50],
    [50, 150],
    [200, 200],
  ]);
  expect(made.frames).toBe(400);
  expect(made.at(49)).toMatchObject({ index: 0, mediaS: null });
  expect(made.at(50)).toMatchObject({ index: 1, mediaS: 10, frameInItem: 0 });
  expect(made.at(199)).toMatchObject({ index: 1, mediaS: 10 + 149 / 25 });
  expect(made.at(400)).toBeNull();
  expect(made.at(-1)).toBeNull();
});

test("speed and freezes: film time to clip time", () => {
  const fast = film([shot({ mediaEndS: 90, speed: 8 })]);
  expect(fast.frames).toBe(250);
  expect(fast.at(125)?.mediaS).toBe(10 + 5 * 8);
  const held = film([shot({ freezes: [{ atMediaS: 12, durationS: 3 }] })]);
  expect(held.frames).toBe(225);
  expect(held.at(49)).toMatchObject({ frozen: false, mediaS: 10 + 49 / 25 });
  expect(held.at(50)).toMatchObject({ frozen: true, mediaS: 12 });
  expect(held.at(124)).toMatchObject({ frozen: true, mediaS: 12 });
  expect(held.at(125)).toMatchObject({ frozen: false, mediaS: 12 });
  expect(held.at(150)?.mediaS).toBe(13);
});

test("a crossfade overlaps its neighbours and goes from one to the other", () => {
  const made = film([shot(), shot({ mediaStartS: 50, mediaEndS: 56, crossfadeS: 1 })]);
  expect(made.frames).toBe(275);
  const first = made.at(125);
  expect(first).toMatchObject({ index: 1, mediaS: 50, from: { index: 0, mediaS: 15 } });
  expect(first?.share).toBeCloseTo(1 / 26, 10);
  expect(made.at(149)?.share).toBeCloseTo(25 / 26, 10);
  expect(made.at(150)).toMatchObject({ index: 1, from: null, share: 1 });
});

test("any film: each frame belongs to one item, clip time never runs back within a shot", () => {
  const items = fc.array(
    fc.oneof(
      fc.record({
        type: fc.constant("card" as const),
        commentPath: fc.constant(null),
        durationS: fc.double({ min: 0.1, max: 8, noNaN: true }),
        crossfadeS: fc.constantFrom(0, 0.5),
      }),
      fc
        .record({
          startS: fc.integer({ min: 0, max: 100 }),
          lengthS: fc.integer({ min: 1, max: 20 }),
          speed: fc.constantFrom(0.25, 1, 1.5, 8),
          hold: fc.integer({ min: 0, max: 3 }),
          crossfadeS: fc.constantFrom(0, 0.5),
        })
        .map(({ startS, lengthS, speed, hold, crossfadeS }) =>
          shot({
            mediaStartS: startS,
            mediaEndS: startS + lengthS,
            speed,
            crossfadeS,
            freezes: [{ atMediaS: startS + lengthS / 2, durationS: hold }],
          }),
        ),
    ),
    { minLength: 1, maxLength: 6 },
  );
  fc.assert(
    fc.property(items, fc.constantFrom([25, 1], [30000, 1001], [24000, 1001]), (list, [num, den]) => {
      const made = film(list, num, den);
      let last = { index: 0, mediaS: -Infinity };
      let wrong = 0;
      for (let frame = 0; frame < made.frames; frame += 1) {
        const at = made.at(frame);
        if (at === null || at.index < last.index) wrong += 1;
        if (at !== null && at.index === last.index && at.mediaS !== null && at.mediaS < last.mediaS - 1e-9) wrong += 1;
        last = { index: at?.index ?? 0, mediaS: at?.mediaS ?? -Infinity };
      }
      expect(wrong).toBe(0);
      list.forEach((item, k) =>
        expect(Math.abs((made.spans[k]?.frames ?? 0) * (den / num) - itemLengthS(item))).toBeLessThanOrEqual(den / num),
      );
    }),
    { numRuns: 40 },
  );
});

test("ride time follows the clock", () => {
  expect(rideTimeAt({ offsetS: 4217.4, rate: 1 }, 12)).toBeCloseTo(4229.4, 9);
  expect(rideTimeAt({ offsetS: -3, rate: 1.00002 }, 1000)).toBeCloseTo(997.02, 9);
});

test("the thread steps at an even cadence, figures with each frame unless the shot is sped up", () => {
  expect(threadStepFrames({ num: 30000, den: 1001 }, 5)).toBe(6);
  expect(threadStepFrames({ num: 24000, den: 1001 }, 5)).toBe(5);
  expect(threadStepFrames({ num: 30, den: 1 }, 10)).toBe(3);
  expect(threadFrame(17, 6, 1)).toBe(12);
  expect(threadFrame(17, 6, 0.5)).toBe(12);
  // At twice the speed half the step, at 8 times every frame: a step is never more than a fifth of a second of the ride.
  expect(threadFrame(17, 6, 2)).toBe(15);
  expect(threadFrame(17, 6, 8)).toBe(17);
});
