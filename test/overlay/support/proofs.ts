// Runs in the browser as well as in Node: nothing of either is imported here.
import { paintCard } from "../../../overlay/cards/paintCard.ts";
import { drawText } from "../../../overlay/drawText.ts";
import { paintDrawing } from "../../../overlay/drawing/paintDrawing.ts";
import { panelValuesAt } from "../../../overlay/instant/panelValuesAt.ts";
import { routePath } from "../../../overlay/instant/routePath.ts";
import { threadPageAt } from "../../../overlay/instant/threadPageAt.ts";
import { availableIn } from "../../../overlay/layout/availableIn.ts";
import { defaultLayoutOptions, defaultPanels, layoutFor, type LayoutOptions } from "../../../overlay/layout/layout.ts";
import { createPanelPainter } from "../../../overlay/panels/paintPanels.ts";
import type { Surface } from "../../../overlay/surface.ts";
import { darkInk, lightInk } from "../../../overlay/theme.ts";
import { sampleRide } from "./sampleRide.ts";

/** A drawing that two canvases are held to. */
export interface Proof {
  readonly width: number;
  readonly height: number;
  readonly draw: (surface: Surface) => void;
}

const ride = sampleRide();

function panels(width: number, height: number, changes: Partial<LayoutOptions>, steps: readonly number[]): Proof {
  const layout = layoutFor({ ...defaultLayoutOptions(width, height, availableIn(ride)), ...changes });
  return {
    width: layout.band.width,
    height: layout.band.height,
    draw(surface) {
      const painter = createPanelPainter(layout, { route: routePath(ride), bandW: ride.bandW });
      const page = { startS: 4250, endS: 4370 };
      for (const rideS of steps) {
        const notes = { caption: "Pressure off over the top", speed: 8 };
        painter.paint(surface, panelValuesAt(ride, rideS), threadPageAt(ride, page, rideS), notes);
      }
    },
  };
}

/** All of them outlines and strokes, but for `free text`. */
export const proofs: Readonly<Record<string, Proof>> = {
  row: panels(1280, 720, {}, [4344.4]),
  "row grown in steps": panels(1280, 720, {}, [4290, 4301.2, 4301.4, 4302.6, 4318.2]),
  "all panels, upright, dark ink": panels(
    540,
    960,
    { ink: "dark", panels: [...defaultPanels, "mainPart", "drift", "route"] },
    [4344.4],
  ),
  "all panels at the top, large": panels(
    1920,
    1080,
    { place: "top", panels: [...defaultPanels, "mainPart", "drift", "route"] },
    [4275.4, 4333.2],
  ),
  "a side column in steps": panels(
    1280,
    720,
    { place: "right" },
    Array.from({ length: 60 }, (_, k) => 4255 + 1.8 * k),
  ),
  "a small row in steps": panels(
    854,
    480,
    {},
    Array.from({ length: 60 }, (_, k) => 4255 + 1.8 * k),
  ),
  chart: {
    width: 640,
    height: 360,
    draw: (surface) =>
      paintCard(
        surface,
        {
          kind: "chart",
          title: "Your heart rate began to climb",
          lines: ["At the same power."],
          series: {
            power30sW: ride.power3s?.value ?? null,
            heartRateBpm: ride.heartRate?.value ?? null,
            ...(ride.altitudeM === null ? {} : { altitude: ride.altitudeM }),
            startS: 0,
            stepS: 1,
          },
          marks: {
            bandW: ride.bandW,
            counted: { startS: 600, endS: 7200 },
            first: { atS: 1500, bpm: 129 },
            last: { atS: 6900, bpm: 135 },
            onset: { atS: 3900, lowS: 3400, highS: 4500 },
            moment: null,
            heartBand: { low: 126, high: 136 },
            blocks: [{ startS: 2000, endS: 2600, low: 210, high: 240 }],
            shots: [{ startS: 4262, endS: 4274 }],
            told: [4262, 1500],
          },
        },
        { width: 640, height: 360 },
        lightInk,
      ),
  },
  drawing: {
    width: 640,
    height: 360,
    draw: (surface) =>
      paintDrawing(
        surface,
        {
          shape: "arrow",
          points: [
            { x: 0.2, y: 0.3 },
            { x: 0.6, y: 0.7 },
          ],
          text: null,
          startS: 0,
          endS: 1,
        },
        { width: 640, height: 360 },
        darkInk,
      ),
  },
  "free text": {
    width: 640,
    height: 120,
    draw(surface) {
      surface.fillStyle = "#405060";
      surface.fillRect(0, 0, 640, 120);
      const style = { sizePx: 48, weight: "strong" } as const;
      drawText(surface, "Łucja Wiśniewska", 20, 80, style, {
        ink: "#ffffff",
        halo: "#000000",
        haloAlpha: 0.6,
        haloPx: 3,
      });
    },
  },
};
