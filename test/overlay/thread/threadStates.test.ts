import { expect, test } from "vitest";
import { threadPageAt } from "../../../overlay/instant/threadPageAt.ts";
import { paintThread } from "../../../overlay/thread/paintThread.ts";
import { typeScale } from "../../../overlay/layout/typeScale.ts";
import { darkInk, lightInk, type Theme } from "../../../overlay/theme.ts";
import { testCanvas } from "../../support/canvas.ts";
import { seen, visions, type Vision } from "../support/colourVision.ts";
import { sampleRide } from "../support/sampleRide.ts";
import { contrastRatio } from "../support/wcag.ts";

const WIDTH = 640;
const HEIGHT = 64;
const STATES = { off: 1, "off excused": 2, "off unclear": 3, below: 4, in: 5, above: 6 } as const;

/** A thread in the band, with 20 s of one state in its middle, on a flat ground. */
function threadWith(state: number, theme: Theme, ground: string): Uint8ClampedArray {
  const columns = sampleRide({ altitudeM: null });
  columns.pressureState.fill(5);
  columns.pressureState.fill(state, 120, 140);
  const { context } = testCanvas(WIDTH, HEIGHT);
  context.fillStyle = ground;
  context.fillRect(0, 0, WIDTH, HEIGHT);
  const rect = { x: 0, y: 0, width: WIDTH, height: HEIGHT };
  paintThread(context, rect, threadPageAt(columns, { startS: 100, endS: 160 }, 159), typeScale(1), theme);
  return context.getImageData(0, 0, WIDTH, HEIGHT).data;
}

/** How light every pixel looks to a viewer, 0 to 1. */
function lightness(pixels: Uint8ClampedArray, vision: Vision): Float64Array {
  return Float64Array.from({ length: pixels.length / 4 }, (_, k) => {
    const [red, green, blue] = seen(pixels[4 * k]!, pixels[4 * k + 1]!, pixels[4 * k + 2]!, vision);
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  });
}

/** Pixels that are told apart at a ratio of at least 3:1 (WCAG 2.2, 1.4.11 for graphics), by lightness alone. */
function pixelsApart(a: Float64Array, b: Float64Array): number {
  return a.reduce((apart, light, k) => apart + (contrastRatio(light, b[k]!) >= 3 ? 1 : 0), 0);
}

// Grounds as they are beneath the scrim at half its depth: snow, wet road; for dark ink lightened.
const grounds: readonly (readonly [Theme, string])[] = [
  [lightInk, "#b0b0b0"],
  [lightInk, "#101214"],
  [darkInk, "#f0f4f8"],
  [darkInk, "#707478"],
];

for (const [theme, ground] of grounds) {
  for (const vision of visions) {
    test(`states of the thread are told apart: ${theme.name} ink on ${ground}, ${vision}`, () => {
      const names = Object.keys(STATES) as (keyof typeof STATES)[];
      const pictures = names.map((name) => lightness(threadWith(STATES[name], theme, ground), vision));
      for (let a = 0; a < names.length; a += 1) {
        for (let b = a + 1; b < names.length; b += 1) {
          const apart = pixelsApart(pictures[a]!, pictures[b]!);
          // 20 s are some 190 px across here: at least 40 px of difference, spread over them, is no speck.
          expect(apart, `${names[a]} and ${names[b]}`).toBeGreaterThan(40);
        }
      }
    });
  }
}

test("one state twice is not told apart: the check can fail", () => {
  const once = lightness(threadWith(5, lightInk, "#b0b0b0"), "greyscale");
  const again = lightness(threadWith(5, lightInk, "#b0b0b0"), "greyscale");
  expect(pixelsApart(once, again)).toBe(0);
});

test("a steady rider's thread is one unbroken firm line", () => {
  const columns = sampleRide();
  columns.pressureState.fill(5);
  const page = threadPageAt(columns, { startS: 4250, endS: 4370 }, 4350);
  expect(page.runs).toEqual([{ from: 0, to: 100 / 120, stroke: "in" }]);
});
