/** A stream of seeded random numbers, the same in every JavaScript engine (integer arithmetic and sums only). */
export interface SeededRandom {
  /** Uniform in (0, 1). */
  readonly uniform: () => number;
  /** Normal with mean 0 and SD 1 (sum of twelve uniforms less six; never beyond +-6). */
  readonly normal: () => number;
}

/**
 * Starts a stream. Multiplicative congruential generator, multiplier 16807, modulus 2^31 - 1 (Park and Miller,
 * Communications of the ACM 1988;31:1192).
 *
 * @param seed any whole number; equal seeds give equal streams.
 */
export function seededRandom(seed: number): SeededRandom {
  let state = (((Math.trunc(seed) % 2147483646) + 2147483646) % 2147483646) + 1;
  const uniform = (): number => {
    state = (16807 * state) % 2147483647;
    return state / 2147483647;
  };
  const normal = (): number => {
    let sum = -6;
    for (let i = 0; i < 12; i++) sum += uniform();
    return sum;
  };
  return { uniform, normal };
}

/**
 * A wandering value: first-order autoregressive noise of the given SD that forgets itself over `memoryS`.
 *
 * @returns a function that steps by `stepS` and gives the next value, in the unit of `sd`.
 */
export function wandering(random: SeededRandom, sd: number, memoryS: number, stepS = 1): () => number {
  const keep = Math.exp(-stepS / memoryS);
  const fresh = sd * Math.sqrt(1 - keep * keep);
  let value = sd * random.normal();
  return () => (value = keep * value + fresh * random.normal());
}
