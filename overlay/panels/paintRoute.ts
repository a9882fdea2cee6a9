import { drawText, textWidthPx, withAlpha, type TextPaint, type TextStyle } from "../drawText.ts";
import type { ThenShown } from "../instant/panelValuesAt.ts";
import type { RoutePath } from "../instant/routePath.ts";
import type { Layout, PanelPlace } from "../layout/layout.ts";
import { traceDisc } from "../shapes.ts";
import type { Surface } from "../surface.ts";
import { phrasesFor } from "../words/phrases.ts";

/** The course is thinned to about so many points: a thumb-sized map shows no more. */
const MOST_POINTS = 240;
/** Lengths in units of the type scale: from the map to its panel's edges, and to the label that it stands beside. */
const MAP_EDGE = 8;
const BESIDE_GAP = 16;
/** Another ride's place: how wide its ring and how thick its line; before its name a smaller one. */
const RING_RADIUS = 11;
const RING = 3;
const NAME_RING = 7;
const NAME_GAP = 7;

type Then = Pick<ThenShown, "spotS" | "road" | "name">;

/** A course drawn again and again. */
interface RouteMap {
  /** @param rideS where the rider is; null: nowhere @param then another ride on it; null: none is shown */
  draw(surface: Surface, rideS: number | null, then: Then | null): void;
}

/** What stands still of a map: the square that it fills, and the points of its line. */
interface Ground {
  readonly fromS: number;
  readonly stepS: number;
  /** By steps from `fromS` on; null where the position is not known or is kept back. */
  readonly points: readonly (Point | null)[];
  at(rideS: number): Point | null;
  readonly room: Room;
}

interface Point {
  readonly x: number;
  readonly y: number;
}

interface Room {
  readonly left: number;
  readonly top: number;
  readonly size: number;
  /** The map stands beside its label, not beneath. */
  readonly besideLabel: boolean;
  readonly labelPx: number;
}

/**
 * The course as a thin line, what is ridden of it firm, and where the rider is: a disc. Beside another ride the stretch
 * that both rode, and that ride's place as a ring: round the disc where both are at one spot. No mark stands where the
 * position is not known or is kept back.
 */
export function routeMap(place: PanelPlace, layout: Layout, route: RoutePath): RouteMap {
  const { type, theme, options } = layout;
  const unit = type.unitPx;
  const say = phrasesFor(options.language).panels;
  const whole = groundOf(route, 0, route.x.length - 1, routeRoom(place, layout, say.route));
  let stretch: { readonly of: string; readonly ground: Ground } | null = null;
  const stretchOf = ({ fromS, toS }: Then["road"]): Ground => {
    const of = `${fromS}/${toS}`;
    if (stretch?.of !== of)
      stretch = { of, ground: groundOf(route, fromS, toS, routeRoom(place, layout, say.sharedRoad)) };
    return stretch.ground;
  };
  const line = (surface: Surface, ground: Ground, untilS: number, width: number, colour: string, alpha = 1): void => {
    surface.beginPath();
    let joined = false;
    for (let k = 0; k < ground.points.length && ground.fromS + k * ground.stepS <= untilS; k += 1) {
      const point = ground.points[k]!;
      if (point !== null && joined) surface.lineTo(point.x, point.y);
      else if (point !== null) surface.moveTo(point.x, point.y);
      joined = point !== null;
    }
    surface.lineJoin = "round";
    surface.lineCap = "round";
    surface.lineWidth = width * unit;
    surface.strokeStyle = colour;
    withAlpha(surface, alpha, () => surface.stroke());
  };
  const ring = (surface: Surface, { x, y }: Point, radius: number): void => {
    for (const [width, colour] of [
      [RING + 3, theme.halo],
      [RING, theme.quiet],
    ] as const) {
      surface.beginPath();
      traceDisc(surface, x, y, radius * unit);
      surface.lineWidth = width * unit;
      surface.strokeStyle = colour;
      surface.stroke();
    }
  };
  /** Ring and name: beneath the label where the map stands beside it, else behind it; only where they fit. */
  const named = (surface: Surface, name: string, { besideLabel, labelPx, left }: Room): void => {
    const style: TextStyle = { sizePx: type.labelPx, weight: "medium" };
    const { x, labelY, rect } = place;
    const startX = besideLabel ? x : x + labelPx + BESIDE_GAP * unit;
    const textX = startX + (2 * NAME_RING + NAME_GAP) * unit;
    const endX = besideLabel ? left - NAME_GAP * unit : rect.x + rect.width;
    if (textX + textWidthPx(name, style, surface) > endX) return;
    const y = besideLabel ? labelY + 1.35 * type.labelPx : labelY;
    const paint: TextPaint = { ink: theme.ink, halo: theme.halo, haloAlpha: theme.haloAlpha, haloPx: type.haloPx };
    ring(surface, { x: startX + NAME_RING * unit, y: y - 0.34 * type.labelPx }, NAME_RING);
    drawText(surface, name, textX, y, style, paint);
  };
  return {
    draw(surface, rideS, then) {
      const ground = then === null ? whole : stretchOf(then.road);
      line(surface, ground, Infinity, 6, theme.halo, theme.haloAlpha);
      line(surface, ground, Infinity, 1.6, theme.ink);
      if (rideS !== null) line(surface, ground, rideS, 3.6, theme.ink);
      const other = then === null || then.spotS === null ? null : ground.at(then.spotS);
      if (other !== null) ring(surface, other, RING_RADIUS);
      const own = rideS === null ? null : ground.at(rideS);
      if (own !== null)
        for (const [radius, colour] of [
          [7.4, theme.halo],
          [5.2, theme.ink],
        ] as const) {
          surface.beginPath();
          traceDisc(surface, own.x, own.y, radius * unit);
          surface.fillStyle = colour;
          surface.fill();
        }
      if (then !== null) named(surface, then.name, ground.room);
    },
  };
}

