import type { CanvasView } from "../look/useCanvas.ts";
import { type DrawnStrip, type RideContent, type StripContent, paintMoments, paintRide } from "./paintStrip.ts";
import type { StripSpan } from "./stripSpan.ts";

/** The strip with its lanes kept as a picture: choosing a moment draws only the moments anew. */
export class RideLayer {
  private readonly canvas = document.createElement("canvas");
  private drawnOf: readonly unknown[] = [];
  private drawn: DrawnStrip | null = null;

  /** Draws the strip on a context that is scaled to the screen's pixels. */
  paint(context: CanvasRenderingContext2D, view: CanvasView, content: StripContent, span: StripSpan): DrawnStrip {
    const { widthPx, heightPx } = view;
    const drawn = this.lanes(view, content, span, context.getTransform().a);
    context.clearRect(0, 0, widthPx, heightPx);
    context.drawImage(this.canvas, 0, 0, widthPx, heightPx);
    paintMoments(context, view, content, span, drawn.rooms);
    return drawn;
  }

  private lanes(view: CanvasView, content: RideContent, span: StripSpan, ratio: number): DrawnStrip {
    const { columns, reading, asked, coverage, roads, units } = content;
    // The face of the letters may have come since.
    const face = document.fonts.check('600 14px "Barlow Semi Condensed"');
    const of = [
      columns,
      reading.counted,
      reading.drift,
      asked,
      coverage,
      roads,
      units,
      span,
      view.widthPx,
      view.heightPx,
      view.textPx,
      ratio,
      face,
      ...Object.values(view.colours),
    ];
    if (this.drawn !== null && of.every((part, k) => part === this.drawnOf[k])) return this.drawn;
    this.canvas.width = Math.round(view.widthPx * ratio);
    this.canvas.height = Math.round(view.heightPx * ratio);
    const context = this.canvas.getContext("2d")!;
    context.setTransform(ratio, 0, 0, ratio, 0, 0);
    this.drawn = paintRide(context, view, content, span);
    this.drawnOf = of;
    return this.drawn;
  }
}
