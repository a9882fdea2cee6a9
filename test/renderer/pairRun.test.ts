// How the two clips of a pair are driven in Build: at the pace of the place function, brought back where they fall behind.
import { describe, expect, it } from "vitest";
import { firstAsFilmed, halfMediaS, halfSpan, pairRun } from "../../renderer/build/pairRun.ts";

/** The first as filmed; the second at 0.8 for 10 s, then it stands for 5 s, then at 1.5. */
const pace = { filmS: [0, 10, 15, 25], firstS: [100, 110, 115, 125], secondS: [300, 308, 308, 323] };
const clock = { offsetS: 290, rate: 1 };
const second = (filmS: number) => halfMediaS(pace, clock, 1, filmS);

describe("a half of a pair", () => {
  it("is asked for the clip time of the place, by its own clock", () => {
    expect(second(5)).toBeCloseTo(14, 9);
    expect(halfMediaS(pace, { offsetS: 90, rate: 2 }, 0, 4)).toBeCloseTo(7, 9);
    expect(halfSpan(pace, clock, 1)).toEqual({ startS: 10, endS: 33 });
  });

  it("runs as fast as the place asks, and stands where its ride stood", () => {
    expect(pairRun(second, 5, 14)).toEqual({ how: "run", speed: expect.closeTo(0.8, 6) as number });
    expect(pairRun(second, 20, second(20))).toEqual({ how: "run", speed: expect.closeTo(1.5, 6) as number });
    expect(pairRun(second, 12, 18)).toEqual({ how: "stand", mediaS: 18 });
  });

  it("is a little faster while it is behind, slower while ahead, and brought there where it is far off", () => {
    expect(pairRun(second, 5, 13.8)).toMatchObject({ how: "run", speed: expect.closeTo(1.2, 6) as number });
    expect(pairRun(second, 5, 14.2)).toMatchObject({ how: "run", speed: expect.closeTo(0.4, 6) as number });
    expect(pairRun(second, 5, 12)).toEqual({ how: "stand", mediaS: 14 });
    expect(pairRun(second, 5, null)).toEqual({ how: "stand", mediaS: 14 });
  });

  it("comes to its place from any start while the film plays", () => {
    let shownS = 13.65;
    for (let filmS = 5; filmS < 9; filmS += 1 / 60) {
      const run = pairRun(second, filmS, shownS);
      if (run.how === "run") shownS += run.speed / 60;
    }
    expect(Math.abs(shownS - second(9))).toBeLessThan(0.05);
  });

  it("is heard where the first runs as filmed all along, else not", () => {
    expect(firstAsFilmed(pace)).toBe(true);
    expect(firstAsFilmed({ ...pace, firstS: [100, 108, 115, 125] })).toBe(false);
  });
});
