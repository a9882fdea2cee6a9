import { CAP_HEIGHT, drawText, textWidthPx, withAlpha, type TextPaint, type TextStyle } from "../drawText.ts";
import type { PanelName } from "../../main/contract/filmLook.ts";
import type { PanelValues } from "../instant/panelValuesAt.ts";
import type { RoutePath } from "../instant/routePath.ts";
import type { Layout, PanelPlace } from "../layout/layout.ts";
import { panelTexts, showsThen, thenFigure, type PanelTexts, widestTexts } from "../layout/panelTexts.ts";
import { traceLine } from "../shapes.ts";
import type { Rect, Surface } from "../surface.ts";
import { DASH } from "../words/numbers.ts";
import { routeMap } from "./paintRoute.ts";

/** Half of the rule beneath power stands for so many half-widths of the band. */
const RULE_REACH = 4;
/** The wedge leans this many times the road's own angle. */
const WEDGE_EXAGGERATION = 3;
/** Lengths in units of the type scale. */
const WEDGE_LENGTH = 62;
const WEDGE_MOST = 16;
const UNIT_GAP = 6;
/** Of the font size: how far round figures pass their height, and how far letters reach below the line. */
const OVERSHOOT = 0.013;
const DESCENT = 0.21;

/** What a panel needs beside the values. */
export interface PanelParts {
  /** The course, for the route panel. */
  readonly route?: RoutePath | null;
  /** The plan's band for the power panel, W. */
  readonly bandW?: { readonly low: number; readonly high: number } | null;
}

/** A part of the picture that is drawn anew by itself when its key changes. */
export interface Piece<State> {
  /** The room that it has. */
  readonly rect: Rect;
  key(state: State): string;
  /** How much of the room's width it fills, px; only so much is cleared and drawn. */
  filledPx(state: State): number;
  draw(surface: Surface, state: State): void;
}

