import type { Language } from "../../main/contract/languageAndUnits.ts";
import type { PairCard } from "../../main/contract/pair.ts";
import type { SizePx } from "../cards/cardPage.ts";
import { CAP_HEIGHT, drawText, textWidthPx, withAlpha, type TextStyle } from "../drawText.ts";
import { createPanelPainter } from "../panels/paintPanels.ts";
import { traceLine } from "../shapes.ts";
import { RoadLine } from "../thread/roadLine.ts";
import type { Rect, Surface } from "../surface.ts";
import type { Theme } from "../theme.ts";
import { DASH, signedText } from "../words/numbers.ts";
import { phrasesFor } from "../words/phrases.ts";
import { paceAt, pairAt, type PairDifference, type PairInstant } from "./pairAt.ts";
import { pairLayout, type PairLayout } from "./pairLayout.ts";

/** Lengths in units of the type scale: a stitch of the seam, the gap to the next, and its lean. */
const STITCH = 18;
const STITCH_GAP = 15;
const STITCH_WIDTH = 3.2;

/** Draws what stands still: the ground of the whole picture and the seam. Footage is laid on it, then the layer. */
export function paintPairGround(surface: Surface, card: PairCard, size: SizePx, theme: Theme): void {
  const layout = pairLayout(card, size, theme.name, "en");
  const { sides } = pairAt(card, paceAt(card.pace, 0));
  surface.fillStyle = theme.ground;
  surface.fillRect(0, 0, size.width, size.height);
  layout.sides.forEach(({ rect, layout: { thread, band, type } }, which) => {
    if (card.sides[which]!.footage !== null || thread === null) return;
    const at = { ...thread, x: thread.x + rect.x + band.x, y: thread.y + rect.y + band.y };
    paintRoad(surface, new RoadLine(at, sides[which]!.page, type), type.unitPx, theme);
  });
  const { strip, type, difference } = layout;
  const unit = type.unitPx;
  const upright = layout.way === "side by side";
  const middle = upright ? strip.x + strip.width / 2 : strip.y + strip.height / 2;
  surface.lineCap = "round";
  surface.lineWidth = STITCH_WIDTH * unit;
  surface.strokeStyle = theme.quiet;
  // Two halves are sewn together; where the words stand, the seam is left open.
  const pitch = (STITCH + STITCH_GAP) * unit;
  const sewn = upright
    ? [[strip.y, difference.y]]
    : [
        [0, strip.width * 0.09],
        [strip.width * 0.91, strip.width],
      ];
  for (const [from, to] of sewn)
    for (let at = from! + (STITCH_GAP / 2) * unit; at + STITCH * unit < to!; at += pitch) {
      const end = at + STITCH * unit;
      surface.beginPath();
      if (upright) traceLine(surface, middle, at, middle, end);
      else traceLine(surface, at, middle, end, middle);
      surface.stroke();
    }
}

/** The whole stretch of road, quietly, under the thread that will grow on it. */
function paintRoad(surface: Surface, road: RoadLine, unit: number, theme: Theme): void {
  const { rect } = road;
  const [first, ...rest] = road
    .corners(rect.x, rect.x + rect.width)
    .reduce<[number, number][]>(
      (points, value, k, all) => (k % 2 === 0 ? [...points, [value, all[k + 1]!]] : points),
      [],
    );
  const trace = (): void => {
    surface.beginPath();
    surface.moveTo(...first!);
    for (const point of rest) surface.lineTo(...point);
  };
  trace();
  surface.lineTo(road.x(1), rect.y + rect.height);
  surface.lineTo(road.x(0), rect.y + rect.height);
  surface.closePath();
  surface.fillStyle = theme.band;
  withAlpha(surface, 0.5, () => surface.fill());
  trace();
  surface.lineWidth = 1.6 * unit;
  surface.lineJoin = "round";
  surface.strokeStyle = theme.quiet;
  withAlpha(surface, 0.55, () => surface.stroke());
}

/** Draws the layer of a pair again and again, each time only what has changed. One painter belongs to one surface. */
export interface PairPainter {
  readonly layout: PairLayout;
  /** Brings a surface whose origin is the layer's top left corner to an instant; gives what was drawn anew, in its coordinates. */
  paint(surface: Surface, instant: PairInstant): Rect[];
}

