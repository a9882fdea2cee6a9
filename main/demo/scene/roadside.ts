/** Things that stand beside the road: posts, rails, trees, poles, bales, signs. Each is a fixed function of the distance. */
import type { Course } from "../course.ts";
import { css, hazed, lit, type Rgb } from "./colour.ts";
import { hash01 } from "./hashNoise.ts";
import { FIELD_M, fieldEdge, inWood, keptClear } from "./land.ts";
import { EDGE_M } from "./paintGround.ts";
import { fillPolygon, fillPolygons, type Point3, type View } from "./view.ts";

/** Paints all that stands between `fromM` and `toM` ahead, far things first. */
export function paintRoadside(view: View, fromM: number, toM: number): void {
  const s = view.at.distanceM;
  const { road } = view;
  eachBackwards(s + fromM, s + toM, 6.5, (k, m) => {
    if (keptClear(road, m)) return;
    for (const side of [-1, 1]) paintTreeAt(view, k, m - s, side, inWood(road, m));
  });
  eachBackwards(s + fromM, s + toM, 55, (_, m) => paintPole(view, m - s));
  if (fromM < 110) {
    eachBackwards(s + fromM, s + toM, 3.2, (_, m) => {
      if (keptClear(road, m) || inWood(road, m)) return;
      for (const side of [-1, 1]) {
        if (fieldEdge(Math.floor(m / FIELD_M), side) === "rails") paintRails(view, m - s, side, 3.2);
      }
    });
  }
  eachBackwards(s + fromM, s + toM, 27, (k, m) => paintBale(view, road, k, m - s));
  if (fromM < 160) {
    eachBackwards(s + fromM, s + toM, 40, (_, m) => {
      for (const side of [-1, 1]) paintMarkerPost(view, m - s, side);
    });
  }
  for (const c of road.corners) {
    for (const offM of [8, 13, 18]) {
      const a = c.atM + offM - s;
      if (a >= fromM && a < toM) paintBendBoard(view, a, c.angleDeg);
    }
  }
}

function eachBackwards(fromM: number, toM: number, stepM: number, paint: (k: number, m: number) => void): void {
  for (let k = Math.ceil(toM / stepM) - 1; k * stepM >= fromM; k--) paint(k, k * stepM);
}

const LEAVES: readonly Rgb[] = [
  [70, 106, 48],
  [86, 122, 56],
  [60, 94, 52],
  [104, 132, 62],
];

function paintTreeAt(view: View, k: number, aheadM: number, side: number, wood: boolean): void {
  // A wood far ahead needs fewer trees to look like one.
  if (aheadM < 2.5 || hash01(k, 60 + side) > (wood ? (aheadM > 60 ? 0.45 : 0.85) : 0.17)) return;
  const beside = side * (wood ? 5.4 + 7 * hash01(k, 62 + side) : 7.6 + 16 * hash01(k, 62 + side) ** 2);
  const tall = (wood ? 8 : 5) + 5 * hash01(k, 64 + side);
  const foot = view.point(aheadM, beside, 0);
  if (foot[2] < 2.2) return;
  const x = view.px(foot);
  const scale = view.focalPx / foot[2];
  if (x < -tall * scale || x > view.widthPx + tall * scale) return;
  const y = view.py(foot);
  const { surface } = view;
  const leaf = LEAVES[Math.floor(hash01(k, 66 + side) * LEAVES.length)]!;
  const far = foot[2];
  surface.fillStyle = css(hazed([84, 70, 54], far));
  const trunk = 0.16 + 0.12 * hash01(k, 68);
  surface.fillRect(x - trunk * scale, y - tall * 0.5 * scale, 2 * trunk * scale, tall * 0.5 * scale);
  if (far < 70) {
    surface.fillStyle = "rgba(30,44,24,0.22)";
    surface.beginPath();
    ellipse(view, x - 0.8 * scale, y, tall * 0.34 * scale, tall * 0.06 * scale);
    surface.fill();
  }
  const crown = (dx: number, dy: number, size: number, colour: Rgb, count: number): void => {
    surface.fillStyle = css(hazed(colour, far));
    surface.beginPath();
    for (let i = 0; i < count; i++) {
      const turn = (i / count) * 2 * Math.PI + hash01(k, 70);
      const r = tall * scale * size * (0.8 + 0.4 * hash01(k * 9 + i, 72));
      const bx = x + (dx + 0.17 * Math.cos(turn)) * tall * scale;
      const by = y - (dy + 0.16 * Math.sin(turn)) * tall * scale;
      surface.moveTo(bx + r, by);
      surface.arc(bx, by, r, 0, 2 * Math.PI);
    }
    surface.fill();
  };
  if (far > 110) {
    crown(0.01, 0.64, 0.19, lit(leaf, 0.86), 3);
    return;
  }
  const blobs = far < 60 ? 7 : 4;
  crown(0, 0.62, 0.2, lit(leaf, 0.72), blobs);
  crown(0.02, 0.66, 0.16, leaf, blobs);
  if (far < 60) crown(0.06, 0.74, 0.085, lit(leaf, 1.14), 5);
}

