import { expect, test } from "vitest";
import { panelValuesAt } from "../../overlay/instant/panelValuesAt.ts";
import { threadPageAt } from "../../overlay/instant/threadPageAt.ts";
import type { Layout, LayoutOptions } from "../../overlay/layout/layout.ts";
import { createPanelPainter } from "../../overlay/panels/paintPanels.ts";
import type { Surface } from "../../overlay/surface.ts";
import { testCanvas } from "../support/canvas.ts";
import { grounds, paintGround, type Ground } from "./support/grounds.ts";
import { inkless } from "./support/inkless.ts";
import { sampleLayout, samplePage } from "./support/paintedBand.ts";
import { sampleRide } from "./support/sampleRide.ts";
import { contrastRatio, luminanceOf } from "./support/wcag.ts";

const columns = sampleRide();
const AT_S = 4344.4;
const NOTES = { caption: "Pressure off over the top of the rise", speed: 8, rider: "Mara" };

/** The picture with panels; with the ink left out, if wished. */
function picture(layout: Layout, ground: Ground, withInk: boolean, scrim: boolean): Uint8ClampedArray {
  const { widthPx, heightPx } = layout.options;
  const { context } = testCanvas(widthPx, heightPx);
  paintGround(context, ground, widthPx, heightPx);
  const band = testCanvas(layout.band.width, layout.band.height);
  const surface = withInk ? (band.context as unknown as Surface) : inkless(band.context, layout.theme.ink);
  const painter = createPanelPainter(layout, { bandW: columns.bandW, scrim });
  painter.paint(surface, panelValuesAt(columns, AT_S), threadPageAt(columns, samplePage, AT_S), NOTES);
  context.drawImage(band.canvas, layout.band.x, layout.band.y);
  return context.getImageData(0, 0, widthPx, heightPx).data;
}

/**
 * The least ratio between the ink of any letter and what lies beneath and around it, in rendered pixels: every pixel of
 * full ink against the inkless picture there and around it, for panels past the halo, so that the scrim is judged; for
 * captions, which carry a shade of their own, one pixel around.
 */
function leastContrast(
  options: Partial<LayoutOptions>,
  ground: Ground,
  scrim = true,
): { least: number; letters: number } {
  // Without the rule beneath power, which is no text and has an accent upon it.
  const { widthPx, heightPx } = { widthPx: 1280, heightPx: 720, ...options };
  const layout = sampleLayout(columns, widthPx, heightPx, { ...options, showPlan: false });
  const width = layout.options.widthPx;
  const full = picture(layout, ground, true, scrim);
  const beneath = picture(layout, ground, false, scrim);
  const lightOf = (pixels: Uint8ClampedArray, x: number, y: number): number => {
    const k = (y * width + x) * 4;
    return luminanceOf(pixels[k]!, pixels[k + 1]!, pixels[k + 2]!);
  };
  const inkBytes = [1, 3, 5].map((at) => Number.parseInt(layout.theme.ink.slice(at, at + 2), 16));
  const ink = luminanceOf(inkBytes[0]!, inkBytes[1]!, inkBytes[2]!);
  const areas = [
    ...layout.panels.map(({ rect }) => ({ rect, around: around(4) })),
    ...(layout.captionArea === null ? [] : [{ rect: layout.captionArea, around: around(1) }]),
  ];
  let least = Infinity;
  let letters = 0;
  for (const { rect: area, around: offsets } of areas) {
    for (let y = layout.band.y + area.y + 1; y < layout.band.y + area.y + area.height - 1; y += 1) {
      for (let x = layout.band.x + area.x + 1; x < layout.band.x + area.x + area.width - 1; x += 1) {
        const k = (y * width + x) * 4;
        if ([0, 1, 2].some((channel) => full[k + channel] !== inkBytes[channel])) continue;
        if ([0, 1, 2].every((channel) => full[k + channel] === beneath[k + channel])) continue;
        letters += 1;
        for (const [dx, dy] of offsets) least = Math.min(least, contrastRatio(ink, lightOf(beneath, x + dx, y + dy)));
      }
    }
  }
  return { least, letters };
}

/** The pixel itself and those so far away in eight directions. */
function around(px: number): (readonly [number, number])[] {
  return [-px, 0, px].flatMap((dx) => [-px, 0, px].map((dy) => [dx, dy] as const));
}

// WCAG 2.2, success criterion 1.4.3: at least 4.5:1 for text of any size.
const UPRIGHT = { widthPx: 540, heightPx: 960 };
const SQUARE = { widthPx: 720, heightPx: 720 };
for (const options of [
  { ink: "light" },
  { ink: "dark" },
  { place: "top" },
  { place: "left" },
  UPRIGHT,
  { ...UPRIGHT, ink: "dark" },
  SQUARE,
  { ...SQUARE, place: "top", ink: "dark" },
] as const) {
  for (const ground of grounds) {
    test(`every letter keeps 4.5:1: ${JSON.stringify(options)} over ${ground}`, () => {
      const { least, letters } = leastContrast(options, ground);
      expect(letters).toBeGreaterThan(1000);
      expect(least).toBeGreaterThanOrEqual(4.5);
    });
  }
}

test("the check can fail: without the scrim white letters on snow do not keep 4.5:1", () => {
  expect(leastContrast({}, "snow", false).least).toBeLessThan(4.5);
  // From the formula itself: 1:1 for equals, 21:1 for white on black.
  expect(contrastRatio(luminanceOf(255, 255, 255), luminanceOf(0, 0, 0))).toBeCloseTo(21, 10);
});
