import type { PanelValues } from "../instant/panelValuesAt.ts";
import type { RoutePath } from "../instant/routePath.ts";
import type { ThreadPage } from "../instant/threadPageAt.ts";
import type { Layout, PanelPlace } from "../layout/layout.ts";
import { panelTexts } from "../layout/panelTexts.ts";
import { fillScrim } from "../scrim.ts";
import type { Rect, Surface } from "../surface.ts";
import { grownPart, paintThread } from "../thread/paintThread.ts";
import { paintHeadLine, type PanelNotes } from "./paintHeadLine.ts";
import { paintPanel } from "./paintPanel.ts";

export type { PanelNotes };

export interface PanelPainterOptions {
  /** The course, for the route panel; null: a dash. */
  readonly route?: RoutePath | null;
  /** The plan's band for the power panel, W. */
  readonly bandW?: { readonly low: number; readonly high: number } | null;
  /** Whether the painter draws the scrim too (the usual way); false where a driver lays it on the picture by itself. */
  readonly scrim?: boolean;
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
  const regions = regionsOf(layout, options);
  let keys: string[] | null = null;
  let lastPage: ThreadPage | null = null;

  const redraw = (surface: Surface, rect: Rect, draw: () => void): void => {
    surface.save();
    surface.beginPath();
    surface.rect(rect.x, rect.y, rect.width, rect.height);
    surface.clip();
    surface.clearRect(rect.x, rect.y, rect.width, rect.height);
    if (options.scrim !== false) fillScrim(surface, layout.scrim, layout.theme.scrim, rect);
    draw();
    surface.restore();
  };

  return {
    paint(surface, values, page, notes = {}) {
      const state: State = { values, page, notes };
      const newKeys = regions.map((region) => region.key(state));
      const { band } = layout;
      if (keys === null) {
        keys = newKeys;
        lastPage = page;
        const whole: Rect = { x: 0, y: 0, width: band.width, height: band.height };
        if (band.width === 0 || band.height === 0) return [];
        redraw(surface, whole, () => undefined);
        for (const region of regions) redraw(surface, region.rect, () => region.draw(surface, state));
        if (layout.thread !== null) redraw(surface, layout.thread, () => drawThread(surface, layout, page));
        return [whole];
      }
      const changed: Rect[] = [];
      regions.forEach((region, k) => {
        if (newKeys[k] === keys?.[k]) return;
        redraw(surface, region.rect, () => region.draw(surface, state));
        changed.push(region.rect);
      });
      const threadRect = changedThread(layout, lastPage, page);
      if (threadRect !== null) {
        redraw(surface, threadRect, () => drawThread(surface, layout, page, threadRect));
        changed.push(threadRect);
      }
      keys = newKeys;
      lastPage = page;
      return changed;
    },
    reset() {
      keys = null;
      lastPage = null;
    },
  };
}

interface State {
  readonly values: PanelValues;
  readonly page: ThreadPage;
  readonly notes: PanelNotes;
}

/** A rectangle that is drawn anew as a whole when its key changes. */
interface Region {
  readonly rect: Rect;
  key(state: State): string;
  draw(surface: Surface, state: State): void;
}

function regionsOf(layout: Layout, options: PanelPainterOptions): Region[] {
  const regions: Region[] = layout.panels.map((place) => ({
    rect: place.rect,
    key: (state) => panelKey(place, layout, state.values),
    draw: (surface, state) => paintPanel(surface, place, layout, state.values, options),
  }));
  const { captionArea } = layout;
  if (captionArea !== null) {
    regions.push({
      rect: captionArea,
      key: ({ notes }) => [notes.caption ?? "", notes.speed ?? 1, notes.rider ?? ""].join("|"),
      draw: (surface, { notes }) => paintHeadLine(surface, captionArea, notes, layout),
    });
  }
  return regions;
}

function panelKey(place: PanelPlace, layout: Layout, values: PanelValues): string {
  if (place.name === "route") return String(values.rideS);
  const texts = panelTexts(place.name, values, layout.options);
  return [texts.figure, texts.note].join("|");
}

function drawThread(surface: Surface, layout: Layout, page: ThreadPage, within: Rect | null = layout.thread): void {
  if (layout.thread !== null && within !== null) paintThread(surface, layout.thread, page, layout.type, layout.theme, within);
}

/** The part of the thread that differs between two instants; null where none does. */
function changedThread(layout: Layout, before: ThreadPage | null, now: ThreadPage): Rect | null {
  const rect = layout.thread;
  if (rect === null) return null;
  if (before === null || before.key !== now.key || now.drawnTo < before.drawnTo || before.runs.length === 0) {
    return before !== null && before.key === now.key && before.drawnTo === now.drawnTo ? null : rect;
  }
  return before.drawnTo === now.drawnTo ? null : grownPart(rect, before, now, layout.type);
}

