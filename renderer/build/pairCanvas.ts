import type { Language } from "../../main/contract/languageAndUnits.ts";
import type { PairCard } from "../../main/contract/pair.ts";
import { pairAt, type PairTimes } from "../../overlay/pair/pairAt.ts";
import { createPairPainter, paintPairGround } from "../../overlay/pair/paintPair.ts";
import type { Rect } from "../../overlay/surface.ts";
import type { Theme } from "../../overlay/theme.ts";

interface Size {
  readonly width: number;
  readonly height: number;
}

/** A pair's picture on the screen, put together as the film puts it together: ground, footage on its halves, the layer. */
export interface PairCanvas {
  readonly size: Size;
  /** @param paintHalf paints footage of the first (0) or second half, the origin at its corner */
  paint(
    context: CanvasRenderingContext2D,
    times: PairTimes,
    paintHalf: (context: CanvasRenderingContext2D, which: number, size: Size) => void,
  ): void;
}

/** Made once for a card and a size, px. */
export function createPairCanvas(card: PairCard, size: Size, theme: Theme, language: Language): PairCanvas {
  const ground = contextOf(size);
  paintPairGround(ground, card, size, theme);
  const painter = createPairPainter(card, size, theme, language);
  const { layer, sides } = painter.layout;
  const over = contextOf(layer);
  return {
    size,
    paint(context, times, paintHalf) {
      context.drawImage(ground.canvas, 0, 0);
      sides.forEach(({ rect }, which) => within(context, rect, () => paintHalf(context, which, rect)));
      painter.paint(over, pairAt(card, times));
      context.drawImage(over.canvas, layer.x, layer.y);
    },
  };
}

function contextOf({ width, height }: Size): CanvasRenderingContext2D {
  const canvas = document.createElement("canvas");
  canvas.width = width;
  canvas.height = height;
  return canvas.getContext("2d")!;
}

function within(context: CanvasRenderingContext2D, rect: Rect, paint: () => void): void {
  context.save();
  context.beginPath();
  context.rect(rect.x, rect.y, rect.width, rect.height);
  context.clip();
  context.translate(rect.x, rect.y);
  paint();
  context.restore();
}
