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

function paintBars(view: View): void {
  const { surface } = view;
  const side = (x: (v: number) => number): void => {
    // Forearm, then the hood with its hand.
    surface.fillStyle = "rgb(190,146,118)";
    surface.beginPath();
    surface.moveTo(x(236), 12);
    surface.bezierCurveTo(x(214), -22, x(186), -44, x(164), -54);
    surface.lineTo(x(142), -40);
    surface.bezierCurveTo(x(156), -20, x(166), -4, x(176), 12);
    surface.closePath();
    surface.fill();
    surface.strokeStyle = "rgb(32,34,38)";
    surface.lineCap = "round";
    surface.lineJoin = "round";
    surface.lineWidth = 15;
    surface.beginPath();
    surface.moveTo(x(0), -16);
    surface.lineTo(x(96), -18);
    surface.bezierCurveTo(x(126), -20, x(140), -34, x(138), -62);
    surface.stroke();
    surface.strokeStyle = "rgb(54,57,63)";
    surface.lineWidth = 4;
    surface.beginPath();
    surface.moveTo(x(30), -20);
    surface.lineTo(x(96), -22);
    surface.bezierCurveTo(x(122), -24, x(134), -38, x(133), -60);
    surface.stroke();
    surface.strokeStyle = "rgb(22,23,26)";
    surface.lineWidth = 17;
    surface.beginPath();
    surface.moveTo(x(138), -60);
    surface.bezierCurveTo(x(136), -72, x(132), -80, x(129), -88);
    surface.stroke();
    // Glove.
    surface.fillStyle = "rgb(38,78,96)";
    surface.beginPath();
    surface.moveTo(x(172), -52);
    surface.bezierCurveTo(x(166), -72, x(150), -84, x(134), -82);
    surface.bezierCurveTo(x(122), -80, x(118), -66, x(126), -54);
    surface.bezierCurveTo(x(132), -42, x(144), -36, x(152), -38);
    surface.closePath();
    surface.fill();
    surface.strokeStyle = "rgb(222,184,156)";
    surface.lineWidth = 6.5;
    for (const [ax, ay, bx, by] of [
      [126, -74, 117, -66],
      [123, -65, 115, -56],
      [125, -56, 118, -47],
    ] as const) {
      surface.beginPath();
      surface.moveTo(x(ax), ay);
      surface.lineTo(x(bx), by);
      surface.stroke();
    }
    surface.strokeStyle = "rgb(28,60,76)";
    surface.lineWidth = 3;
    surface.beginPath();
    surface.moveTo(x(150), -80);
    surface.bezierCurveTo(x(154), -66, x(154), -54, x(150), -42);
    surface.stroke();
  };
  side((v) => v);
  side((v) => -v);
  // Stem, and the computer in front of it.
  surface.fillStyle = "rgb(26,27,30)";
  surface.beginPath();
  surface.moveTo(-13, -26);
  surface.lineTo(13, -26);
  surface.lineTo(18, 14);
  surface.lineTo(-18, 14);
  surface.closePath();
  surface.fill();
  surface.fillStyle = "rgb(18,19,21)";
  roundRect(view, -19, -58, 38, 40, 5);
  surface.fill();
  surface.fillStyle = "rgb(176,190,186)";
  roundRect(view, -15, -54, 30, 30, 2);
  surface.fill();
  surface.fillStyle = "rgb(70,82,82)";
  for (const [x, y, w] of [
    [-11, -49, 14],
    [-11, -42, 20],
    [-11, -35, 9],
  ] as const)
    surface.fillRect(x, y, w, 3.4);
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

function roundRect(view: View, x: number, y: number, w: number, h: number, r: number): void {
  const { surface } = view;
  surface.beginPath();
  surface.moveTo(x + r, y);
  surface.lineTo(x + w - r, y);
  surface.quadraticCurveTo(x + w, y, x + w, y + r);
  surface.lineTo(x + w, y + h - r);
  surface.quadraticCurveTo(x + w, y + h, x + w - r, y + h);
  surface.lineTo(x + r, y + h);
  surface.quadraticCurveTo(x, y + h, x, y + h - r);
  surface.lineTo(x, y + r);
  surface.quadraticCurveTo(x, y, x + r, y);
  surface.closePath();
}
