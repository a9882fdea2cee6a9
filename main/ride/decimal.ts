/** A number written in decimal, blanks around it passed over; NaN for anything else (`Infinity`, `0x10`, `undefined`, nothing). */
export function decimal(text: string): number {
  const value = Number(text);
  if (!Number.isFinite(value)) return NaN;
  const trimmed = text.trim();
  // 0x, 0o and 0b are numbers to the language, not to a ride file.
  const prefix = trimmed.charCodeAt(1) | 32;
  return trimmed === "" || prefix === 0x78 || prefix === 0x6f || prefix === 0x62 ? NaN : value;
}
