import { css, hazed, lit, mixed, type Rgb } from "./colour.ts";
import { hash01, noise1 } from "./hashNoise.ts";
import { FIELD_M, fieldColour, fieldEdge, inWood, keptClear } from "./land.ts";
import { fillPolygon, fillPolygons, type Point3, type View } from "./view.ts";

/** Half the width of the tarmac, m. */
const ROAD_HALF_M = 2.75;
/** Each slice reaches a little into the one beyond, what lies on top a little further, so that no seam shows. */
const OVERLAP = 1.012;
/** Where the strip of grit beside the tarmac ends, m. */
const KERB_M = 3.05;
/** Where the verge ends and the field's edge stands, m from the middle. */
export const EDGE_M = 6.6;

const TARMAC: Rgb = [112, 112, 116];
const VERGE: Rgb = [108, 146, 66];
const HEDGE: Rgb = [66, 98, 46];
const WALL: Rgb = [150, 144, 132];
const PAINT: Rgb = [236, 236, 228];

/** One slice of land across the road, from `fromM` to `toM` ahead. */
export function paintSlice(view: View, fromM: number, toM: number): void {
  const { road, at } = view;
  const middleM = at.distanceM + (fromM + toM) / 2;
  const block = Math.floor(middleM / FIELD_M);
  const shade = 0.93 + 0.14 * noise1(middleM / 90, 11);
  const wood = inWood(road, middleM);
  const look = (colour: Rgb): Rgb => hazed(lit(colour, shade * (wood ? 0.78 : 1)), fromM);
  const near = edgePoints(view, fromM);
  const endM = toM * OVERLAP;
  const roadEndM = endM * OVERLAP ** 2;
  const far = edgePoints(view, endM);
  for (const side of [-1, 1] as const) {
    const a = side < 0 ? near.left : near.right;
    const b = side < 0 ? far.left : far.right;
    const crop = wood ? ([74, 96, 52] as const) : fieldColour(block, side);
    fillPolygon(view, [a.verge, b.verge, b.outer, a.outer], css(look(crop)));
  }
  // Verges as one strip beneath the road.
  fillPolygon(view, [near.left.verge, far.left.verge, far.right.verge, near.right.verge], css(look(VERGE)));
  if (!wood && !keptClear(road, middleM)) for (const side of [-1, 1]) paintEdge(view, side, block, fromM, toM, look);
  // A strip of grit, the tarmac, its edge lines.
  fillPolygon(view, across(view, fromM, endM * OVERLAP, -KERB_M, KERB_M), css(look([148, 138, 118])));
  const tone = look(mixed(TARMAC, [96, 94, 96], noise1(middleM / 37, 12)));
  fillPolygon(view, across(view, fromM, roadEndM, -ROAD_HALF_M, ROAD_HALF_M), css(tone));
  if (fromM < 90) {
    // Wheel tracks, worn paler.
    fillPolygons(
      view,
      [across(view, fromM, roadEndM, -1.9, -1.3), across(view, fromM, roadEndM, 1.2, 1.8)],
      css(lit(tone, 1.06)),
    );
  }
  if (fromM < 140) {
    const lines = [across(view, fromM, roadEndM, -2.56, -2.44), across(view, fromM, roadEndM, 2.44, 2.56)];
    fillPolygons(view, lines, css(mixed(tone, look(PAINT), 0.8)));
  }
}

/** Dashes along the middle: 3 m painted, 6 m not. */
export function paintDashes(view: View, fromM: number, toM: number): void {
  const { at, road } = view;
  const s = at.distanceM;
  for (let k = Math.ceil((s + fromM) / 9); k * 9 < s + toM; k++) {
    const a = k * 9 - s;
    if (a > 150 || Math.abs(k * 9 - road.railsM) < 12) continue;
    fillPolygon(view, across(view, Math.max(a, 0.9), a + 3, -0.07, 0.07), css(hazed(PAINT, a), 0.92));
  }
}