function paintPole(view: View, aheadM: number): void {
  const sideM = 9.2;
  const s = view.at.distanceM;
  if (aheadM < 3 || inWood(view.road, s + aheadM) || keptClear(view.road, s + aheadM)) return;
  const foot = view.point(aheadM, sideM, 0);
  const head = view.point(aheadM, sideM, 7.2);
  if (foot[2] < 3) return;
  const { surface } = view;
  const scale = view.focalPx / foot[2];
  const style = css(hazed([92, 78, 64], foot[2]));
  surface.fillStyle = style;
  surface.fillRect(view.px(foot) - 0.11 * scale, view.py(head), 0.22 * scale, view.py(foot) - view.py(head));
  surface.fillRect(view.px(head) - 0.8 * scale, view.py(head) + 0.3 * scale, 1.6 * scale, 0.14 * scale);
  const next = view.point(aheadM + 55, sideM, 7.2);
  if (next[2] < foot[2]) return;
  surface.strokeStyle = css(hazed([70, 72, 78], foot[2]), 0.75);
  surface.lineWidth = Math.max(0.5, 0.025 * scale);
  for (const off of [-0.7, 0.7]) {
    const nextScale = view.focalPx / next[2];
    const ax = view.px(head) + off * scale;
    const ay = view.py(head) + 0.3 * scale;
    const bx = view.px(next) + off * nextScale;
    const by = view.py(next) + 0.3 * nextScale;
    surface.beginPath();
    surface.moveTo(ax, ay);
    surface.quadraticCurveTo((ax + 2 * bx) / 3, (ay + 2 * by) / 3 + 0.5 * nextScale, bx, by);
    surface.stroke();
  }
}

function paintRails(view: View, aheadM: number, side: number, stepM: number): void {
  if (aheadM < 0.5) return;
  const x = side * EDGE_M;
  const style = css(hazed([126, 104, 80], aheadM));
  const post = (m: number, w: number): Point3[] => [
    view.point(m, x, 0),
    view.point(m, x, 1.25),
    view.point(m + w, x, 1.25),
    view.point(m + w, x, 0),
  ];
  const bar = (up: number): Point3[] => [
    view.point(aheadM, x, up),
    view.point(aheadM, x, up + 0.11),
    view.point(aheadM + stepM, x, up + 0.11),
    view.point(aheadM + stepM, x, up),
  ];
  fillPolygons(view, [bar(0.55), bar(1.0)], style);
  fillPolygon(view, post(aheadM, 0.14), css(hazed([104, 84, 62], aheadM)));
}

