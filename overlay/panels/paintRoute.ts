import { textWidthPx, withAlpha } from "../drawText.ts";
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

/**
 * The square that the map fills: beneath its label, or beside it and as high as the panel where the cell is wide enough
 * for that.
 */
function routeRoom(
  place: PanelPlace,
  layout: Layout,
): { readonly left: number; readonly top: number; readonly size: number } {
  const { type, options } = layout;
  const unit = type.unitPx;
  const { rect } = place;
  const label = textWidthPx(phrasesFor(options.language).panels.route, { sizePx: type.labelPx, weight: "medium" });
  const besideX = place.x + label + BESIDE_GAP * unit;
  const high = rect.height - 2 * MAP_EDGE * unit;
  if (besideX + high + MAP_EDGE * unit <= rect.x + rect.width)
    return { left: besideX, top: rect.y + MAP_EDGE * unit, size: high };
  const top = place.labelY + MAP_EDGE * unit;
  return { left: place.x, top, size: Math.min(place.innerWidth, rect.y + rect.height - top - MAP_EDGE * unit) };
}

/** The course as a thin line, what is ridden of it firm, and where the rider is. */
export function paintRoute(
  surface: Surface,
  place: PanelPlace,
  layout: Layout,
  route: RoutePath | null,
  rideS: number | null,
): void {
  if (route === null) return;
  const { type, theme } = layout;
  const unit = type.unitPx;
  const { left, top, size } = routeRoom(place, layout);
  const x = (k: number): number => left + route.x[k]! * size;
  const y = (k: number): number => top + route.y[k]! * size;
  const stepS = Math.max(1, Math.ceil(route.x.length / MOST_POINTS));
  const line = (until: number, width: number, colour: string, alpha: number): void => {
    surface.beginPath();
    let joined = false;
    for (let k = 0; k <= until; k += stepS) {
      const known = Number.isFinite(route.x[k]) && Number.isFinite(route.y[k]);
      if (known && joined) surface.lineTo(x(k), y(k));
      else if (known) surface.moveTo(x(k), y(k));
      joined = known;
    }
    surface.lineJoin = "round";
    surface.lineCap = "round";
    surface.lineWidth = width * unit;
    surface.strokeStyle = colour;
    withAlpha(surface, alpha, () => surface.stroke());
  };
  const end = route.x.length - 1;
  line(end, 6, theme.halo, theme.haloAlpha);
  line(end, 1.6, theme.ink, 1);
  if (rideS === null) return;
  line(rideS, 3.6, theme.ink, 1);
  if (!Number.isFinite(route.x[rideS]) || !Number.isFinite(route.y[rideS])) return;
  for (const [radius, colour] of [
    [7.4, theme.halo],
    [5.2, theme.ink],
  ] as const) {
    surface.beginPath();
    traceDisc(surface, x(rideS), y(rideS), radius * unit);
    surface.fillStyle = colour;
    surface.fill();
  }
}
