import { expect, test } from "vitest";
import { drawText } from "../../overlay/drawText.ts";
import { layoutFor, type LayoutOptions } from "../../overlay/layout/layout.ts";
import { themeFor } from "../../overlay/theme.ts";
import { testCanvas } from "../support/canvas.ts";
import { grounds, paintGround } from "./support/grounds.ts";
import { paintedBand, sampleLayout } from "./support/paintedBand.ts";
import { sampleRide } from "./support/sampleRide.ts";

/** Relative luminance and contrast ratio as WCAG 2.2 defines them (https://www.w3.org/TR/WCAG22/#dfn-relative-luminance). */
function luminance(red: number, green: number, blue: number): number {
  const linear = [red, green, blue].map((byte) => {
    const share = byte / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * (linear[0] as number) + 0.7152 * (linear[1] as number) + 0.0722 * (linear[2] as number);
}

function contrast(a: number, b: number): number {
  return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
}

const CAPTION = "Pressure off over the top of the rise";

/**
 * The least contrast of any letter: pixels of full ink against the pixels around them that have none, within a reach.
 * What is ink and what is not is told by drawing the same text with and without ink.
 */
function leastContrast(options: Partial<LayoutOptions>, ground: (typeof grounds)[number], width: number, height: number): number {
  const columns = sampleRide();
  const layout = sampleLayout(columns, width, height, { showThread: true, ...options });
  const paintOn = (): Uint8ClampedArray => {
    const { canvas, context } = testCanvas(width, height);
    paintGround(context, ground, width, height);
    const band = paintedBand(layout, columns);
    band.paint(4344.4, { caption: CAPTION, speed: 8 });
    context.drawImage(band.canvas, layout.band.x, layout.band.y);
    return canvas.getContext("2d").getImageData(0, 0, width, height).data;
  };
  const picture = paintOn();
  const ink = themeFor(options.ink ?? "light").ink;
  const inkBytes = [1, 3, 5].map((at) => Number.parseInt(ink.slice(at, at + 2), 16));
  const inkLuminance = luminance(inkBytes[0] as number, inkBytes[1] as number, inkBytes[2] as number);
  const reach = Math.max(2, Math.round(layout.type.haloPx));
  const areas = [...layout.panels.map((panel) => panel.rect), ...(layout.captionArea === null ? [] : [layout.captionArea])];
  let least = Infinity;
  for (const area of areas) {
    for (let y = area.y + reach; y < area.y + area.height - reach; y += 1) {
      for (let x = area.x + reach; x < area.x + area.width - reach; x += 1) {
        const at = (dx: number, dy: number): number => {
          const k = ((layout.band.y + y + dy) * width + layout.band.x + x + dx) * 4;
          return luminance(picture[k] as number, picture[k + 1] as number, picture[k + 2] as number);
        };
        if (Math.abs(at(0, 0) - inkLuminance) > 0.02) continue;
        // The nearest pixel across the edge of the letter, in four directions: the best of them bounds the letter there.
        const around = [at(reach, 0), at(-reach, 0), at(0, reach), at(0, -reach)].filter((value) => Math.abs(value - inkLuminance) > 0.2);
        if (around.length === 0) continue;
        least = Math.min(least, contrast(inkLuminance, Math.max(...around)));
      }
    }
  }
  return least;
}

void drawText;
void layoutFor;
for (const ink of ["light", "dark"] as const) {
  for (const ground of grounds) {
    test(`${ink} ink over ${ground}`, () => {
      console.log(ink, ground, leastContrast({ ink }, ground, 1280, 720));
      expect(leastContrast({ ink }, ground, 1280, 720)).toBeGreaterThanOrEqual(4.5);
    });
  }
}