/** A painter for a card on a picture of a size. @param once on a surface that has its ground already */
export function createPairPainter(
  card: PairCard,
  size: SizePx,
  theme: Theme,
  language: Language,
  once = false,
): PairPainter {
  const layout = pairLayout(card, size, theme.name, language);
  const { layer } = layout;
  const sides = layout.sides.map((place, which) => ({
    at: { x: place.rect.x + place.layout.band.x - layer.x, y: place.rect.y + place.layout.band.y - layer.y },
    painter: createPanelPainter(place.layout, {
      scrim: card.sides[which]!.footage !== null && !once,
      clear: !once,
    }),
    notes: { caption: card.sides[which]!.name },
  }));
  let said = "";
  return {
    layout,
    paint(surface, instant) {
      const changed = sides.flatMap(({ at, painter, notes }, which) => {
        const { values, page } = instant.sides[which]!;
        surface.save();
        surface.translate(at.x, at.y);
        const rects = painter.paint(surface, values, page, notes);
        surface.restore();
        return rects.map((rect) => ({ ...rect, x: rect.x + at.x, y: rect.y + at.y }));
      });
      const now = JSON.stringify(instant.difference);
      if (now === said) return changed;
      said = now;
      const rect = { ...layout.difference, x: layout.difference.x - layer.x, y: layout.difference.y - layer.y };
      if (!once) surface.clearRect(rect.x, rect.y, rect.width, rect.height);
      paintDifference(surface, rect, card, instant.difference, layout, theme, language);
      return [...changed, rect];
    },
  };
}

/** A whole pair at one instant: as a card that stands still. Its footage is not there. */
export function paintPairStill(
  surface: Surface,
  card: PairCard,
  size: SizePx,
  theme: Theme,
  language: Language,
  filmS: number,
): void {
  paintPairGround(surface, card, size, theme);
  const painter = createPairPainter(card, size, theme, language, true);
  const { layer } = painter.layout;
  surface.save();
  surface.translate(layer.x, layer.y);
  painter.paint(surface, pairAt(card, paceAt(card.pace, filmS)));
  surface.restore();
}

/** Sizes in units of the type scale. */
const NAME = 22;
const FIGURE = 50;
const LINE = 27;

/** The difference, said of the first: its name, seconds gained or lost, watts, and of one rider beats. */
function paintDifference(
  surface: Surface,
  rect: Rect,
  { sides, oneRider = true }: PairCard,
  { gainedS, powerW, heartRateBpm }: PairDifference,
  layout: PairLayout,
  theme: Theme,
  language: Language,
): void {
  const { pair: say, panels } = phrasesFor(language);
  const { name } = sides[0];
  const seconds = `${Math.abs(gainedS)} s`;
  const gained = gainedS > 0 ? say.gained : gainedS < 0 ? say.lost : say.level;
  const watts = powerW === null ? `${DASH} W` : `${signedText(powerW)} W`;
  const beats = heartRateBpm === null ? `${DASH} ${panels.beats}` : `${signedText(heartRateBpm)} ${panels.beats}`;
  const unit = layout.type.unitPx;
  const strong = (sizePx: number): TextStyle => ({ sizePx: sizePx * unit, weight: "strong", tabular: true });
  const quiet = (sizePx: number): TextStyle => ({ sizePx: sizePx * unit, weight: "medium" });
  const room = layout.way === "side by side" ? rect.width * 0.92 : rect.width * 0.8;
  if (layout.way === "one above the other") {
    const parts = [
      { text: name, style: quiet(LINE), colour: theme.quiet },
      { text: `${seconds} ${gained}`, style: strong(FIGURE * 0.76), colour: theme.ink },
      { text: watts, style: strong(LINE * 1.15), colour: theme.ink },
      ...(oneRider ? [{ text: beats, style: strong(LINE * 1.15), colour: theme.ink }] : []),
    ];
    const gap = 34 * unit;
    const widths = parts.map(({ text, style }) => textWidthPx(text, style, surface));
    const all = widths.reduce((sum, width) => sum + width, gap * (parts.length - 1));
    const shrink = Math.min(1, room / all);
    let x = rect.x + (rect.width - all * shrink) / 2;
    const baseline = Math.round(rect.y + rect.height / 2 + (CAP_HEIGHT * FIGURE * 0.76 * unit * shrink) / 2);
    parts.forEach(({ text, style, colour }, k) => {
      drawText(surface, text, x, baseline, { ...style, sizePx: style.sizePx * shrink }, { ink: colour });
      x += (widths[k]! + gap) * shrink;
    });
    return;
  }
  // A long name is known by its first word, which stands large enough to be read.
  const long = textWidthPx(name, quiet(NAME), surface) > 1.3 * room;
  const lines = [
    { text: long ? name.split(" ")[0]! : name, style: quiet(NAME), colour: theme.quiet, high: 40 },
    { text: seconds, style: strong(FIGURE), colour: theme.ink, high: 56 },
    { text: gained, style: quiet(LINE), colour: theme.ink, high: 36 },
    { text: watts, style: strong(LINE * 1.1), colour: theme.ink, high: 46 },
    ...(oneRider ? [{ text: beats, style: strong(LINE * 1.1), colour: theme.ink, high: 40 }] : []),
  ];
  const highPx = lines.reduce((sum, { high }) => sum + high * unit, 0);
  let y = rect.y + Math.max(0, (rect.height - highPx) / 2);
  for (const { text, style, colour, high } of lines) {
    y += high * unit;
    const shrink = Math.min(1, room / Math.max(1, textWidthPx(text, style, surface)));
    const fitted = { ...style, sizePx: style.sizePx * shrink };
    drawText(surface, text, rect.x + rect.width / 2, Math.round(y), fitted, { ink: colour }, "center");
  }
}
