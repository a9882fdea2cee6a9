const DECIMAL = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;

/** A number written in decimal, blanks around it passed over; NaN for anything else (`Infinity`, `0x10`, `undefined`, nothing). */
export function decimal(text: string): number {
  const trimmed = text.trim();
  return DECIMAL.test(trimmed) ? Number(trimmed) : NaN;
}
