import type { RideColumns } from "../../main/contract/rideColumns.ts";
import { rideTimeAt } from "./rideTimeAt.ts";

/** The part of the ride that the thread's page stands for, ride s. */
export interface PageSpan {
  readonly startS: number;
  readonly endS: number;
}

/** What of a ride a thread is drawn from. */
export type RoadAndPressure = Pick<RideColumns, "setting" | "altitudeM" | "pressureState">;

/** How the thread is stroked over a stretch of the page. */
type Stroke = "unknown" | "off" | "off excused" | "off unclear" | "below" | "in" | "above";

export interface ThreadRun {
  /** Share of the page's width, 0 to 1. */
  readonly from: number;
  readonly to: number;
  readonly stroke: Stroke;
}

/** The thread up to one instant. Shares run from the page's left and from the thread's lower edge. */
export interface ThreadPage {
  /** Names the page: while it is the same, only the newest part of the thread changes. */
  readonly key: string;
  /** Share of the page's width that is ridden, 0 to 1: nothing is drawn past it. */
  readonly drawnTo: number;
  /** Height of the road at equal steps over the whole page, 0 to 1. */
  readonly heights: Float64Array;
  /** Strokes in order, cut at `drawnTo`. */
  readonly runs: readonly ThreadRun[];
  /** Another ride's strokes on the same road, cut at `besideTo`. Missing: there is none. */
  readonly beside?: readonly ThreadRun[];
  /** Share of the page's width that the other has ridden by then. Missing: there is no other. */
  readonly besideTo?: number;
}

/** Another ride's `PressureState` at the spot of each second of this one, and the second of this one up to whose spot it has come. */
export interface ThreadBeside {
  readonly states: Uint8Array;
  readonly untilS: number;
}

const STROKES: readonly Stroke[] = ["unknown", "off", "off excused", "off unclear", "below", "in", "above"];

/** The road's height is averaged over this many seconds either side, so that barometer steps do not show. */
const SMOOTH_S = 5;
/** A page's climb fills the thread's height from here on, m; flatter roads stay flatter than that. */
const FULL_HEIGHT_M = 16;

/**
 * The thread as it stands at an instant: the reading's own states, on the road's profile.
 *
 * @param page a stretch of ride time that stands still while the line grows
 * @param rideS the instant; nothing later is in the runs
 */
export function threadPageAt(
  columns: RoadAndPressure,
  page: PageSpan,
  rideS: number,
  beside: ThreadBeside | null = null,
): ThreadPage {
  const lengthS = page.endS - page.startS;
  const shareAt = (atS: number): number => (lengthS > 0 ? clamp01((atS - page.startS) / lengthS) : 0);
  const drawnTo = shareAt(rideS);
  const besideTo = beside === null ? 0 : shareAt(beside.untilS);
  return {
    key: `${page.startS}/${page.endS}${beside === null ? "" : "/beside"}`,
    drawnTo,
    heights: roadHeights(columns, page),
    runs: runsUntil(columns.pressureState, page, drawnTo),
    ...(beside === null ? {} : { beside: runsUntil(beside.states, page, besideTo), besideTo }),
  };
}

function runsUntil(pressure: Uint8Array, page: PageSpan, drawnTo: number): ThreadRun[] {
  const lengthS = page.endS - page.startS;
  if (!(lengthS > 0) || drawnTo <= 0) return [];
  const untilS = page.startS + drawnTo * lengthS;
  const runs: { from: number; to: number; stroke: Stroke }[] = [];
  for (let cell = Math.floor(page.startS); cell < untilS; cell += 1) {
    const stroke = STROKES[pressure[cell] ?? 0] ?? "unknown";
    const to = (Math.min(cell + 1, untilS) - page.startS) / lengthS;
    const last = runs.at(-1);
    if (last?.stroke === stroke) last.to = to;
    else runs.push({ from: (Math.max(cell, page.startS) - page.startS) / lengthS, to, stroke });
  }
  return runs;
}

/** Heights at about one step a second; flat in the middle on a trainer or where the file has no altitude. */
function roadHeights(columns: RoadAndPressure, page: PageSpan): Float64Array {
  const steps = Math.max(2, Math.ceil(page.endS - page.startS) + 1);
  const heights = new Float64Array(steps).fill(Number.NaN);
  const altitudeM = columns.setting === "trainer" ? null : columns.altitudeM;
  if (altitudeM !== null) {
    for (let step = 0; step < steps; step += 1) {
      const atS = page.startS + ((page.endS - page.startS) * step) / (steps - 1);
      heights[step] = meanAround(altitudeM, atS);
    }
  }
  fillGaps(heights);
  const low = Math.min(...heights);
  const high = Math.max(...heights);
  const rangeM = Math.max(FULL_HEIGHT_M, high - low);
  const middleM = (low + high) / 2;
  return heights.map((heightM) => 0.5 + (heightM - middleM) / rangeM);
}

function meanAround(column: Float64Array, atS: number): number {
  const from = Math.max(0, Math.round(atS) - SMOOTH_S);
  const to = Math.min(column.length - 1, Math.round(atS) + SMOOTH_S);
  let sum = 0;
  let weights = 0;
  for (let k = from; k <= to; k += 1) {
    const value = column[k]!;
    const weight = 1 - Math.abs(k - atS) / (SMOOTH_S + 2);
    if (!Number.isFinite(value)) continue;
    sum += weight * value;
    weights += weight;
  }
  return weights > 0 ? sum / weights : Number.NaN;
}

/** Straight lines over missing heights, the nearest height at the ends, 0 when there is none: a line to hang on, not a value shown. */
function fillGaps(heights: Float64Array): void {
  let known = -1;
  for (let k = 0; k < heights.length; k += 1) {
    const height = heights[k]!;
    if (Number.isNaN(height)) continue;
    const from = known < 0 ? height : heights[known]!;
    for (let gap = known + 1; gap < k; gap += 1) {
      heights[gap] = known < 0 ? height : from + ((height - from) * (gap - known)) / (k - known);
    }
    known = k;
  }
  heights.fill(known < 0 ? 0 : heights[known]!, known + 1);
}

function clamp01(share: number): number {
  return share < 0 ? 0 : share > 1 ? 1 : share;
}

/** Ride before a shot that its thread shows, s. */
const PAGE_BEFORE_S = 60;

/** The page of a shot: its span of the ride with the 60 s before it, no earlier than the ride begins. */
export function shotPage(
  clock: { readonly offsetS: number; readonly rate: number },
  mediaStartS: number,
  mediaEndS: number,
): PageSpan {
  return {
    startS: Math.max(0, rideTimeAt(clock, mediaStartS) - PAGE_BEFORE_S),
    endS: rideTimeAt(clock, mediaEndS),
  };
}

/** Page length and what of it is kept when it turns, s, for overlays over whole clips. */
const TURNING_PAGE_S = 120;
const KEPT_S = 30;

/**
 * The page for an instant of a whole-clip overlay: 2 min long, turned when full, the last 30 s kept.
 *
 * @param originS ride time at which the clip begins
 */
export function turningPage(originS: number, rideS: number): PageSpan {
  const strideS = TURNING_PAGE_S - KEPT_S;
  const turns = Math.max(0, Math.floor((rideS - originS - KEPT_S) / strideS));
  const startS = originS + turns * strideS;
  return { startS, endS: startS + TURNING_PAGE_S };
}