/** Repairs, seams, grit and grass blades close by: what makes speed visible. */
export function paintTexture(view: View, fromM: number, toM: number): void {
  const s = view.at.distanceM;
  // As long as the shutter is open, 1/60 s.
  const smearM = view.at.speedMps / 60;
  if (fromM < 60) {
    for (let k = Math.ceil((s + fromM) / 7); k * 7 < s + toM; k++) {
      const h = hash01(k, 13);
      const a = k * 7 - s;
      if (h < 0.18)
        fillPolygon(
          view,
          across(view, a, a + 1.2 + 5 * hash01(k, 14), -2.2 + 3 * hash01(k, 15), -0.6 + 3 * hash01(k, 15)),
          "rgba(60,60,66,0.30)",
        );
      else if (h < 0.42) fillPolygon(view, across(view, a, a + 0.07 + smearM, -2.7, 2.7), "rgba(48,48,54,0.35)");
    }
  }
  if (fromM > 17) return;
  const grit: Record<"pale" | "dark", Point3[][]> = { pale: [], dark: [] };
  const blades: Record<"pale" | "dark", Point3[][]> = { pale: [], dark: [] };
  const step = 0.5;
  for (let k = Math.ceil((s + fromM) / step); k * step < s + toM; k++) {
    const a = k * step - s;
    if (a < 0.8) continue;
    if (a < 12) {
      const x = -2.6 + 5.2 * hash01(k, 16);
      const size = 0.012 + 0.03 * hash01(k, 17);
      grit[hash01(k, 18) > 0.5 ? "pale" : "dark"].push(across(view, a, a + size * 2 + smearM, x, x + size));
    }
    for (const side of [-1, 1])
      blades[hash01(k, 25 + side) > 0.5 ? "dark" : "pale"].push(tuft(view, k, a, side, smearM));
  }
  fillPolygons(view, grit.pale, "rgba(206,202,196,0.5)");
  fillPolygons(view, grit.dark, "rgba(46,46,50,0.5)");
  fillPolygons(view, blades.dark, "rgba(84,122,52,0.8)");
  fillPolygons(view, blades.pale, "rgba(136,170,84,0.8)");
}

/** Three blades of grass from one root, a zigzag. */
function tuft(view: View, k: number, aheadM: number, side: number, smearM: number): Point3[] {
  const x = side * (3.15 + 3.2 * hash01(k, 19 + side) ** 1.4);
  const tall = 0.07 + 0.13 * hash01(k, 22 + side);
  const p = (dx: number, up: number): Point3 => view.point(aheadM + (dx + 0.1) * smearM * 2, x + dx, up);
  return [
    p(-0.07, 0),
    p(-0.11, tall * 0.8),
    p(-0.02, tall * 0.3),
    p(0.01, tall),
    p(0.04, tall * 0.3),
    p(0.12, tall * 0.7),
    p(0.08, 0),
  ];
}

function paintEdge(view: View, side: number, block: number, fromM: number, toM: number, look: (c: Rgb) => Rgb): void {
  const edge = fieldEdge(block, side);
  const x = side * EDGE_M;
  const s = view.at.distanceM;
  if (edge === "hedge") {
    const top = (m: number): number =>
      1.15 + 0.55 * noise1((s + m) / 2.3, 31 + side) + 0.3 * noise1((s + m) / 0.8, 33 + side);
    standing(view, fromM, toM, x, top, css(look(HEDGE)));
    if (fromM < 80) standing(view, fromM, toM, x, (m) => top(m) * 0.45, css(look(lit(HEDGE, 0.8))));
  } else if (edge === "wall") {
    standing(view, fromM, toM, x, () => 0.95, css(look(WALL)));
    if (fromM < 60) standing(view, fromM, toM, x, () => 0.16, css(look(lit(WALL, 0.75))));
  }
}

/** A fence-like strip along the road, its height a function of the distance. */
function standing(
  view: View,
  fromM: number,
  toM: number,
  sideM: number,
  upM: (m: number) => number,
  style: string,
): void {
  const foot: Point3[] = [];
  const head: Point3[] = [];
  const endM = toM * OVERLAP;
  const pieces = fromM < 25 ? Math.max(2, Math.ceil((toM - fromM) / 0.8)) : 2;
  for (let i = 0; i <= pieces; i++) {
    const m = fromM + ((endM - fromM) * i) / pieces;
    foot.push(view.point(m, sideM, 0));
    head.unshift(view.point(m, sideM, upM(m)));
  }
  fillPolygon(view, [...foot, ...head], style);
}

function across(view: View, fromM: number, toM: number, leftM: number, rightM: number): Point3[] {
  return [
    view.point(fromM, leftM, 0),
    view.point(toM, leftM, 0),
    view.point(toM, rightM, 0),
    view.point(fromM, rightM, 0),
  ];
}

interface SideEdges {
  readonly verge: Point3;
  readonly outer: Point3;
}

function edgePoints(view: View, m: number): { readonly left: SideEdges; readonly right: SideEdges } {
  const d = view.at.distanceM + m;
  const side = (sign: number): SideEdges => {
    const swell = 5 * (noise1(d / 140, 50 + sign) - 0.45);
    const outM = 16 + 1.15 * m;
    return {
      verge: view.point(m, sign * EDGE_M, 0),
      outer: view.point(m, sign * outM, swell * Math.min(1, outM / 60)),
    };
  };
  return { left: side(-1), right: side(1) };
}
