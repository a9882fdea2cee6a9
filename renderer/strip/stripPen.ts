import type { CanvasView } from "../look/useCanvas.ts";
import type { StripRooms } from "./stripRooms.ts";
import type { StripSpan } from "./stripSpan.ts";

/** The window's own face. */
export const FONT = '"Barlow Semi Condensed", sans-serif';

/** What the lanes of a strip are drawn with. */
export interface Pen {
  readonly context: CanvasRenderingContext2D;
  readonly view: CanvasView;
  readonly rooms: StripRooms;
  readonly span: StripSpan;
  readonly x: (rideS: number) => number;
}

/** A pen for a strip that shows `span`. */
export function penFor(context: CanvasRenderingContext2D, view: CanvasView, rooms: StripRooms, span: StripSpan): Pen {
  return {
    context,
    view,
    rooms,
    span,
    x: (rideS) => rooms.left + ((rideS - span.fromS) / (span.toS - span.fromS)) * (rooms.right - rooms.left),
  };
}

/** An x, px, or the nearer end of the ride's room. */
export function inside({ rooms }: Pen, x: number): number {
  return Math.max(rooms.left, Math.min(rooms.right, x));
}

/** Writes a line of text about a height. */
export function text(
  pen: Pen,
  said: string,
  x: number,
  y: number,
  options: {
    readonly align?: CanvasTextAlign;
    readonly colour?: string;
    readonly strong?: boolean;
    readonly share?: number;
  } = {},
): void {
  const { context, view } = pen;
  context.font = `${options.strong === true ? 600 : 500} ${view.textPx * (options.share ?? 1)}px ${FONT}`;
  context.textAlign = options.align ?? "left";
  context.textBaseline = "middle";
  context.fillStyle = options.colour ?? view.colours.quiet;
  context.fillText(said, x, y);
}

/** A figure on a patch of ground, so that no line runs through it. */
export function figure(pen: Pen, said: string, x: number, y: number): void {
  const { context, view } = pen;
  context.font = `600 ${view.textPx}px ${FONT}`;
  const half = context.measureText(said).width / 2 + 3;
  context.fillStyle = view.colours.ground;
  context.globalAlpha = 0.85;
  context.fillRect(x - half, y - view.textPx * 0.55, 2 * half, view.textPx * 1.1);
  context.globalAlpha = 1;
  text(pen, said, x, y, { align: "center", colour: view.colours.ink, strong: true });
}
