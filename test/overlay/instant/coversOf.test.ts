// What is hidden of a clip stays hidden in whatever film shows those seconds.
import { expect, test } from "vitest";
import type { Film, Shot } from "../../../main/contract/film.ts";
import type { Cover } from "../../../main/contract/framing.ts";
import { coveredAsBefore, coversOf } from "../../../overlay/instant/coversOf.ts";
import { coverBoxesAt, coverKeyAt, coverLegs } from "../../../overlay/instant/coverBoxes.ts";

const box = { y: 0.3, width: 0.1, height: 0.1 };
const cover: Cover = {
  kind: "solid",
  keys: [
    { atMediaS: 10, x: 0.2, ...box },
    { atMediaS: 20, x: 0.6, ...box },
  ],
};
const shot = (id: string, mediaStartS: number, mediaEndS: number, covers?: readonly Cover[]): Shot =>
  ({ type: "shot", id, clipId: "c", mediaStartS, mediaEndS, ...(covers && { covers }) }) as Shot;
const film = (...items: Shot[]): Pick<Film, "items"> => ({ items });

test("a shot of the same seconds is covered where the other's box was, no longer than its shot", () => {
  const covering = shot("a", 8, 15, [cover]);
  const [theirs] = coversOf(film(covering), "c", null, { startS: 12, endS: 30 });
  expect(theirs!.keys.map(({ atMediaS }) => atMediaS)).toEqual([10, 15]);
  expect(theirs!.keys[1]!.x).toBeCloseTo(0.4, 9);
  expect(coversOf(film(covering), "c", null, { startS: 16, endS: 30 })).toEqual([]);
  expect(coversOf(film(covering), "other", null, { startS: 12, endS: 14 })).toEqual([]);
  expect(coversOf(film(covering), "c", covering, { startS: 8, endS: 15 })).toEqual([cover]);
});

test("a film made anew, and one whose covered shot was taken out, hide what the one before hid", () => {
  const before = film(shot("a", 8, 22, [cover]), shot("b", 9, 21));
  for (const [name, now] of [
    ["made anew", film(shot("a", 8, 22), shot("new", 18, 30))],
    ["taken out", film(shot("b", 9, 21))],
  ] as const) {
    const covered = coveredAsBefore(now, before);
    for (const item of covered.items) {
      const { covers = [], mediaStartS, mediaEndS } = item as Shot;
      expect(covers, name).toHaveLength(1);
      const from = Math.max(10, mediaStartS);
      expect(coverKeyAt(covers[0]!.keys, from).x, name).toBeCloseTo(coverKeyAt(cover.keys, from).x, 9);
      expect(covers[0]!.keys.at(-1)!.atMediaS, name).toBeGreaterThanOrEqual(Math.min(20, mediaEndS));
    }
  }
  expect(coveredAsBefore(before, before)).toBe(before);
  const elsewhere = film(shot("z", 40, 50));
  expect(coveredAsBefore(elsewhere, before)).toBe(elsewhere);
});

test("one key alone hides a box of its size at every instant", () => {
  const size = { width: 1920, height: 1080 };
  const legs = coverLegs([{ atMediaS: 5, x: 0.2, ...box }], 1 / 30, size);
  for (const mediaS of [0, 5, 900]) {
    const [hidden, ...more] = coverBoxesAt(legs, mediaS);
    expect(more).toEqual([]);
    expect(hidden!.width).toBeGreaterThanOrEqual(0.1 * size.width);
    expect(hidden!.width).toBeLessThan(0.1 * size.width + 20);
    expect(hidden!.x).toBeLessThanOrEqual(0.2 * size.width);
  }
});
