import { traceOutline } from "../../../overlay/outline.ts";
import type { View } from "./view.ts";
import { noise1 } from "./hashNoise.ts";

/** Bars, hands, stem and front wheel at the bottom of the picture, swaying with the cranks. */
export function paintBike(view: View): void {
  const { surface, at, widthPx, heightPx } = view;
  const unit = widthPx / 640;
  const sway = at.pedalling * Math.sin(at.crankTurns * 2 * Math.PI);
  const pace = Math.min(1, at.speedMps / 9);
  const steer = Math.max(-1, Math.min(1, view.road.curvatureAt(at.distanceM) * 14));
  surface.save();
  surface.translate(widthPx / 2, heightPx);
  surface.scale(unit, unit);
  surface.rotate(sway * 0.012 + steer * 0.05);
  surface.translate(sway * 2, (noise1(at.rideS * 13, 90) - 0.5) * 1.6 * pace + 6);
  paintWheel(view, steer);
  paintBars(view);
  surface.restore();
}

function paintWheel(view: View, steer: number): void {
  const { surface, at } = view;
  surface.save();
  surface.translate(0, -62);
  surface.rotate(steer * 0.16);
  // The tyre seen from above and behind: a long narrow lens.
  surface.fillStyle = "rgba(20,22,24,0.35)";
  lens(view, 3, 12, 13, 64);
  surface.fillStyle = "rgb(34,35,38)";
  lens(view, 0, 0, 8.5, 56);
  surface.fillStyle = "rgb(66,67,70)";
  lens(view, -1, -2, 3.2, 48);
  // Tread blocks run towards the road.
  surface.fillStyle = "rgba(18,18,20,0.8)";
  const run = (at.distanceM / 0.09) % 1;
  for (let i = 0; i < 9; i++) {
    const y = -46 + (i + run) * 10.5;
    const half = 5 * Math.sqrt(Math.max(0, 1 - (y / 54) ** 2));
    surface.fillRect(-half, y, 2 * half, 2.4);
  }
  surface.restore();
}

function paintBars({ surface }: View): void {
  const fill = (colour: string, outline: string): void => {
    surface.fillStyle = colour;
    surface.beginPath();
    traceOutline(surface, outline);
    surface.fill();
  };
  const stroke = (colour: string, widthPx: number, outline: string): void => {
    surface.strokeStyle = colour;
    surface.lineWidth = widthPx;
    surface.beginPath();
    traceOutline(surface, outline);
    surface.stroke();
  };
  surface.lineCap = "round";
  surface.lineJoin = "round";
  for (const side of [1, -1]) {
    surface.save();
    surface.scale(side, 1);
    // Forearm, then the hood with its hand.
    fill("rgb(190,146,118)", "M236 12C214 -22 186 -44 164 -54L142 -40C156 -20 166 -4 176 12Z");
    stroke("rgb(32,34,38)", 15, "M0 -16L96 -18C126 -20 140 -34 138 -62");
    stroke("rgb(54,57,63)", 4, "M30 -20L96 -22C122 -24 134 -38 133 -60");
    stroke("rgb(22,23,26)", 17, "M138 -60C136 -72 132 -80 129 -88");
    // Glove.
    fill("rgb(38,78,96)", "M172 -52C166 -72 150 -84 134 -82C122 -80 118 -66 126 -54C132 -42 144 -36 152 -38Z");
    for (const finger of ["M126 -74L117 -66", "M123 -65L115 -56", "M125 -56L118 -47"])
      stroke("rgb(222,184,156)", 6.5, finger);
    stroke("rgb(28,60,76)", 3, "M150 -80C154 -66 154 -54 150 -42");
    surface.restore();
  }
  // Stem, and the computer in front of it.
  fill("rgb(26,27,30)", "M-13 -26L13 -26L18 14L-18 14Z");
  fill(
    "rgb(18,19,21)",
    "M-14 -58L14 -58Q19 -58 19 -53L19 -23Q19 -18 14 -18L-14 -18Q-19 -18 -19 -23L-19 -53Q-19 -58 -14 -58Z",
  );
  fill(
    "rgb(176,190,186)",
    "M-13 -54L13 -54Q15 -54 15 -52L15 -26Q15 -24 13 -24L-13 -24Q-15 -24 -15 -26L-15 -52Q-15 -54 -13 -54Z",
  );
  surface.fillStyle = "rgb(70,82,82)";
  for (const [y, width] of [
    [-49, 14],
    [-42, 20],
    [-35, 9],
  ] as const)
    surface.fillRect(-11, y, width, 3.4);
}

function lens(view: View, x: number, y: number, rx: number, ry: number): void {
  const { surface } = view;
  surface.beginPath();
  surface.moveTo(x, y - ry);
  surface.bezierCurveTo(x + rx, y - ry, x + rx, y + ry * 0.4, x + rx, y + ry);
  surface.lineTo(x - rx, y + ry);
  surface.bezierCurveTo(x - rx, y + ry * 0.4, x - rx, y - ry, x, y - ry);
  surface.fill();
}
