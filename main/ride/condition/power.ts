import { CellState, type Channel, type RecordingMode } from "../../contract/ride.ts";
import { median } from "../../maths/median.ts";

/** No rider: above it a value is a fault. Our own bound; no source. */
const NEVER_W = 2500;
/** Above it a value must be backed by its neighbours. Our own bound; no source. */
const DOUBTFUL_W = 1000;

/**
 * Marks power spikes and dropouts as rejected, in place, on a 1 s channel that holds recorded values only: above
 * 2500 W, below 0 W, or above 1000 W and over 3 times the median of the 5 s either side; and zeros of 1 or 2 s while the cranks
 * turn above 40 rpm between two pushes. Returns how many values were rejected as spikes and as dropouts.
 */
export function rejectPower(power: Channel, cadence: Channel | null): { spikes: number; dropouts: number } {
  const { value, state } = power;
  const n = value.length;
  const rejected: number[] = [];
  for (let k = 0; k < n; k++) {
    const w = value[k];
    if (w > NEVER_W || w < 0) rejected.push(k);
    else if (w > DOUBTFUL_W) {
      const around: number[] = [];
      for (let i = Math.max(0, k - 5); i <= Math.min(n - 1, k + 5); i++) if (i !== k) around.push(value[i]);
      if (w > 3 * median(around)) rejected.push(k);
    }
  }
  const spikes = rejected.length;
  if (cadence) {
    for (let k = 1; k < n - 1; k++) {
      if (value[k] !== 0 || !(value[k - 1] > 0)) continue;
      let end = k;
      while (end < n && value[end] === 0) end++;
      if (end - k <= 2 && value[end] > 0 && turning(cadence, k - 1, end))
        for (let i = k; i < end; i++) rejected.push(i);
      k = end;
    }
  }
  for (const k of rejected) {
    value[k] = NaN;
    state[k] = CellState.rejected;
  }
  return { spikes, dropouts: rejected.length - spikes };
}

function turning(cadence: Channel, from: number, to: number): boolean {
  for (let i = from; i <= to; i++) if (!(cadence.value[i] > 40)) return false;
  return true;
}

/**
 * Trailing 3 s mean of power, W, zeros counted, starting afresh after a pause; NaN with fewer than 2 of 3 recorded: a
 * value held over a hole is no measurement. In a `variable` ride the value that stands.
 */
export function power3s(power: Channel, paused: Uint8Array, mode: RecordingMode): Float64Array {
  if (mode === "variable") return Float64Array.from(power.value);
  const recorded = power.value.map((w, k) => (power.state[k] === CellState.recorded ? w : NaN));
  return windowMean(recorded, paused, 2, 0, 2);
}

/** Centred 30 s mean of power, W, zeros counted, not reaching over a pause; NaN with fewer than 24 of 30 present. */
export function power30s(power: Channel, paused: Uint8Array): Float64Array {
  return windowMean(power.value, paused, 15, 14, 24);
}

/** Mean over cells k - before .. k + after that lie on k's side of any pause; NaN with fewer than `least` values or in a pause. */
function windowMean(
  value: Float64Array,
  paused: Uint8Array,
  before: number,
  after: number,
  least: number,
): Float64Array {
  const n = value.length;
  const sum = new Float64Array(n + 1);
  const count = new Int32Array(n + 1);
  const runStart = new Int32Array(n);
  const runEnd = new Int32Array(n);
  for (let k = 0; k < n; k++) {
    const v = value[k];
    const known = v === v;
    sum[k + 1] = sum[k] + (known ? v : 0);
    count[k + 1] = count[k] + (known ? 1 : 0);
    runStart[k] = paused[k] ? k + 1 : k > 0 ? runStart[k - 1] : 0;
  }
  for (let k = n - 1; k >= 0; k--) runEnd[k] = paused[k] ? k : k < n - 1 ? runEnd[k + 1] : n;
  const out = new Float64Array(n).fill(NaN);
  for (let k = 0; k < n; k++) {
    const from = Math.max(k - before, runStart[k]);
    const to = Math.min(k + after + 1, runEnd[k]);
    if (to <= from) continue;
    const present = count[to] - count[from];
    if (present >= least) out[k] = (sum[to] - sum[from]) / present;
  }
  return out;
}
