import type { RideColumns } from "../../../main/contract/rideColumns.ts";
import { defaultPanels, type LayoutOptions } from "../../../overlay/layout/layout.ts";
import type { ShotBeside } from "../../../main/contract/pair.ts";
import { PANEL_NAMES } from "../../../main/contract/filmLook.ts";
import type { Drawing } from "../../../main/contract/drawing.ts";
import { paintDrawing } from "../../../overlay/drawing/paintDrawing.ts";
import type { PanelNotes } from "../../../overlay/panels/paintPanels.ts";
import type { Ground } from "../support/grounds.ts";
import { paintedBand, sampleLayout } from "../support/paintedBand.ts";
import { byTime, earlierRide } from "../support/rideBeside.ts";
import { lateInRide, sampleRide } from "../support/sampleRide.ts";
import type { Scene } from "./scene.ts";

const WIDE = { gallery: [1920, 1080], golden: [640, 360] } as const;
const UPRIGHT = { gallery: [1080, 1920], golden: [360, 640] } as const;
const SQUARE = { gallery: [1080, 1080], golden: [400, 400] } as const;

const CAPTION = "Pressure off over the top of the rise";
/** On the page with every state of the thread. */
const AT_S = 4344.4;

interface PanelScene {
  readonly name: string;
  readonly shape?: { readonly gallery: readonly [number, number]; readonly golden: readonly [number, number] };
  readonly ground: Ground;
  readonly ride?: Partial<RideColumns>;
  readonly options?: Partial<LayoutOptions>;
  readonly notes?: PanelNotes;
  readonly atS?: number;
  /** A coach's drawing, which lies beneath the panels. */
  readonly drawings?: readonly Drawing[];
  readonly tolerance?: number;
  readonly beside?: ShotBeside;
}

function dropout(): Partial<RideColumns> {
  const ride = sampleRide();
  ride.power3s?.state.fill(2, 4330, 4360);
  ride.heartRate?.state.fill(0, 4330, 4360);
  ride.speed?.state.fill(4, 4330, 4360);
  ride.gradientPercent?.fill(Number.NaN, 4330, 4360);
  return ride;
}

const shownAll = { startS: 0, endS: 4 };
const pointing: readonly Drawing[] = [
  {
    ...shownAll,
    shape: "arrow",
    text: null,
    points: [
      { x: 0.24, y: 0.2 },
      { x: 0.44, y: 0.4 },
    ],
  },
  {
    ...shownAll,
    shape: "ring",
    text: null,
    points: [
      { x: 0.52, y: 0.45 },
      { x: 0.58, y: 0.45 },
    ],
  },
  { ...shownAll, shape: "text", text: "Hands low, eyes up", points: [{ x: 0.1, y: 0.17 }] },
];
/** Ten words, none of them short. */
const LONG = "Everywhere above the planned power, nevertheless steadier than three weeks earlier";
const BUSY = { drawings: pointing, notes: { caption: LONG, speed: 0.25, rider: "Maximilian" } };

/** A ride of twelve hours, in its last two. */
const LONG_RIDE = { ride: lateInRide(sampleRide(), 36_000), atS: 36_000 + AT_S };

function onAll(beside: ShotBeside): ShotBeside {
  return { ...beside, panels: PANEL_NAMES };
}

/** Power, gradient and the map: what differs where another ride plays by time. */
function withMap(name: string, ground: Ground, changes: Partial<PanelScene> = {}): PanelScene {
  const panels: LayoutOptions["panels"] = ["power", "heartRate", "gradient", "time", "route"];
  return {
    name,
    ground,
    notes: { caption: CAPTION },
    beside: onAll(byTime(earlierRide())),
    ...changes,
    options: { panels, ...changes.options },
  };
}

/** Every panel there is, the usual six first: a new one stands in no golden until it was looked at. */
const all: Partial<LayoutOptions> = {
  panels: [...defaultPanels, ...PANEL_NAMES.filter((name) => !defaultPanels.includes(name))],
};