/** A panel in pieces: the label, which never changes; the figure with its unit; what stands beneath. */
export function panelPieces(place: PanelPlace, layout: Layout, parts: PanelParts): Piece<PanelValues>[] {
  const { type, options } = layout;
  const paint = textPaint(layout);
  const texts = (values: PanelValues): PanelTexts => panelTexts(place.name, values, options);
  const { x, width, top, figureTop, noteTop, bottom } = roomsOf(place, layout);
  const room = (from: number, to: number): Rect => ({ x, y: from, width, height: to - from });
  const filled = (textPx: number): number => place.x - x + textPx + type.haloPx + 2;
  const label: Piece<PanelValues> = {
    rect: room(top, figureTop),
    key: () => "",
    filledPx: () => width,
    draw: (surface, values) =>
      drawText(surface, texts(values).label, place.x, place.labelY, { sizePx: type.labelPx, weight: "medium" }, paint),
  };
  if (place.name === "route") {
    // One piece: the map may reach up beside the label.
    const map = parts.route ? routeMap(place, layout, parts.route) : null;
    const whole: Piece<PanelValues> = {
      rect: room(top, bottom),
      key: ({ rideS, then }) => [rideS, ...(showsThen(place.name, then) ? [then.spotS, then.name] : [])].join("/"),
      filledPx: () => width,
      draw: (surface, values) => {
        label.draw(surface, values);
        map?.draw(surface, values.rideS, showsThen(place.name, values.then) ? values.then : null);
      },
    };
    return [whole];
  }
  const figureStyle: TextStyle = { sizePx: place.figurePx, weight: "strong", tabular: true };
  const unitStyle: TextStyle = { sizePx: type.unitTextPx, weight: "medium" };
  const noteStyle: TextStyle = { sizePx: type.notePx, weight: "medium", tabular: true };
  const unitOf = ({ figure, unit }: PanelTexts): string => (figure === DASH ? "" : unit);
  const unitX = (figure: string): number => textWidthPx(figure, figureStyle) + UNIT_GAP * type.unitPx;
  const then = (values: PanelValues): string | null => thenFigure(place.name, values, options);
  const figure: Piece<PanelValues> = {
    rect: room(figureTop, noteTop),
    key: (values) => [texts(values).figure, then(values) ?? "", thenBelow(layout, values)].join("/"),
    filledPx(values) {
      const say = texts(values);
      if (then(values) !== null && !thenBelow(layout, values)) return width;
      return filled(unitX(say.figure) + textWidthPx(unitOf(say), unitStyle));
    },
    draw(surface, values) {
      const say = texts(values);
      const other = then(values);
      if (other !== null && !thenBelow(layout, values)) {
        drawNowThen(surface, place, layout, say, other, figureStyle, unitStyle, paint);
        return;
      }
      drawText(surface, say.figure, place.x, place.baselineY, figureStyle, paint);
      drawText(surface, unitOf(say), place.x + unitX(say.figure), place.baselineY, unitStyle, paint);
    },
  };
  if (noteTop >= bottom) return [label, figure];
  /** The other ride's figure where the note else stands. */
  const belowOf = (values: PanelValues): string | null => (thenBelow(layout, values) ? then(values) : null);
  const belowStyle: TextStyle = { sizePx: THEN_BELOW * type.unitPx, weight: "medium", tabular: true };
  const rule = place.name === "power" && options.showPlan ? (parts.bandW ?? null) : null;
  const note: Piece<PanelValues> = {
    rect: room(noteTop, bottom),
    key: (values) => {
      const below = belowOf(values);
      if (below !== null) return `/ ${below}`;
      if (rule !== null || place.name === "gradient") return texts(values).figure;
      return texts(values).note;
    },
    filledPx(values) {
      const below = belowOf(values);
      if (below !== null) return filled(textWidthPx(`/ ${below}`, belowStyle));
      if (rule !== null) return filled(ruleWidthPx(place, layout) + 8 * type.unitPx);
      if (place.name === "gradient") return filled((WEDGE_LENGTH + 4) * type.unitPx);
      return filled(textWidthPx(texts(values).note, noteStyle));
    },
    draw(surface, values) {
      const below = belowOf(values);
      if (below !== null) {
        const y = place.noteY + THEN_DOWN * type.unitPx;
        drawText(surface, `/ ${below}`, place.x, y, belowStyle, paint);
        return;
      }
      drawText(surface, texts(values).note, place.x, place.noteY, noteStyle, paint);
      if (rule !== null) paintRule(surface, place, layout, values.powerW, rule);
      if (place.name === "gradient") paintWedge(surface, place, layout, values.gradientPercent);
    },
  };
  return [label, figure, note];
}

/** The other ride's figure is so much smaller than this one's. */
const THEN_SIZE = 0.62;

/** In units of the type scale: its size below this one's, and how far below the line of notes. */
const THEN_BELOW = 31;
const THEN_DOWN = 4;

/**
 * Whether the other ride's figures stand below this one's, where notes else stand: so on all panels of a picture, as soon
 * as one of them had to shrink or lose its unit beside it. By the widest figures, so that nothing jumps.
 */
function thenBelow(layout: Layout, { then }: PanelValues): boolean {
  if (then === undefined) return false;
  const known = standsBelow.get(layout) ?? new Map<string, boolean>();
  standsBelow.set(layout, known);
  const names = then.panels.join();
  const before = known.get(names) ?? anyTooWide(layout, then.panels);
  known.set(names, before);
  return before;
}

/** By the panels that show both; made once for a layout. */
const standsBelow = new WeakMap<Layout, Map<string, boolean>>();

function anyTooWide(layout: Layout, shown: readonly PanelName[]): boolean {
  const { type, options } = layout;
  return layout.panels.some((place) => {
    if (!shown.includes(place.name) || place.name === "route") return false;
    const { noteTop, bottom } = roomsOf(place, layout);
    if (noteTop >= bottom) return false;
    const { figure, unit } = widestTexts(place.name, options);
    const style: TextStyle = { sizePx: place.figurePx, weight: "strong", tabular: true };
    const { bothPx, gap } = nowThenWidths(figure, figure, style, layout);
    const unitPx = unit === "" ? 0 : gap + textWidthPx(unit, { sizePx: type.unitTextPx, weight: "medium" });
    return bothPx + unitPx > nowThenRoom(place, layout);
  });
}

