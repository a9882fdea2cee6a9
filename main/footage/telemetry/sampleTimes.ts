import type { GpmfStream } from "./parseGpmf.ts";

/** A payload's stream with the media time its payload covers. */
export interface TimedStream {
  readonly payloadStartS: number;
  readonly payloadEndS: number;
  readonly stream: GpmfStream;
}

/** Least-squares line through points, as value at 0 and slope. */
function line(x: readonly number[], y: readonly number[]): { readonly at0: number; readonly slope: number } {
  const n = x.length;
  const mx = x.reduce((a, b) => a + b, 0) / n;
  const my = y.reduce((a, b) => a + b, 0) / n;
  let [sxx, sxy] = [0, 0];
  for (let k = 0; k < n; k++) {
    sxx += (x[k]! - mx) ** 2;
    sxy += (x[k]! - mx) * (y[k]! - my);
  }
  const slope = sxx > 0 ? sxy / sxx : 0;
  return { at0: my - slope * mx, slope };
}

/** Runs of payloads over which the sample counter goes on; it restarts with each chapter. */
function runs(streams: readonly TimedStream[]): TimedStream[][] {
  const found: TimedStream[][] = [];
  let total = -1;
  for (const timed of streams) {
    const first = timed.stream.totalSamples === null ? null : timed.stream.totalSamples - timed.stream.rows.length;
    if (found.length === 0 || (first !== null && first < total)) found.push([]);
    found[found.length - 1]!.push(timed);
    total = timed.stream.totalSamples ?? total;
  }
  return found;
}

/**
 * Media time of every sample of one stream, payload after payload, s. Where samples carry their arrival (STMP), a sample
 * stands between its payload's and the next one's; else sample numbers (TSMP) are laid on a line through the payloads'
 * times, which takes the recorder's jitter out. Two payloads or fewer: spread evenly over each.
 */
export function sampleTimes(streams: readonly TimedStream[]): Float64Array {
  const times: number[] = [];
  for (const run of runs(streams)) {
    // Samples before the first one here, or an arrival well after the first payload: what lay before was cut off, and both
    // clocks no longer begin together. What the payloads' own times say of the shift is then taken out.
    const { stream: opening, payloadStartS, payloadEndS } = run[0]!;
    const lengthS = payloadEndS - payloadStartS;
    const cutOff =
      opening.totalSamples !== null
        ? opening.totalSamples > opening.rows.length
        : (opening.arrivalS ?? 0) > payloadStartS + 0.4 * lengthS;
    const known = run.filter(({ stream }) => stream.arrivalS !== null);
    const shifts = known.map((timed) => timed.payloadStartS - timed.stream.arrivalS!).sort((a, b) => a - b);
    const shiftS = cutOff && shifts.length > 0 ? shifts[shifts.length >> 1]! : 0;
    const arrivals = run.map(({ stream }) => (stream.arrivalS === null ? null : stream.arrivalS + shiftS));
    // Both clocks begin with the capture; where they part by more than this, the arrival is not on the media's line.
    const useArrival = run.every(
      (timed, k) => arrivals[k] !== null && Math.abs(arrivals[k]! - timed.payloadStartS) < 2.5,
    );
    const firsts: number[] = [];
    let next = 0;
    for (const { stream } of run) {
      firsts.push(stream.totalSamples === null ? next : stream.totalSamples - stream.rows.length);
      next = firsts[firsts.length - 1]! + stream.rows.length;
    }
    const base = firsts[0]!;
    const fit =
      !useArrival && run.length > 2
        ? line(
            firsts.map((n) => n - base),
            run.map((timed) => timed.payloadStartS),
          )
        : null;
    run.forEach((timed, k) => {
      const n = timed.stream.rows.length;
      for (let j = 0; j < n; j++) {
        if (useArrival) {
          const from = arrivals[k]!;
          const to = arrivals[k + 1] ?? from + (timed.payloadEndS - timed.payloadStartS);
          times.push(from + (j * (to - from)) / n);
        } else if (fit) {
          times.push(fit.at0 + fit.slope * (firsts[k]! - base + j));
        } else {
          times.push(timed.payloadStartS + (j * (timed.payloadEndS - timed.payloadStartS)) / n);
        }
      }
    });
  }
  return Float64Array.from(times);
}
