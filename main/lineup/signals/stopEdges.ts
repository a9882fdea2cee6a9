import { SIGNAL_STEP_S } from "../../contract/signals.ts";

/** An instant at which standing begins or ends. */
export interface StopEdge {
  /** On the series' own time, s. */
  readonly atS: number;
  readonly kind: "stop" | "start";
}

/** A state must hold this long on both sides of an edge, s. */
const HOLD_S = 3;
/** Edges further apart than this are not the same, s. */
const SAME_S = 3;

/** Crossings of `level` with what is below standing; series on the signals' grid. */
function crossings(series: Float64Array, level: number): StopEdge[] {
  const hold = Math.round(HOLD_S / SIGNAL_STEP_S);
  const edges: StopEdge[] = [];
  const holds = (from: number, to: number, below: boolean) => {
    let [right, n] = [0, 0];
    for (let k = Math.max(0, from); k < Math.min(series.length, to); k++) {
      if (!Number.isFinite(series[k])) continue;
      n++;
      if (series[k] < level === below) right++;
    }
    return n >= hold / 2 && right >= 0.9 * n;
  };
  for (let k = 1; k < series.length; k++) {
    const [a, b] = [series[k - 1], series[k]];
    if (!Number.isFinite(a) || !Number.isFinite(b) || a < level === b < level) continue;
    const stops = b < level;
    if (!holds(k - hold, k, !stops) || !holds(k, k + hold, stops)) continue;
    edges.push({ atS: (k - 0.5 + (level - a) / (b - a)) * SIGNAL_STEP_S, kind: stops ? "stop" : "start" });
  }
  return edges;
}

/** Edges of a clip's motion: half-way between its level when riding and when standing. None when it never stands. */
export function cameraStops(motion: Float64Array, riding: number, still: number): StopEdge[] {
  return crossings(motion, (riding + still) / 2);
}

/** Edges of the ride: its speed crosses 1 m/s. */
export function rideStops(speedMps: Float64Array): StopEdge[] {
  return crossings(speedMps, 1);
}

/**
 * By how much a place is to be moved, s, so that the camera's edges fall on the ride's: median over the edges that meet
 * one of their kind within 3 s. `count` is how many met; the shift is 0 when none did or they lie 2 s or more apart.
 * `stopsS` are the ride times of the halts among them.
 */
export function edgeShift(camera: readonly StopEdge[], ride: readonly StopEdge[], offsetS: number): { readonly shiftS: number; readonly count: number; readonly stopsS: readonly number[] } {
  const lags: number[] = [];
  const stopsS: number[] = [];
  for (const edge of camera) {
    const near = ride
      .filter((other) => other.kind === edge.kind)
      .map((other) => other.atS - edge.atS - offsetS)
      .filter((lag) => Math.abs(lag) <= SAME_S)
      .sort((a, b) => Math.abs(a) - Math.abs(b))[0];
    if (near === undefined) continue;
    lags.push(near);
    if (edge.kind === "stop") stopsS.push(edge.atS + offsetS + near);
  }
  lags.sort((a, b) => a - b);
  if (lags.length === 0 || lags[lags.length - 1] - lags[0] > 2) return { shiftS: 0, count: 0, stopsS: [] };
  const m = lags.length >> 1;
  return { shiftS: lags.length % 2 ? lags[m] : (lags[m - 1] + lags[m]) / 2, count: lags.length, stopsS };
}
