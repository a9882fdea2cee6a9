import { SIGNAL_STEP_S } from "../../contract/signals.ts";

/** An instant at which standing begins or ends. */
export interface StopEdge {
  /** On the series' own time, s. */
  readonly atS: number;
  readonly kind: "stop" | "start";
  /** How long it takes between standing and riding, s: where within this a picture comes to rest depends on the picture. */
  readonly softS: number;
}

/** A state must hold this long on both sides of an edge, s. */
const HOLD_S = 3;
/** Edges further apart than this are not the same, s. */
const SAME_S = 3;

/** Edges of one kind further apart than this do not tell of one place, s. */
const SPREAD_S = 2;
/** The ride's speed where an edge lies, below which it surely stands and above which it surely rides, m/s. */
const EDGE_MPS = 1;
const STANDS_MPS = 0.3;
const RIDES_MPS = 2.5;
/** Looked for at most this far from an edge, s. */
const SOFTEST_S = 8;

/** Crossings of `level` with what is below standing; series on the signals' grid. */
function crossings(series: Float64Array, level: number): Omit<StopEdge, "softS">[] {
  const hold = Math.round(HOLD_S / SIGNAL_STEP_S);
  const edges: Omit<StopEdge, "softS">[] = [];
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

/** Steps from `from` on, by `step`, until the speed is past a bound; at most `SOFTEST_S` or to where nothing is known. */
function stepsUntil(speedMps: Float64Array, from: number, step: 1 | -1, past: (mps: number) => boolean): number {
  const most = SOFTEST_S / SIGNAL_STEP_S;
  let steps = 0;
  while (steps < most && Number.isFinite(speedMps[from + step * steps]) && !past(speedMps[from + step * steps]))
    steps++;
  return steps;
}

/** Edges of a clip's motion: half-way between its level when riding and when standing. None when it never stands. */
export function cameraStops(motion: Float64Array, riding: number, still: number): StopEdge[] {
  return crossings(motion, (riding + still) / 2).map((edge) => ({ ...edge, softS: 0 }));
}

/** Edges of the ride: its speed crosses 1 m/s. How soft each is: from 0.3 to 2.5 m/s or back. */
export function rideStops(speedMps: Float64Array): StopEdge[] {
  return crossings(speedMps, EDGE_MPS).map((edge) => {
    const at = Math.round(edge.atS / SIGNAL_STEP_S);
    const toStanding = edge.kind === "stop" ? 1 : -1;
    const steps =
      stepsUntil(speedMps, at, toStanding, (mps) => mps <= STANDS_MPS) +
      stepsUntil(speedMps, at, toStanding === 1 ? -1 : 1, (mps) => mps >= RIDES_MPS);
    return { ...edge, softS: steps * SIGNAL_STEP_S };
  });
}

export interface EdgeShift {
  /** By how much a place is to be moved, s; 0 where no edge fits. */
  readonly shiftS: number;
  /** Standard error of it, s; infinite where no edge fits. */
  readonly seS: number;
  /** Ride times of the halts among the edges that fit, s. */
  readonly stopsS: readonly number[];
}

const NO_EDGES: EdgeShift = { shiftS: 0, seS: Infinity, stopsS: [] };
/** Of one sharp edge, s: a guess of ours, no published figure. */
const SHARP_SE_S = 0.25;

function medianOf(sorted: readonly number[]): number {
  const m = sorted.length >> 1;
  return sorted.length % 2 ? sorted[m] : (sorted[m - 1] + sorted[m]) / 2;
}

/**
 * By how much a place is to be moved so that the camera's edges fall on the ride's that are of one kind with them and
 * within 3 s. A picture comes to rest at another speed than that of the ride's edge, which moves soft halts one way and
 * soft starts the other way: the middle of both kinds is taken, and a soft edge of one kind alone is the less sure. No
 * edge fits where edges of one kind lie 2 s or more apart.
 */
export function edgeShift(camera: readonly StopEdge[], ride: readonly StopEdge[], offsetS: number): EdgeShift {
  const stopsS: number[] = [];
  const fitting = camera.flatMap((edge) => {
    const near = ride
      .filter((other) => other.kind === edge.kind)
      .map((other) => ({ kind: other.kind, lagS: other.atS - edge.atS - offsetS, softS: other.softS }))
      .filter(({ lagS }) => Math.abs(lagS) <= SAME_S)
      .sort((a, b) => Math.abs(a.lagS) - Math.abs(b.lagS))[0];
    if (near?.kind === "stop") stopsS.push(edge.atS + offsetS + near.lagS);
    return near ? [near] : [];
  });
  const kinds = (["stop", "start"] as const).flatMap((kind) => {
    const own = fitting.filter((edge) => edge.kind === kind);
    const lags = own.map(({ lagS }) => lagS).sort((a, b) => a - b);
    return own.length
      ? [
          {
            shiftS: medianOf(lags),
            spreadS: lags[lags.length - 1] - lags[0],
            softS: medianOf(own.map(({ softS }) => softS).sort((a, b) => a - b)),
          },
        ]
      : [];
  });
  if (kinds.length === 0 || kinds.some(({ spreadS }) => spreadS > SPREAD_S)) return NO_EDGES;
  const shiftS = kinds.reduce((sum, kind) => sum + kind.shiftS, 0) / kinds.length;
  const softS = kinds.length === 1 ? kinds[0].softS : Math.abs(kinds[0].softS - kinds[1].softS) / 2;
  return { shiftS, seS: Math.hypot(SHARP_SE_S / Math.sqrt(fitting.length), softS / 4), stopsS };
}