const scenes: readonly PanelScene[] = [
  { name: "row-snow", ground: "snow", notes: { caption: CAPTION } },
  { name: "row-wet", ground: "wet", notes: { caption: CAPTION, speed: 8 } },
  { name: "row-leaves", ground: "leaves", notes: { caption: CAPTION, rider: "Mara" } },
  { name: "upright-leaves", shape: UPRIGHT, ground: "leaves", notes: { caption: `${CAPTION}, eight seconds long` } },
  {
    name: "upright-snow",
    shape: UPRIGHT,
    ground: "snow",
    notes: { caption: `${CAPTION}, eight seconds long`, speed: 0.5 },
  },
  { name: "square-snow", shape: SQUARE, ground: "snow", notes: { caption: CAPTION, rider: "Mara", speed: 0.5 } },
  { name: "square-wet-all", shape: SQUARE, ground: "wet", options: all },
  { name: "row-all-panels", ground: "leaves", options: all },
  { name: "row-dark-ink", ground: "snow", options: { ink: "dark" }, notes: { caption: CAPTION, speed: 8 } },
  { name: "row-dark-ink-wet", ground: "wet", options: { ink: "dark" }, notes: { caption: CAPTION } },
  { name: "column-left", ground: "snow", options: { place: "left" }, notes: { caption: CAPTION, speed: 8 } },
  { name: "column-right", ground: "leaves", options: { place: "right" }, notes: { caption: CAPTION } },
  { name: "row-top", ground: "snow", options: { place: "top" }, notes: { caption: CAPTION } },
  { name: "row-missing-values", ground: "wet", ride: dropout() },
  { name: "trainer", ground: "wet", ride: { setting: "trainer" } },
  { name: "no-power", ground: "leaves", ride: { power3s: null, bandW: null } },
  {
    name: "no-heart-rate",
    ground: "leaves",
    ride: { heartRate: null, likePowerBeats: new Float64Array(7800).fill(Number.NaN) },
  },
  { name: "variable-recording", ground: "wet", ride: { mode: "variable" } },
  { name: "warm-up", ground: "leaves", atS: 410.2 },
  {
    name: "imperial-german",
    ground: "leaves",
    options: { units: "imperial", language: "de" },
    notes: { caption: "Über die Kuppe hinweg kein Druck" },
  },
  { name: "small-type", ground: "wet", options: { scale: 0.7, showPlan: false } },
  { name: "large-type", ground: "snow", options: { scale: 1.5, panels: ["heartRate", "power", "time"] } },
  { name: "busy-row", ground: "leaves", ...BUSY },
  { name: "busy-upright", shape: UPRIGHT, ground: "wet", ...BUSY },
  { name: "busy-square", shape: SQUARE, ground: "leaves", ...BUSY },
  { name: "busy-column", ground: "snow", options: { place: "right" }, ...BUSY },
  {
    name: "square-dark-ink-top",
    shape: SQUARE,
    ground: "snow",
    options: { ink: "dark", place: "top" },
    notes: { caption: CAPTION },
  },
  { name: "ten-hours-row", ground: "leaves", options: all, ...LONG_RIDE },
  { name: "ten-hours-upright", shape: UPRIGHT, ground: "wet", options: { ...all, scale: 1.3 }, ...LONG_RIDE },
  { name: "ten-hours-square", shape: SQUARE, ground: "snow", options: { ...all, scale: 1.6 }, ...LONG_RIDE },
  { name: "ten-hours-column", ground: "wet", options: { place: "left", scale: 1.3 }, ...LONG_RIDE },
  {
    name: "ten-hours-large-german",
    shape: SQUARE,
    ground: "leaves",
    options: { scale: 1.6, panels: ["power", "time", "mainPart"], language: "de" },
    ...LONG_RIDE,
  },
  { name: "beside-row", ground: "leaves", notes: { caption: CAPTION }, beside: earlierRide() },
  { name: "beside-upright", shape: UPRIGHT, ground: "wet", notes: { caption: CAPTION }, beside: earlierRide() },
  {
    name: "beside-square",
    shape: SQUARE,
    ground: "snow",
    notes: { caption: CAPTION, rider: "Mara" },
    beside: earlierRide(),
  },
  { name: "beside-column-dark", ground: "snow", options: { place: "left", ink: "dark" }, beside: earlierRide() },
  {
    name: "beside-imperial",
    ground: "leaves",
    options: { units: "imperial", language: "de", scale: 1.3 },
    beside: earlierRide(),
  },
  {
    name: "beside-all",
    ground: "wet",
    options: { panels: ["power", "heartRate", "cadence", "speed", "time", "mainPart", "drift", "gradient"] },
    beside: { ...earlierRide(), panels: ["power", "heartRate", "cadence", "speed", "time", "mainPart", "drift"] },
  },
  withMap("beside-map", "leaves", { beside: onAll(earlierRide()) }),
  withMap("beside-map-by-time", "wet"),
  withMap("beside-map-upright", "leaves", { shape: UPRIGHT }),
  withMap("beside-map-square", "snow", { shape: SQUARE, options: { language: "de" } }),
  withMap("beside-map-column-dark", "snow", { options: { place: "left", ink: "dark" }, notes: {} }),
  { name: "name-outside-outlines", ground: "wet", notes: { rider: "Łucja Wiśniewska" }, tolerance: 12 },
];

function paintScene(scene: PanelScene): Scene["paint"] {
  return (context, width, height) => {
    const columns = sampleRide(scene.ride);
    const layout = sampleLayout(columns, width, height, scene.options);
    const band = paintedBand(layout, columns);
    const atS = scene.atS ?? AT_S;
    band.paint(
      atS,
      scene.notes,
      scene.atS === undefined ? undefined : { startS: atS - 80, endS: atS + 40 },
      scene.beside,
    );
    for (const drawing of scene.drawings ?? []) paintDrawing(context, drawing, { width, height }, layout.theme);
    context.drawImage(band.canvas, layout.band.x, layout.band.y);
  };
}

/** Panels and thread in all shapes, places and inks, and over rides that lack something. */
export const panelScenes: readonly Scene[] = scenes.map((scene) => ({
  name: `panels-${scene.name}`,
  ...(scene.shape ?? WIDE),
  ground: scene.ground,
  tolerance: scene.tolerance ?? 0,
  paint: paintScene(scene),
}));
