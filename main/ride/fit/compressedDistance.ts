/** A 12-bit count of 1/16 m, which starts again at 0 every 256 m. */
const ROLL = 4096;

/**
 * Expands `compressed_speed_distance` of early recorders: three bytes, 12 bits of speed in 1/100 m/s, then 12 bits of
 * distance in 1/16 m that roll over (public FIT profile, record message, field 8).
 */
export class CompressedDistance {
  private last = NaN;
  private total = 0;

  /** Speed, m/s, and distance since the first record, m; null where the record has none. */
  next(field: unknown): { speedMps: number; distanceM: number } | null {
    if (!Array.isArray(field) || field.length !== 3) return null;
    const [a, b, c] = field as unknown[];
    if (typeof a !== "number" || typeof b !== "number" || typeof c !== "number") return null;
    if (a === 255 && b === 255 && c === 255) return null;
    const count = (b >> 4) | (c << 4);
    if (this.last !== this.last) this.total = count;
    else this.total += (count - this.last + ROLL) % ROLL;
    this.last = count;
    return { speedMps: (a | ((b & 15) << 8)) / 100, distanceM: this.total / 16 };
  }
}
