import { useMemo } from "react";
import type { ShotBeside } from "../../main/contract/pair.ts";
import type { FilmLook } from "../../main/contract/filmLook.ts";
import { threadBeside, withBeside } from "../../overlay/instant/besideAt.ts";
import { panelValuesAt } from "../../overlay/instant/panelValuesAt.ts";
import { routePath } from "../../overlay/instant/routePath.ts";
import { type PageSpan, threadPageAt } from "../../overlay/instant/threadPageAt.ts";
import { availableIn } from "../../overlay/layout/availableIn.ts";
import { defaultLayoutOptions, layoutFor } from "../../overlay/layout/layout.ts";
import { createPanelPainter, type PanelNotes } from "../../overlay/panels/paintPanels.ts";
import type { Language, UnitSystem } from "../../main/contract/languageAndUnits.ts";
import type { WindowColumns } from "../../main/contract/columnBytes.ts";

/** What the numbers on a picture say. */
export interface PanelsShown {
  /** Null: nothing is shown. */
  readonly rideS: number | null;
  readonly page: PageSpan;
  readonly notes?: PanelNotes;
  readonly beside?: ShotBeside;
  /** 0 to 1; missing: 1. */
  readonly opacity?: number;
}

/** The painter of the numbers for a picture of so many px of the canvas. */
export interface Panels {
  paint(canvas: HTMLCanvasElement, shown: PanelsShown): void;
  /** The canvas was emptied. */
  reset(): void;
}

/** The numbers as the film's own painter sets them; null where there is no ride, or no room. */
export function usePanels(
  columns: WindowColumns | null,
  size: { readonly width: number; readonly height: number },
  look: Partial<FilmLook> | undefined,
  units: UnitSystem,
  language: Language,
): Panels | null {
  const { width, height } = size;
  return useMemo(() => {
    if (columns === null || width < 64) return null;
    const usual = defaultLayoutOptions(width, height, availableIn(columns));
    const { panels, units: own, shape: _shape, fit: _fit, ...rest } = look ?? {};
    const layout = layoutFor({
      ...usual,
      language,
      ...rest,
      panels: panels ?? usual.panels,
      units: own ?? units,
    });
    const painter = createPanelPainter(layout, { route: routePath(columns), bandW: columns.bandW });
    return {
      paint(canvas, { rideS, page, notes, beside, opacity = 1 }) {
        const under = canvas.getContext("2d")!;
        canvas.style.opacity = String(opacity);
        if (rideS === null) {
          painter.reset();
          under.setTransform(1, 0, 0, 1, 0, 0);
          under.clearRect(0, 0, canvas.width, canvas.height);
          return;
        }
        under.setTransform(1, 0, 0, 1, layout.band.x, layout.band.y);
        const values = withBeside(columns, panelValuesAt(columns, rideS), beside, rideS);
        painter.paint(under, values, threadPageAt(columns, page, rideS, threadBeside(beside, rideS)), notes);
      },
      reset: () => painter.reset(),
    };
  }, [columns, width, height, units, language, look]);
}
