import type { Rect } from "../surface.ts";
import type { Scrim } from "../scrim.ts";
import type { Ink, PanelName, Place } from "../../main/contract/filmLook.ts";
import type { Language, UnitSystem } from "../../main/contract/languageAndUnits.ts";
import { themeFor, type Theme } from "../theme.ts";
import { arrange } from "./arrange.ts";
import type { TypeScale } from "./typeScale.ts";

/** The panels of an ordinary film, in the order in which they stand. */
export const defaultPanels: readonly PanelName[] = ["heartRate", "cadence", "power", "speed", "gradient", "time"];

/** What the ride can fill; a panel without its channel is left out and the others close up. */
export interface AvailableChannels {
  readonly power: boolean;
  readonly heartRate: boolean;
  readonly cadence: boolean;
  readonly speed: boolean;
  readonly gradient: boolean;
  readonly position: boolean;
  /** A counted part was found. */
  readonly mainPart: boolean;
  /** Beats at like power can be shown somewhere in the ride. */
  readonly likePower: boolean;
  /** The plan has a band. */
  readonly band: boolean;
  /** Pressure is known somewhere: the thread can be drawn. */
  readonly pressure: boolean;
  /** The recorder chose its own steps: power is the last value, not a 3 s mean. */
  readonly variable: boolean;
  /** The ride is so long that its time takes two figures for the hour. */
  readonly tenHours: boolean;
}

export interface LayoutOptions {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly place: Place;
  /** Size of all type, 0.6 to 1.6; 1 is ours. Made smaller where it would not fit. */
  readonly scale: number;
  readonly panels: readonly PanelName[];
  readonly ink: Ink;
  readonly units: UnitSystem;
  /** `%`: the power column is a share of the plan, in percent. Missing: watts. */
  readonly powerUnit?: "W" | "%";
  readonly language: Language;
  /** The plan's band in the power panel. */
  readonly showPlan: boolean;
  readonly showThread: boolean;
  /** Room for captions, speed factor and rider's name above the thread. */
  readonly headLine: boolean;
  readonly available: AvailableChannels;
}

/** Options of an ordinary film of a size. */
export function defaultLayoutOptions(widthPx: number, heightPx: number, available: AvailableChannels): LayoutOptions {
  return {
    widthPx,
    heightPx,
    place: "bottom",
    scale: 1,
    panels: defaultPanels,
    ink: "light",
    units: "metric",
    language: "en",
    showPlan: true,
    showThread: true,
    headLine: true,
    available,
  };
}

/** Where one panel stands; all in band coordinates, whole px. */
export interface PanelPlace {
  readonly name: PanelName;
  /** What is cleared and drawn anew when the panel changes. */
  readonly rect: Rect;
  /** Left edge of label, figure and note. */
  readonly x: number;
  readonly labelY: number;
  readonly baselineY: number;
  readonly noteY: number;
  readonly figurePx: number;
  /** Width that rule, wedge and map may take. */
  readonly innerWidth: number;
}

export interface Layout {
  readonly options: LayoutOptions;
  readonly theme: Theme;
  /** Smallest even rectangle of the picture that holds all that is drawn, scrim included; empty (0 x 0) when nothing is. */
  readonly band: Rect;
  readonly scrim: Scrim;
  readonly panels: readonly PanelPlace[];
  /** The thread's rectangle in band coordinates, null without thread. */
  readonly thread: Rect | null;
  /** Where captions stand, and at their right the rider's name and the speed factor; band coordinates, null without a head line. */
  readonly captionArea: Rect | null;
  readonly type: TypeScale;
  /** Panels that were asked for and cannot be filled. */
  readonly hidden: readonly { readonly panel: PanelName; readonly reason: HiddenReason }[];
}

/** Why a panel is not there. */
type HiddenReason =
  | "no power"
  | "no heart rate"
  | "no cadence"
  | "no speed"
  | "no gradient"
  | "no position"
  | "no main part"
  | "no beats at like power";

const NEEDS: Readonly<
  Record<PanelName, { readonly channel: keyof AvailableChannels; readonly reason: HiddenReason } | null>
> = {
  time: null,
  power: { channel: "power", reason: "no power" },
  heartRate: { channel: "heartRate", reason: "no heart rate" },
  cadence: { channel: "cadence", reason: "no cadence" },
  speed: { channel: "speed", reason: "no speed" },
  gradient: { channel: "gradient", reason: "no gradient" },
  route: { channel: "position", reason: "no position" },
  mainPart: { channel: "mainPart", reason: "no main part" },
  drift: { channel: "likePower", reason: "no beats at like power" },
};

/** Places panels, thread, captions and scrim on a picture of any size and shape. Sizes below 64 px are not laid out well. */
export function layoutFor(options: LayoutOptions): Layout {
  const shown: PanelName[] = [];
  const hidden: { panel: PanelName; reason: HiddenReason }[] = [];
  for (const panel of new Set(options.panels)) {
    const need = NEEDS[panel];
    if (need === null || options.available[need.channel]) shown.push(panel);
    else hidden.push({ panel, reason: need.reason });
  }
  return { options, theme: themeFor(options.ink), hidden, ...arrange(options, shown) };
}
