import type { Language } from "../contract/languageAndUnits.ts";
import type { FilmLook } from "../contract/filmLook.ts";
import type { PictureSize } from "../contract/presets.ts";
import type { RideColumns } from "../contract/rideColumns.ts";
import { availableIn } from "../../overlay/layout/availableIn.ts";
import { defaultLayoutOptions, type LayoutOptions } from "../../overlay/layout/layout.ts";

/** Where the panels stand on a picture of this size, for what the ride can fill and a person wished. */
export function lookLayout(
  look: FilmLook,
  size: PictureSize,
  columns: RideColumns,
  from: { readonly units: LayoutOptions["units"]; readonly language: Language },
): LayoutOptions {
  const usual = defaultLayoutOptions(size.widthPx, size.heightPx, availableIn(columns));
  const { place, scale, ink, showPlan, showThread } = look;
  return {
    ...usual,
    place,
    scale,
    ink,
    showPlan,
    showThread,
    panels: look.panels ?? usual.panels,
    units: look.units ?? from.units,
    language: from.language,
  };
}
