/** How a film looks beyond its shots: its shape, and which numbers stand where. */
import type { LayoutOptions, PanelName, Place } from "../../overlay/layout/layout.ts";
import type { ShapeName } from "./presets.ts";

export interface FilmLook {
  /** Null: the preset's own. */
  readonly shape: ShapeName | null;
  /** Fill the shape and lose the sides, or keep the whole picture on black. Null: fill where a shape was chosen. */
  readonly fit: "crop" | "pad" | null;
  /** Panels in order; null: the usual six. */
  readonly panels: readonly PanelName[] | null;
  readonly place: Place;
  /** Size of all type, 0.6 to 1.6. */
  readonly scale: number;
  readonly ink: "light" | "dark";
  /** Null: the plan's. */
  readonly units: LayoutOptions["units"] | null;
  readonly showPlan: boolean;
  readonly showThread: boolean;
}

/** The look of a film for which nobody wished anything. */
export const PLAIN_LOOK: FilmLook = {
  shape: null,
  fit: null,
  panels: null,
  place: "bottom",
  scale: 1,
  ink: "light",
  units: null,
  showPlan: true,
  showThread: true,
};
