/** Seconds of a typed length: `3:30` is hours and minutes, `3:30:15` has seconds, `210` alone is minutes. NaN when it is no time. */
export function secondsOf(typed: string): number {
  const text = typed.trim();
  const match = /^(\d{1,2}):([0-5]\d)(?::([0-5]\d))?$/.exec(text);
  if (match !== null) return Number(match[1]) * 3600 + Number(match[2]) * 60 + Number(match[3] ?? 0);
  return /^\d{1,4}$/.test(text) && Number(text) > 0 ? Number(text) * 60 : Number.NaN;
}
