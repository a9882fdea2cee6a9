/** Tables for one transform length. */
interface Plan {
  readonly cos: Float64Array;
  readonly sin: Float64Array;
  readonly reversed: Uint32Array;
}

const plans = new Map<number, Plan>();

function planOf(size: number): Plan {
  let plan = plans.get(size);
  if (plan) return plan;
  const bits = Math.log2(size);
  if (!Number.isInteger(bits)) throw new RangeError(`transform length ${size} is no power of two`);
  const cos = new Float64Array(size / 2);
  const sin = new Float64Array(size / 2);
  for (let k = 0; k < size / 2; k++) {
    cos[k] = Math.cos((2 * Math.PI * k) / size);
    sin[k] = Math.sin((2 * Math.PI * k) / size);
  }
  const reversed = new Uint32Array(size);
  for (let k = 1; k < size; k++) reversed[k] = (reversed[k >> 1] >> 1) | (k & 1 ? size >> 1 : 0);
  plan = { cos, sin, reversed };
  plans.set(size, plan);
  return plan;
}

/** The least power of two that is at least `n`. */
export function nextPowerOfTwo(n: number): number {
  let size = 1;
  while (size < n) size *= 2;
  return size;
}

/**
 * Discrete Fourier transform in place (radix 2, Cooley and Tukey 1965): X[k] = sum x[n] exp(-2 pi i k n / N); with
 * `inverse` the sign is the other and the result is divided by N. Both arrays have the same power-of-two length.
 */
export function fft(re: Float64Array, im: Float64Array, inverse = false): void {
  const size = re.length;
  const { cos, sin, reversed } = planOf(size);
  for (let k = 0; k < size; k++) {
    const r = reversed[k];
    if (r > k) {
      [re[k], re[r]] = [re[r], re[k]];
      [im[k], im[r]] = [im[r], im[k]];
    }
  }
  const sign = inverse ? 1 : -1;
  for (let half = 1; half < size; half *= 2) {
    const stride = size / (2 * half);
    for (let start = 0; start < size; start += 2 * half) {
      for (let k = 0, t = 0; k < half; k++, t += stride) {
        const wr = cos[t];
        const wi = sign * sin[t];
        const a = start + k;
        const b = a + half;
        const xr = re[b] * wr - im[b] * wi;
        const xi = re[b] * wi + im[b] * wr;
        re[b] = re[a] - xr;
        im[b] = im[a] - xi;
        re[a] = re[a] + xr;
        im[a] = im[a] + xi;
      }
    }
  }
  if (inverse) {
    for (let k = 0; k < size; k++) {
      re[k] = re[k] / size;
      im[k] = im[k] / size;
    }
  }
}
