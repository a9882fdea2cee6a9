import { withAlpha } from "../drawText.ts";
import type { RoutePath } from "../instant/routePath.ts";
import type { Layout, PanelPlace } from "../layout/layout.ts";
import { traceDisc } from "../shapes.ts";
import type { Surface } from "../surface.ts";

/** The course is thinned to about so many points: a thumb-sized map shows no more. */
const MOST_POINTS = 240;

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
  const top = place.labelY + 8 * unit;
  const size = Math.min(place.innerWidth, place.rect.y + place.rect.height - top - 8 * unit);
  const x = (k: number): number => place.x + (route.x[k]) * size;
  const y = (k: number): number => top + (route.y[k]) * size;
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
    [6.5, theme.halo],
    [4.6, theme.above],
  ] as const) {
    surface.beginPath();
    traceDisc(surface, x(rideS), y(rideS), radius * unit);
    surface.fillStyle = colour;
    surface.fill();
  }
}