/** The course, or a stretch of it, as large as its room is; a stretch stands in the middle and keeps its ring's room. */
function groundOf(route: RoutePath, fromS: number, toS: number, room: Room): Ground {
  const isKnown = (s: number): boolean => Number.isFinite(route.x[s]) && Number.isFinite(route.y[s]);
  const isWhole = fromS === 0 && toS === route.x.length - 1;
  const box = isWhole ? { x: 0, y: 0, size: 1 } : boxOf(route, fromS, toS);
  const scale = room.size / box.size;
  const at = (s: number): Point | null =>
    s < fromS || s > toS || !isKnown(s)
      ? null
      : { x: room.left + (route.x[s]! - box.x) * scale, y: room.top + (route.y[s]! - box.y) * scale };
  const stepS = Math.max(1, Math.ceil((toS - fromS + 1) / MOST_POINTS));
  const points = Array.from({ length: Math.max(0, Math.ceil((toS - fromS + 1) / stepS)) }, (_, k) =>
    at(fromS + k * stepS),
  );
  return { fromS, stepS, points, at, room };
}

/** The least square that holds a stretch, and a ninth of it around. */
function boxOf({ x, y }: RoutePath, fromS: number, toS: number): Point & { readonly size: number } {
  const range = (column: Float64Array) => {
    const known = column.subarray(Math.max(0, fromS), toS + 1).filter((one) => Number.isFinite(one));
    // Not spread into arguments: a day of seconds is too many.
    const low = known.reduce((least, one) => Math.min(least, one), Infinity);
    return known.length === 0
      ? { low: 0, high: 1 }
      : { low, high: known.reduce((most, one) => Math.max(most, one), low) };
  };
  const [ways, ups] = [range(x), range(y)];
  const size = Math.max(ways.high - ways.low, ups.high - ups.low, 1e-9) / 0.82;
  return { x: (ways.low + ways.high - size) / 2, y: (ups.low + ups.high - size) / 2, size };
}

/**
 * The square that the map fills: beneath its label, or beside it and as high as the panel where the cell is wide enough
 * for that.
 */
function routeRoom(place: PanelPlace, layout: Layout, label: string): Room {
  const { type } = layout;
  const unit = type.unitPx;
  const { rect } = place;
  const labelPx = textWidthPx(label, { sizePx: type.labelPx, weight: "medium" });
  const besideX = place.x + labelPx + BESIDE_GAP * unit;
  const high = rect.height - 2 * MAP_EDGE * unit;
  if (besideX + high + MAP_EDGE * unit <= rect.x + rect.width)
    return { left: besideX, top: rect.y + MAP_EDGE * unit, size: high, besideLabel: true, labelPx };
  const top = place.labelY + MAP_EDGE * unit;
  const size = Math.min(place.innerWidth, rect.y + rect.height - top - MAP_EDGE * unit);
  return { left: place.x, top, size, besideLabel: false, labelPx };
}