function paintMarkerPost(view: View, aheadM: number, side: number): void {
  if (aheadM < 1.5) return;
  const foot = view.point(aheadM, side * 3.5, 0);
  if (foot[2] < 1.2) return;
  const scale = view.focalPx / foot[2];
  const x = view.px(foot);
  const y = view.py(foot);
  const { surface } = view;
  surface.fillStyle = css(hazed([238, 238, 232], foot[2]));
  surface.fillRect(x - 0.06 * scale, y - 0.95 * scale, 0.12 * scale, 0.95 * scale);
  surface.fillStyle = css(hazed([40, 42, 46], foot[2]));
  surface.fillRect(x - 0.06 * scale, y - 0.78 * scale, 0.12 * scale, 0.2 * scale);
  surface.fillStyle = css(hazed([226, 150, 60], foot[2]));
  surface.fillRect(x - 0.035 * scale, y - 0.74 * scale, 0.07 * scale, 0.12 * scale);
}

function paintBale(view: View, road: Course, k: number, aheadM: number): void {
  const side = hash01(k, 80) < 0.5 ? -1 : 1;
  const d = view.at.distanceM + aheadM;
  if (aheadM < 6 || hash01(k, 81) > 0.3 || inWood(road, d) || keptClear(road, d)) return;
  const foot = view.point(aheadM, side * (13 + 22 * hash01(k, 82)), 0);
  if (foot[2] < 5) return;
  const scale = view.focalPx / foot[2];
  const x = view.px(foot);
  const y = view.py(foot);
  const { surface } = view;
  surface.fillStyle = css(hazed([178, 152, 92], foot[2]));
  surface.beginPath();
  surface.arc(x, y - 0.7 * scale, 0.75 * scale, 0, 2 * Math.PI);
  surface.rect(x, y - 1.45 * scale, 1.1 * scale, 1.5 * scale);
  surface.fill();
  surface.fillStyle = css(hazed([208, 184, 120], foot[2]));
  surface.beginPath();
  surface.arc(x, y - 0.7 * scale, 0.55 * scale, 0, 2 * Math.PI);
  surface.fill();
}

/** A board on the outside of a sharp bend whose stripe points the way. */
function paintBendBoard(view: View, aheadM: number, angleDeg: number): void {
  const outside = angleDeg > 0 ? -4.4 : 4.4;
  const foot = view.point(aheadM, outside, 0);
  if (foot[2] < 1.5) return;
  const scale = view.focalPx / foot[2];
  const x = view.px(foot);
  const y = view.py(foot);
  const { surface } = view;
  surface.fillStyle = "rgb(120,122,124)";
  surface.fillRect(x - 0.04 * scale, y - 0.8 * scale, 0.08 * scale, 0.8 * scale);
  surface.fillStyle = "rgb(34,38,46)";
  surface.fillRect(x - 0.42 * scale, y - 1.6 * scale, 0.84 * scale, 0.84 * scale);
  const way = angleDeg > 0 ? 1 : -1;
  surface.fillStyle = "rgb(244,244,238)";
  surface.beginPath();
  surface.moveTo(x - way * 0.26 * scale, y - 1.52 * scale);
  surface.lineTo(x + way * 0.05 * scale, y - 1.52 * scale);
  surface.lineTo(x + way * 0.33 * scale, y - 1.18 * scale);
  surface.lineTo(x + way * 0.05 * scale, y - 0.84 * scale);
  surface.lineTo(x - way * 0.26 * scale, y - 0.84 * scale);
  surface.lineTo(x + way * 0.02 * scale, y - 1.18 * scale);
  surface.closePath();
  surface.fill();
}

function ellipse(view: View, x: number, y: number, rx: number, ry: number): void {
  const k = 0.5523;
  const { surface } = view;
  surface.moveTo(x + rx, y);
  surface.bezierCurveTo(x + rx, y + k * ry, x + k * rx, y + ry, x, y + ry);
  surface.bezierCurveTo(x - k * rx, y + ry, x - rx, y + k * ry, x - rx, y);
  surface.bezierCurveTo(x - rx, y - k * ry, x - k * rx, y - ry, x, y - ry);
  surface.bezierCurveTo(x + k * rx, y - ry, x + rx, y - k * ry, x + rx, y);
}
