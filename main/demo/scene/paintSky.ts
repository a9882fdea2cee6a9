import { css, HAZE, lit, mixed, type Rgb } from "./colour.ts";
import { hash01, noise1 } from "./hashNoise.ts";
import type { View } from "./view.ts";

const ZENITH: Rgb = [88, 146, 205];
const LOW_SKY: Rgb = [222, 233, 238];
/** Direction of the sun, radians from north. */
const SUN_RAD = 1.1;

/** The sky's own shades, in whole rows of pixels: painted before the picture is rolled, since upright rows are quick. */
export function paintSkyShades(view: View): void {
  const { surface, widthPx, heightPx, horizonPx } = view;
  const rowPx = Math.max(3, Math.round(heightPx / 90));
  const downPx = horizonPx + heightPx * 0.12;
  for (let y = 0; y < downPx; y += rowPx) {
    surface.fillStyle = css(
      mixed(ZENITH, LOW_SKY, Math.min(1, (y + heightPx * 0.1) / (horizonPx + heightPx * 0.1)) ** 1.3),
    );
    surface.fillRect(0, y, widthPx, rowPx);
  }
}

/** Clouds and the hills on the horizon; they turn with the heading. */
export function paintSky(view: View): void {
  const { surface, widthPx, heightPx, horizonPx } = view;
  const margin = widthPx * 0.12;
  paintSun(view);
  paintClouds(view);
  paintHills(view, 21, 0.052, 0.11, [142, 168, 186]);
  paintHills(view, 47, 0.03, 0.3, [124, 156, 148]);
  paintHills(view, 83, 0.017, 0.8, [112, 146, 104]);
  surface.fillStyle = css(mixed([126, 152, 98], HAZE, 0.35));
  surface.fillRect(-margin, horizonPx - 1, widthPx + 2 * margin, heightPx + margin - horizonPx);
}

/** Where a compass direction stands in the picture, px; null when behind. */
function directionPx(view: View, rad: number): number | null {
  const off = Math.atan2(Math.sin(rad - view.headingRad), Math.cos(rad - view.headingRad));
  return Math.abs(off) > 1.2 ? null : view.centrePx + view.focalPx * Math.tan(off);
}

function paintSun(view: View): void {
  const x = directionPx(view, SUN_RAD);
  if (x === null) return;
  const { surface } = view;
  const y = view.horizonPx - view.focalPx * 0.34;
  for (let i = 0; i < 9; i++) {
    surface.fillStyle = "rgba(255,248,224,0.07)";
    disc(view, x, y, view.widthPx * (0.26 - 0.026 * i));
  }
  surface.fillStyle = "rgba(255,253,244,0.95)";
  disc(view, x, y, view.widthPx * 0.022);
}

function paintClouds(view: View): void {
  const { surface } = view;
  for (let i = 0; i < 17; i++) {
    const x = directionPx(view, (i * 2 * Math.PI) / 17 + 0.3 * hash01(i, 5) + view.at.rideS * 4e-5);
    if (x === null || x < -0.5 * view.widthPx || x > 1.5 * view.widthPx) continue;
    const size = view.widthPx * (0.035 + 0.045 * hash01(i, 6));
    const y = view.horizonPx - view.focalPx * (0.11 + 0.3 * hash01(i, 7));
    for (const [shade, dy] of [
      ["rgba(196,208,218,0.55)", 0.16],
      ["rgba(250,252,253,0.8)", 0],
    ] as const) {
      surface.fillStyle = shade;
      surface.beginPath();
      for (let k = 0; k < 6; k++) {
        const along = (k - 2.5) * 0.62;
        const radius = size * (0.62 - 0.16 * Math.abs(k - 2.5) + 0.16 * hash01(i * 8 + k, 8));
        const bx = x + along * size;
        const by = y - radius * 0.34 + dy * size;
        surface.moveTo(bx + radius, by);
        surface.arc(bx, by, radius, 0, 2 * Math.PI);
      }
      surface.fill();
    }
  }
}

function paintHills(view: View, salt: number, slope: number, rough: number, colour: Rgb): void {
  const { surface, widthPx, horizonPx, focalPx } = view;
  const margin = widthPx * 0.12;
  const steps = 48;
  surface.beginPath();
  surface.moveTo(-margin, horizonPx + 2);
  for (let i = 0; i <= steps; i++) {
    const x = -margin + ((widthPx + 2 * margin) * i) / steps;
    const turn = ((view.headingRad + Math.atan((x - view.centrePx) / focalPx)) / (2 * Math.PI)) * 360;
    const height =
      noise1(turn / 17, salt) * 0.7 + noise1(turn / 6.1, salt + 1) * 0.25 + noise1(turn / 1.4, salt + 2) * 0.07 * rough;
    surface.lineTo(x, horizonPx - focalPx * slope * (0.25 + height) * 1.5);
  }
  surface.lineTo(widthPx + margin, horizonPx + 2);
  surface.closePath();
  surface.fillStyle = css(lit(colour, 1));
  surface.fill();
}

function disc(view: View, x: number, y: number, radius: number): void {
  view.surface.beginPath();
  view.surface.arc(x, y, radius, 0, 2 * Math.PI);
  view.surface.fill();
}
