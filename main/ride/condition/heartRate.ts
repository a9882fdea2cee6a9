import { CellState, type Channel, type Span } from "../../contract/ride.ts";
import { median } from "../../maths/median.ts";
import { slidingMedian } from "../../maths/slidingMedian.ts";

/** Bounds of a believable heart rate, bpm; our own choice. */
export const LOWEST_BPM = 30;
export const HIGHEST_BPM = 220;
/** A heart does not step further than this in one second; our own choice. */
const STEP_BPM = 8;
/** Each second of a spike lets the heart have moved on by a step, for so many seconds; our own choice. */
const BACK_WITHIN_S = 3;
const HALF_WINDOW_S = 15;
const LOCK_S = 60;
/** So many seconds of a lock may be off it: a coast, a sample lost; our own choice. */
const LOCK_GAP_S = 4;
/** A sensor that counts pedal turns may show them so many seconds late, and with so many beats of jitter; our own choice. */
const LOCK_LAG_S = 8;
const LOCK_BEATS = 4;
const LOCK_CORRELATION = 0.75;
/** Cadence must move for a lock to be told: SD of its changes over 10 s, rpm; our own choice. */
const LOCK_MOVES_RPM = 1;
const STUCK_S = 120;
/** The same beat for so long is stuck whatever the power does, s; our own choice. */
const STUCK_ANYWAY_S = 360;
/** The 30 s power must have moved by this much for an unmoving heart rate to count as stuck, W; our own choice. */
const STUCK_POWER_W = 40;

/** What was found wrong with a heart rate, by cause. */
export interface HeartRejects {
  /** Seconds. */
  readonly spikesS: number;
  readonly cadenceLock: readonly Span[];
  readonly stuck: readonly Span[];
}

/**
 * Marks heart rate that no heart made as rejected, in place, on a 1 s channel of recorded values: outside 30 to 220 bpm;
 * a step of more than 8 bpm in 1 s, the step back to where it came from left out; further from the median of 31 s than
 * max(8, 5 x 1.4826 x MAD) bpm (Hampel's rule; Davies and Gather, JASA 1993;88:782, from memory). Spans in which the
 * sensor counts pedal turns - within 4 of the cadence of up to 8 s before for 60 s, with r > 0.75 between their changes
 * over 10 s - and spans of the same value for 120 s while the 30 s power moves, or for 360 s, are returned for the caller
 * to mark as missing.
 */
export function rejectHeartRate(heart: Channel, cadence: Channel | null, power30sW: Float64Array | null): HeartRejects {
  const { value, state } = heart;
  const n = value.length;
  const bad = new Uint8Array(n);
  const believable = value.map((v) => (v >= LOWEST_BPM && v <= HIGHEST_BPM ? v : NaN));
  const middle = slidingMedian(believable, HALF_WINDOW_S);
  let good = -1;
  for (let k = 0; k < n; k++) {
    const bpm = value[k];
    if (bpm !== bpm) continue;
    const away = Math.abs(bpm - middle[k]);
    const stepped = k > 0 && Math.abs(bpm - value[k - 1]) > STEP_BPM;
    // Back from a spike to where it began is no step of its own.
    const back = good < k - 1 && Math.abs(bpm - value[good]) <= STEP_BPM * Math.min(k - good, BACK_WITHIN_S);
    if (believable[k] !== bpm || (stepped && !back)) bad[k] = 1;
    else if (away > STEP_BPM) {
      const window = believable.subarray(Math.max(0, k - HALF_WINDOW_S), k + HALF_WINDOW_S + 1);
      if (away > 5 * 1.4826 * median(window.map((v) => Math.abs(v - middle[k])))) bad[k] = 1;
    }
    if (!bad[k]) good = k;
  }
  const spikesS = count(bad);
  const cadenceLock = cadence ? cadenceLocks(value, cadence.value) : [];
  const stuck = stuckSpans(value, power30sW);
  for (let k = 0; k < n; k++) {
    if (!bad[k]) continue;
    value[k] = NaN;
    state[k] = CellState.rejected;
  }
  return { spikesS, cadenceLock, stuck };
}

/** Spans in which heart rate is the cadence of a few seconds before. */
function cadenceLocks(heart: Float64Array, cadence: Float64Array): Span[] {
  const found: Span[] = [];
  const heart3s = smooth(heart);
  const cadence3s = smooth(cadence);
  for (let lag = 0; lag <= LOCK_LAG_S; lag++) {
    for (let k = lag; k < heart.length; k++) {
      if (!close(k)) continue;
      let end = k + 1;
      for (let i = end; i < heart.length && i - end <= LOCK_GAP_S; i++) if (close(i)) end = i + 1;
      if (end - k >= LOCK_S && changesCorrelation(heart3s, cadence3s, lag, k, end) > LOCK_CORRELATION)
        found.push({ startS: k, endS: end });
      k = end;
    }
    function close(k: number): boolean {
      return Math.abs(heart[k] - cadence[k - lag]) <= LOCK_BEATS;
    }
  }
  return merged(found);
}

function smooth(values: Float64Array): Float64Array {
  return values.map((_, k) => {
    let sum = 0;
    let n = 0;
    for (let i = Math.max(0, k - 1); i <= Math.min(values.length - 1, k + 1); i++) {
      if (!Number.isFinite(values[i])) continue;
      sum += values[i];
      n++;
    }
    return sum / n;
  });
}

function changesCorrelation(heart: Float64Array, cadence: Float64Array, lag: number, from: number, to: number): number {
  let n = 0;
  let sa = 0;
  let sb = 0;
  let saa = 0;
  let sbb = 0;
  let sab = 0;
  for (let k = from + 10; k < to; k++) {
    const x = heart[k] - heart[k - 10];
    const y = cadence[k - lag] - cadence[k - lag - 10];
    if (!Number.isFinite(x + y)) continue;
    n++;
    sa += x;
    sb += y;
    saa += x * x;
    sbb += y * y;
    sab += x * y;
  }
  const va = saa - (sa * sa) / n;
  const vb = sbb - (sb * sb) / n;
  return va > 0 && vb >= LOCK_MOVES_RPM ** 2 * n ? (sab - (sa * sb) / n) / Math.sqrt(va * vb) : 0;
}

/** Spans of one and the same value that are too long for a heart. */
function stuckSpans(heart: Float64Array, power30sW: Float64Array | null): Span[] {
  const found: Span[] = [];
  for (let k = 0; k < heart.length; k++) {
    let end = k;
    let low = Infinity;
    let high = -Infinity;
    while (end < heart.length && heart[end] === heart[k]) {
      const w = power30sW?.[end] ?? NaN;
      if (w < low) low = w;
      if (w > high) high = w;
      end++;
    }
    const forS = end - k;
    if (forS >= STUCK_ANYWAY_S || (forS >= STUCK_S && high - low >= STUCK_POWER_W))
      found.push({ startS: k, endS: end });
    if (end > k) k = end - 1;
  }
  return found;
}

function merged(spans: Span[]): Span[] {
  const joined: Span[] = [];
  for (const span of spans.sort((one, other) => one.startS - other.startS)) {
    const last = joined.at(-1);
    if (last && span.startS <= last.endS) joined[joined.length - 1] = { ...last, endS: Math.max(last.endS, span.endS) };
    else joined.push(span);
  }
  return joined;
}

function count(flags: Uint8Array): number {
  let sum = 0;
  for (const f of flags) sum += f;
  return sum;
}
