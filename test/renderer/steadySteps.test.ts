// A clip that is played fast: left to the browser while its gaps are even, then shown on a beat of whole frames.
import { describe, expect, it } from "vitest";
import { EvenGaps, SteadyBeat } from "../../renderer/player/steadySteps.ts";

describe("a clip that is played fast", () => {
  /** Whether it was found uneven, with a frame each `ms` and these gaps again and again for 2 s; 4x of 30 frames a second. */
  const found = (gaps: readonly number[], ms: (k: number) => number) => {
    const watch = new EvenGaps((4 * 30) / 1000);
    let [atMs, frame, uneven] = [0, 0, false];
    for (let k = 0; atMs < 2000; k++) {
      uneven ||= watch.uneven(atMs, frame);
      frame += gaps[k % gaps.length]!;
      atMs += ms(k);
    }
    return uneven;
  };
  it("is left to the browser while its gaps are those of the screen's own beat, and no longer", () => {
    expect(found([2], () => 1000 / 60)).toBe(false);
    expect(found([2, 2, 3, 1], () => 1000 / 60)).toBe(false);
    expect(found([8], () => 1000 / 15)).toBe(false);
    expect(found([1, 1, 1, 13], () => 4000 / 120)).toBe(true);
    expect(found([24], () => 200)).toBe(true);
    expect(found([1], () => 1000 / 60)).toBe(true);
  });
  it("is then shown on a beat of whole frames that the machine holds: longer at once, shorter seldom", () => {
    const beat = new SteadyBeat((4 * 30) / 1000, 80);
    expect([beat.stride, beat.beatMs]).toEqual([10, expect.closeTo(83.3, 1)]);
    for (const ms of [40, 50, 45]) beat.took(ms);
    // One that is late is late alone; two are the machine.
    beat.took(400);
    expect(beat.stride).toBe(10);
    beat.took(120);
    expect(beat.stride).toBe(18);
    for (let k = 0; k < 20; k++) beat.took(30);
    expect(beat.stride).toBe(18);
    for (let k = 0; k < 30; k++) beat.took(30);
    expect(beat.stride).toBe(10);
  });
});
