import { css, hazed, type Rgb } from "./colour.ts";
import { fillPolygon, type Point3, type View } from "./view.ts";

const RED: Rgb = [200, 44, 40];
const WHITE: Rgb = [240, 240, 236];
/** Half the length of the train, m, and the length of one carriage. */
export const TRAIN_HALF_M = 44;
const CARRIAGE_M = 22;

/** The rails, the train and both booms; painted from far to near, when they lie between `fromM` and `toM` ahead. */
export function paintCrossing(view: View, fromM: number, toM: number): void {
  const railsM = view.road.railsM - view.at.distanceM;
  const inside = (m: number): boolean => m >= fromM && m < toM;
  if (inside(railsM + 5)) paintBoom(view, railsM + 5, 1);
  if (inside(railsM)) {
    paintRails(view, railsM);
    if (view.at.crossing.trainM !== null) paintTrain(view, railsM, view.at.crossing.trainM);
  }
  if (inside(railsM - 5)) paintBoom(view, railsM - 5, -1);
}

function paintRails(view: View, m: number): void {
  const strip = (fromM: number, toM: number, up: number, wide: number): Point3[] => [
    view.point(m + fromM, -wide, up),
    view.point(m + toM, -wide, up),
    view.point(m + toM, wide, up),
    view.point(m + fromM, wide, up),
  ];
  fillPolygon(view, strip(-1.9, 1.9, 0.02, 90), css(hazed([128, 116, 102], m)));
  fillPolygon(view, strip(-1.9, 1.9, 0.03, 2.9), css(hazed([92, 90, 92], m)));
  for (const rail of [-0.75, 0.7]) {
    fillPolygon(view, strip(rail - 0.06, rail + 0.12, 0.06, 90), css(hazed([84, 66, 58], m)));
    fillPolygon(view, strip(rail, rail + 0.07, 0.09, 90), css(hazed([196, 200, 206], m)));
  }
}

function paintTrain(view: View, m: number, middleM: number): void {
  const wall = (leftM: number, rightM: number, lowM: number, highM: number, colour: Rgb, alpha = 1): void => {
    const x0 = Math.max(leftM, -70);
    const x1 = Math.min(rightM, 70);
    if (x1 <= x0) return;
    fillPolygon(
      view,
      [
        view.point(m - 1.3, x0, lowM),
        view.point(m - 1.3, x0, highM),
        view.point(m - 1.3, x1, highM),
        view.point(m - 1.3, x1, lowM),
      ],
      css(colour, alpha),
    );
  };
  for (let c = -2; c < 2; c++) {
    const from = middleM + c * CARRIAGE_M;
    const to = from + CARRIAGE_M - 0.7;
    wall(from, to, 0.9, 3.75, [38, 92, 118]);
    wall(from, to, 3.6, 3.95, [70, 78, 84]);
    wall(from, to, 0.55, 0.95, [44, 46, 50]);
    wall(from, to, 1.35, 1.55, [236, 226, 196]);
    for (let w = 0; w < 6; w++) wall(from + 1.8 + w * 3.2, from + 4.1 + w * 3.2, 2.05, 3.05, [198, 214, 222]);
    wall(from + 0.3, from + 1.3, 1.0, 3.2, [28, 70, 92]);
    for (const wheel of [2.6, 5, 16.4, 18.8]) wall(from + wheel - 0.45, from + wheel + 0.45, 0.1, 0.85, [52, 48, 48]);
  }
}

/** A striped boom with its lamps and saltire; `side` is where it pivots. */
function paintBoom(view: View, m: number, side: number): void {
  const { surface } = view;
  const pivot = view.point(m, side * 3.7, 1.05);
  if (pivot[2] < 1.2) return;
  const raised = ((1 - view.at.crossing.boom) * 82 * Math.PI) / 180;
  const along = (r: number, across: number): Point3 =>
    view.point(
      m,
      side * (3.7 - r * Math.cos(raised) - across * Math.sin(raised)),
      1.05 + r * Math.sin(raised) - across * Math.cos(raised),
    );
  const stripes = 12;
  const length = 7;
  for (let i = 0; i < stripes; i++) {
    const a = (length * i) / stripes;
    const b = (length * (i + 1)) / stripes;
    fillPolygon(
      view,
      [along(a, -0.09), along(b, -0.09), along(b, 0.09), along(a, 0.09)],
      css(hazed(i % 2 ? WHITE : RED, m)),
    );
  }
  const foot = view.point(m, side * 3.9, 0);
  const scale = view.focalPx / foot[2];
  const x = view.px(foot);
  const y = view.py(foot);
  surface.fillStyle = css(hazed([128, 132, 136], m));
  surface.fillRect(x - 0.09 * scale, y - 3.0 * scale, 0.18 * scale, 3.0 * scale);
  surface.fillStyle = css(hazed([70, 74, 78], m));
  surface.fillRect(x - 0.3 * scale, y - 1.3 * scale, 0.6 * scale, 1.3 * scale);
  if (side > 0) return;
  surface.lineCap = "butt";
  for (const [width, colour] of [
    [0.26, RED],
    [0.16, WHITE],
  ] as const) {
    surface.strokeStyle = css(hazed(colour, m));
    surface.lineWidth = width * scale;
    for (const way of [-1, 1]) {
      surface.beginPath();
      surface.moveTo(x - 0.62 * scale, y - (2.85 + way * 0.3) * scale);
      surface.lineTo(x + 0.62 * scale, y - (2.85 - way * 0.3) * scale);
      surface.stroke();
    }
  }
  surface.fillStyle = css(hazed([26, 28, 32], m));
  surface.fillRect(x - 0.5 * scale, y - 2.4 * scale, scale, 0.48 * scale);
  const blink = Math.floor(view.at.rideS * 1.8) % 2;
  for (const [i, dx] of [-0.26, 0.26].entries()) {
    const burning = view.at.crossing.boom > 0.02 && blink === i;
    if (burning) {
      surface.fillStyle = "rgba(255,70,50,0.3)";
      circle(view, x + dx * scale, y - 2.16 * scale, 0.34 * scale);
    }
    surface.fillStyle = burning ? "rgb(255,74,52)" : css(hazed([84, 30, 28], m));
    circle(view, x + dx * scale, y - 2.16 * scale, 0.17 * scale);
  }
}

function circle(view: View, x: number, y: number, radius: number): void {
  view.surface.beginPath();
  view.surface.arc(x, y, radius, 0, 2 * Math.PI);
  view.surface.fill();
}
