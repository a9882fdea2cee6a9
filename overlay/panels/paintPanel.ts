import { drawText, textWidthPx, withAlpha, type TextPaint, type TextStyle } from "../drawText.ts";
import type { PanelValues } from "../instant/panelValuesAt.ts";
import type { RoutePath } from "../instant/routePath.ts";
import type { Layout, PanelPlace } from "../layout/layout.ts";
import { panelTexts } from "../layout/panelTexts.ts";
import { traceLine } from "../shapes.ts";
import type { Surface } from "../surface.ts";
import { DASH } from "../words/numbers.ts";
import { paintRoute } from "./paintRoute.ts";

/** Half of the rule beneath power stands for so many half-widths of the band. */
const RULE_REACH = 4;
/** The wedge leans this many times the road's own angle. */
const WEDGE_EXAGGERATION = 3;
/** Lengths in units of the type scale. */
const WEDGE_LENGTH = 62;
const WEDGE_MOST = 16;
const UNIT_GAP = 6;

/** Draws one panel: label, figure, unit, and what stands beneath. */
export function paintPanel(
  surface: Surface,
  place: PanelPlace,
  layout: Layout,
  values: PanelValues,
  parts: {
    readonly route?: RoutePath | null;
    readonly bandW?: { readonly low: number; readonly high: number } | null;
  },
): void {
  const { type, options } = layout;
  const paint = textPaint(layout);
  const texts = panelTexts(place.name, values, options);
  drawText(surface, texts.label, place.x, place.labelY, { sizePx: type.labelPx, weight: "medium" }, paint);
  if (place.name === "route") {
    paintRoute(surface, place, layout, parts.route ?? null, values.rideS);
    return;
  }
  const figureStyle: TextStyle = { sizePx: place.figurePx, weight: "strong", tabular: true };
  drawText(surface, texts.figure, place.x, place.baselineY, figureStyle, paint);
  if (texts.unit !== "" && texts.figure !== DASH) {
    const unitX = place.x + textWidthPx(texts.figure, figureStyle) + UNIT_GAP * type.unitPx;
    drawText(surface, texts.unit, unitX, place.baselineY, { sizePx: type.unitTextPx, weight: "medium" }, paint);
  }
  drawText(surface, texts.note, place.x, place.noteY, { sizePx: type.notePx, weight: "medium", tabular: true }, paint);
  if (place.name === "power" && options.showPlan && parts.bandW) paintRule(surface, place, layout, values.powerW, parts.bandW);
  if (place.name === "gradient") paintWedge(surface, place, layout, values.gradientPercent);
}

function textPaint(layout: Layout): TextPaint {
  const { theme, type } = layout;
  return { ink: theme.ink, halo: theme.halo, haloAlpha: theme.haloAlpha, haloPx: type.haloPx };
}

/** The plan's band as the firm part of a thin line, the present value as a stitch across it. */
function paintRule(
  surface: Surface,
  place: PanelPlace,
  layout: Layout,
  powerW: number | null,
  bandW: { readonly low: number; readonly high: number },
): void {
  const { type, theme } = layout;
  const unit = type.unitPx;
  const y = Math.round(place.noteY - 6 * unit);
  const half = Math.max(1, (bandW.high - bandW.low) / 2);
  const middle = (bandW.low + bandW.high) / 2;
  const width = Math.max(place.innerWidth, 140 * unit);
  const xOf = (watts: number): number => {
    const share = 0.5 + (watts - middle) / (2 * RULE_REACH * half);
    return place.x + Math.max(0, Math.min(1, share)) * width;
  };
  const line = (from: number, to: number, thickness: number, colour: string, alpha: number): void => {
    surface.beginPath();
    traceLine(surface, from, y, to, y);
    surface.lineCap = "round";
    surface.lineWidth = thickness * unit;
    surface.strokeStyle = colour;
    withAlpha(surface, alpha, () => surface.stroke());
  };
  line(place.x, place.x + width, 5, theme.halo, theme.haloAlpha);
  line(xOf(bandW.low), xOf(bandW.high), 9, theme.halo, theme.haloAlpha);
  line(place.x, place.x + width, 2, theme.ink, 1);
  line(xOf(bandW.low), xOf(bandW.high), 6, theme.ink, 1);
  if (powerW === null) return;
  // The whole watts that the figure says, so that the stitch moves when the figure does.
  const x = xOf(Math.round(powerW));
  const stitch = (thickness: number, colour: string, alpha: number): void => {
    surface.beginPath();
    traceLine(surface, x - 2.5 * unit, y - 9 * unit, x + 2.5 * unit, y + 9 * unit);
    surface.lineCap = "round";
    surface.lineWidth = thickness * unit;
    surface.strokeStyle = colour;
    withAlpha(surface, alpha, () => surface.stroke());
  };
  stitch(7.5, theme.halo, 1);
  stitch(4, theme.above, 1);
}

/** A wedge that leans with the road; level roads have a line. */
function paintWedge(surface: Surface, place: PanelPlace, layout: Layout, percent: number | null): void {
  if (percent === null) return;
  const { type, theme } = layout;
  const unit = type.unitPx;
  const foot = Math.round(place.noteY);
  const wished = WEDGE_LENGTH * Math.tan(WEDGE_EXAGGERATION * Math.atan(Math.abs(percent) / 100));
  const rise = Math.min(WEDGE_MOST, wished) * unit;
  const length = WEDGE_LENGTH * unit;
  surface.beginPath();
  surface.moveTo(place.x, foot);
  surface.lineTo(place.x + length, foot);
  if (percent >= 0) surface.lineTo(place.x + length, foot - rise);
  else surface.lineTo(place.x, foot - rise);
  surface.closePath();
  surface.lineJoin = "round";
  surface.lineWidth = 5 * unit;
  surface.strokeStyle = theme.halo;
  withAlpha(surface, theme.haloAlpha, () => surface.stroke());
  surface.lineWidth = 2 * unit;
  surface.strokeStyle = theme.ink;
  surface.stroke();
  surface.fillStyle = theme.ink;
  surface.fill();
}
