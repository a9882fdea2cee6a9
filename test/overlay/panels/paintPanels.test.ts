import { expect, test } from "vitest";
import { PANEL_NAMES } from "../../../main/contract/filmLook.ts";
import { defaultPanels, type LayoutOptions } from "../../../overlay/layout/layout.ts";
import type { Rect } from "../../../overlay/surface.ts";
import { bandPixels, paintedBand, sampleLayout, samplePage } from "../support/paintedBand.ts";
import { byTime, earlierRide } from "../support/rideBeside.ts";
import { sampleRide } from "../support/sampleRide.ts";

const columns = sampleRide();
const everything: Partial<LayoutOptions> = { panels: [...defaultPanels, "mainPart", "drift", "route"] };

/** Pixels in which two bands of one width differ. */
function differing(a: Uint8ClampedArray, b: Uint8ClampedArray, width: number): { x: number; y: number }[] {
  const before = new Uint32Array(a.buffer, a.byteOffset, a.length / 4);
  const after = new Uint32Array(b.buffer, b.byteOffset, b.length / 4);
  const at: { x: number; y: number }[] = [];
  for (let k = 0; k < before.length; k += 1) {
    if (before[k] !== after[k]) at.push({ x: k % width, y: Math.floor(k / width) });
  }
  return at;
}

const within = (rects: readonly Rect[]) => (at: { x: number; y: number }) =>
  rects.some((rect) => at.x >= rect.x && at.x < rect.x + rect.width && at.y >= rect.y && at.y < rect.y + rect.height);

for (const [name, width, height, options] of [
  ["a row", 1280, 720, {}],
  ["all panels", 1280, 720, everything],
  ["an upright picture", 540, 960, everything],
  ["a side column", 1280, 720, { place: "left" }],
  ["dark ink at the top", 854, 480, { place: "top", ink: "dark" }],
  ["another ride below, a row", 1280, 720, {}],
  ["another ride below, upright", 540, 960, everything],
  ["another ride below, all panels, by time", 1280, 720, everything],
] as const satisfies readonly (readonly [string, number, number, Partial<LayoutOptions>])[]) {
  test(`what is redrawn in steps equals what is drawn at once, to the pixel: ${name}`, () => {
    const layout = sampleLayout(columns, width, height, options);
    const other = name.startsWith("another ride") ? earlierRide() : undefined;
    const beside = name.endsWith("by time") ? { ...byTime(other!), panels: PANEL_NAMES } : other;
    const stepped = paintedBand(layout, columns);
    stepped.paint(4250.1, {}, samplePage, beside);
    let before = bandPixels(stepped);
    for (let rideS = 4250.2; rideS < 4369; rideS += 6.7) {
      const notes =
        rideS > 4300 && rideS < 4330 ? { caption: "Pressure off over the top", speed: 8, rider: "Mara" } : {};
      const changed = stepped.paint(rideS, notes, samplePage, beside);
      const after = bandPixels(stepped);
      expect(differing(before, after, layout.band.width).filter((at) => !within(changed)(at))).toEqual([]);
      const fresh = paintedBand(layout, columns);
      fresh.paint(rideS, notes, samplePage, beside);
      expect(differing(after, bandPixels(fresh), layout.band.width).slice(0, 5)).toEqual([]);
      before = after;
    }
  });
}

test("the same instant again changes nothing, and only new figures and the thread's end are drawn anew", () => {
  const layout = sampleLayout(columns, 1280, 720);
  const band = paintedBand(layout, columns);
  expect(band.paint(4344.2)).toEqual([{ x: 0, y: 0, width: layout.band.width, height: layout.band.height }]);
  expect(band.paint(4344.2)).toEqual([]);
  const grown = band.paint(4344.4);
  expect(grown).toHaveLength(1);
  expect(grown[0]?.width).toBeLessThan(4 * 32 + 1);
  const pixels = band.paint(4345.0).reduce((sum, rect) => sum + rect.width * rect.height, 0);
  expect(pixels).toBeLessThan((layout.band.width * layout.band.height) / 2);
});

test("a dash stands for what is missing, and the band holds no other pixel of the missing value", () => {
  const layout = sampleLayout(columns, 1280, 720);
  const gone = sampleRide();
  gone.heartRate?.state.fill(2);
  const band = paintedBand(layout, gone);
  const whole = paintedBand(layout, columns);
  band.paint(4344.2);
  whole.paint(4344.2);
  const heart = layout.panels.find((panel) => panel.name === "heartRate");
  const different = differing(bandPixels(band), bandPixels(whole), layout.band.width);
  expect(different.length).toBeGreaterThan(100);
  expect(different.every(within(heart === undefined ? [] : [heart.rect]))).toBe(true);
});

test("nothing is drawn ahead of the instant", () => {
  const layout = sampleLayout(columns, 1280, 720);
  const other = sampleRide();
  other.pressureState.fill(1, 4345);
  const a = paintedBand(layout, columns);
  const b = paintedBand(layout, other);
  a.paint(4344.9);
  b.paint(4344.9);
  expect(differing(bandPixels(a), bandPixels(b), layout.band.width)).toEqual([]);
  a.paint(4347);
  b.paint(4347);
  expect(differing(bandPixels(a), bandPixels(b), layout.band.width).length).toBeGreaterThan(0);
});