function nowThenWidths(figure: string, other: string, figureStyle: TextStyle, layout: Layout) {
  const gap = UNIT_GAP * layout.type.unitPx;
  const behind = `/ ${other}`;
  const thenStyle: TextStyle = { ...figureStyle, sizePx: figureStyle.sizePx * THEN_SIZE, weight: "medium" };
  const figurePx = textWidthPx(figure, figureStyle);
  return { gap, behind, thenStyle, figurePx, bothPx: figurePx + gap + textWidthPx(behind, thenStyle) };
}

/** Room of a panel's figures, px. The last of a row keeps the picture's margin, as the caption does. */
function nowThenRoom(place: PanelPlace, { type, captionArea }: Layout): number {
  const gap = UNIT_GAP * type.unitPx;
  const edge = captionArea === null ? Infinity : captionArea.x + captionArea.width - gap;
  return Math.min(place.rect.x + place.rect.width - 2 * gap, edge) - place.x;
}

/** `214 / 198 W`: this ride's figure, another one's behind it, smaller; the unit where there is room. All shrink before any is cut. */
function drawNowThen(
  surface: Surface,
  place: PanelPlace,
  layout: Layout,
  { figure, unit }: PanelTexts,
  other: string,
  figureStyle: TextStyle,
  unitStyle: TextStyle,
  paint: TextPaint,
): void {
  const { gap, behind, thenStyle, figurePx, bothPx } = nowThenWidths(figure, other, figureStyle, layout);
  const unitPx = gap + textWidthPx(unit, unitStyle);
  const room = nowThenRoom(place, layout);
  const shrink = Math.min(1, room / bothPx);
  const sized = (style: TextStyle): TextStyle => ({ ...style, sizePx: style.sizePx * shrink });
  drawText(surface, figure, place.x, place.baselineY, sized(figureStyle), paint);
  const thenX = place.x + (figurePx + gap) * shrink;
  drawText(surface, behind, thenX, place.baselineY, sized(thenStyle), paint);
  if (bothPx + unitPx <= room) drawText(surface, unit, place.x + bothPx + gap, place.baselineY, unitStyle, paint);
}

/** Where the pieces of a panel part: whole px, and so that no letter's halo is cut. */
function roomsOf(
  place: PanelPlace,
  layout: Layout,
): { x: number; width: number; top: number; figureTop: number; noteTop: number; bottom: number } {
  const { type } = layout;
  const { rect } = place;
  const left = Math.floor(place.x - type.haloPx - 4 * type.unitPx);
  const bottom = rect.y + rect.height;
  return {
    x: left,
    width: rect.x + rect.width - left,
    top: rect.y,
    figureTop: Math.floor(place.baselineY - (CAP_HEIGHT + OVERSHOOT) * place.figurePx - type.haloPx - 0.5),
    noteTop: Math.min(bottom, Math.ceil(place.baselineY + DESCENT * type.unitTextPx + type.haloPx + 0.5)),
    bottom,
  };
}

function ruleWidthPx(place: PanelPlace, layout: Layout): number {
  return Math.max(place.innerWidth, 140 * layout.type.unitPx);
}

function textPaint(layout: Layout): TextPaint {
  const { theme, type } = layout;
  return { ink: theme.ink, halo: theme.halo, haloAlpha: theme.haloAlpha, haloPx: type.haloPx };
}

/** The plan's band as the firm part of a thin line, the present value as a stitch across it: in colour where it is above the band. */
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
  const width = ruleWidthPx(place, layout);
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
  stitch(4, powerW > bandW.high ? theme.above : theme.ink, 1);
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
