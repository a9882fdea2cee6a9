import type { PanelValues } from "../instant/panelValuesAt.ts";
import type { ThreadPage } from "../instant/threadPageAt.ts";
import type { Layout } from "../layout/layout.ts";
import { fillScrim } from "../scrim.ts";
import type { Rect, Surface } from "../surface.ts";
import { grownPart, paintThread } from "../thread/paintThread.ts";
import { paintHeadLine, type PanelNotes } from "./paintHeadLine.ts";
import { panelPieces, type PanelParts, type Piece } from "./paintPanel.ts";

export type { PanelNotes };

export interface PanelPainterOptions extends PanelParts {
  /** Whether the painter draws the scrim too (the usual way); false where a driver lays it on the picture by itself. */
  readonly scrim?: boolean;
  /** False: what stands beneath is not cleared, for a painter that paints once. Missing: it is. */
  readonly clear?: boolean;
}

/** Draws a band again and again, each time only what has changed. One painter belongs to one surface. */
export interface PanelPainter {
  /**
   * Brings the surface to an instant. The surface's origin is the band's top left corner.
   *
   * @returns the rectangles whose pixels were drawn anew, in band coordinates; the first time the whole band; empty
   *   when nothing changed
   */
  paint(surface: Surface, values: PanelValues, page: ThreadPage, notes?: PanelNotes): Rect[];
  /** Forgets what the surface holds: the next `paint` draws all. */
  reset(): void;
}

/** A painter for a layout. */
export function createPanelPainter(layout: Layout, options: PanelPainterOptions = {}): PanelPainter {
  const pieces = piecesOf(layout, options);
  let drawn: Drawn | null = null;

  const redraw = (surface: Surface, rect: Rect, draw: () => void): void => {
    surface.save();
    surface.beginPath();
    surface.rect(rect.x, rect.y, rect.width, rect.height);
    surface.clip();
    if (options.clear !== false) surface.clearRect(rect.x, rect.y, rect.width, rect.height);
    if (options.scrim !== false) fillScrim(surface, layout.scrim, layout.theme.scrim, rect);
    draw();
    surface.restore();
  };

  return {
    paint(surface, values, page, notes = {}) {
      const state: State = { values, page, notes };
      const before = drawn;
      const now: Drawn = {
        page,
        pieces: pieces.map((piece, k) => {
          const key = piece.key(state);
          const last = before?.pieces[k];
          return last !== undefined && last.key === key ? last : { key, filledPx: piece.filledPx(state) };
        }),
      };
      drawn = now;
      const { band } = layout;
      if (band.width === 0 || band.height === 0) return [];
      if (before === null) {
        const whole: Rect = { x: 0, y: 0, width: band.width, height: band.height };
        redraw(surface, whole, () => undefined);
        for (const piece of pieces) redraw(surface, piece.rect, () => piece.draw(surface, state));
        if (layout.thread !== null) redraw(surface, layout.thread, () => drawThread(surface, layout, page));
        return [whole];
      }
      const changed: Rect[] = [];
      pieces.forEach((piece, k) => {
        const [last, next] = [before.pieces[k], now.pieces[k]];
        if (last === undefined || next === undefined || last === next) return;
        const width = Math.min(piece.rect.width, Math.ceil(Math.max(last.filledPx, next.filledPx)));
        const rect = { ...piece.rect, width };
        redraw(surface, rect, () => piece.draw(surface, state));
        changed.push(rect);
      });
      const threadRect = changedThread(layout, before.page, page);
      if (threadRect !== null) {
        redraw(surface, threadRect, () => drawThread(surface, layout, page, threadRect));
        changed.push(threadRect);
      }
      return changed;
    },
    reset() {
      drawn = null;
    },
  };
}

interface State {
  readonly values: PanelValues;
  readonly page: ThreadPage;
  readonly notes: PanelNotes;
}

/** What the surface holds. */
interface Drawn {
  readonly page: ThreadPage;
  readonly pieces: readonly { readonly key: string; readonly filledPx: number }[];
}

function piecesOf(layout: Layout, options: PanelPainterOptions): Piece<State>[] {
  const pieces: Piece<State>[] = layout.panels
    .flatMap((place) => panelPieces(place, layout, options))
    .map((piece) => ({
      rect: piece.rect,
      key: ({ values }) => piece.key(values),
      filledPx: ({ values }) => piece.filledPx(values),
      draw: (surface, { values }) => piece.draw(surface, values),
    }));
  const { captionArea } = layout;
  if (captionArea !== null) {
    pieces.push({
      rect: captionArea,
      key: ({ notes }) =>
        [notes.caption ?? "", notes.speed ?? 1, notes.rider ?? "", notes.beside ?? "", notes.otherRider].join("|"),
      filledPx: () => captionArea.width,
      draw: (surface, { notes }) => paintHeadLine(surface, captionArea, notes, layout),
    });
  }
  return pieces;
}

function drawThread(surface: Surface, layout: Layout, page: ThreadPage, within: Rect | null = layout.thread): void {
  if (layout.thread !== null && within !== null)
    paintThread(surface, layout.thread, page, layout.type, layout.theme, within);
}

/** The part of the thread that differs between two instants; null where none does. */
function changedThread(layout: Layout, before: ThreadPage, now: ThreadPage): Rect | null {
  const rect = layout.thread;
  const ahead = [now.drawnTo - before.drawnTo, (now.besideTo ?? 0) - (before.besideTo ?? 0)];
  if (rect === null || (before.key === now.key && ahead.every((share) => share === 0))) return null;
  if (before.key !== now.key || ahead.some((share) => share < 0) || before.runs.length === 0) return rect;
  return grownPart(rect, before, now, layout.type);
}
