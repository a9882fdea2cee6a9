/** How a film looks beyond its shots: its shape, and which numbers stand where. */
import type { UnitSystem } from "./languageAndUnits.ts";
import type { Fit, ShapeName } from "./presets.ts";

export const PANEL_NAMES = [
  "time",
  "cadence",
  "speed",
  "power",
  "heartRate",
  "gradient",
  "mainPart",
  "drift",
  "route",
] as const;
export type PanelName = (typeof PANEL_NAMES)[number];

/** Where on the picture the numbers stand. */
export const PLACES = ["bottom", "top", "left", "right"] as const;
export type Place = (typeof PLACES)[number];

export const INKS = ["light", "dark"] as const;
export type Ink = (typeof INKS)[number];

export interface FilmLook {
  /** Null: the preset's own. */
  readonly shape: ShapeName | null;
  /** Fill the shape and lose the sides, or keep the whole picture on black. Null: fill where a shape was chosen. */
  readonly fit: Fit | null;
  /** Panels in order; null: the usual six. */
  readonly panels: readonly PanelName[] | null;
  readonly place: Place;
  /** Size of all type, 0.6 to 1.6. */
  readonly scale: number;
  readonly ink: Ink;
  /** Null: the plan's. */
  readonly units: UnitSystem | null;
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
