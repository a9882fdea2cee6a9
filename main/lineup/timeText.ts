/**
 * Seconds from `h:mm:ss.s`, `mm:ss.s` or plain seconds. Null when it is none of them (minutes and seconds after a colon
 * must be below 60; no sign, no exponent).
 */
export function secondsOf(text: string): number | null {
  const match = /^(?:(?:(\d+):)?(\d+):)?(\d+(?:\.\d+)?)$/.exec(text.trim());
  if (!match) return null;
  const [, hours, minutes, seconds] = match;
  if (minutes !== undefined && Number(seconds) >= 60) return null;
  if (hours !== undefined && Number(minutes) >= 60) return null;
  return Number(hours ?? 0) * 3600 + Number(minutes ?? 0) * 60 + Number(seconds);
}

/** How long a display that cuts off after the digits written shows them, s. */
export function displayStepS(text: string): number {
  return 10 ** -(/\.(\d+)$/.exec(text.trim())?.[1]?.length ?? 0);
}

/** Standard error of a time read off a display that cuts off after the digits written: a step's width / sqrt(12). */
export function readingErrorS(text: string): number {
  return Math.max(0.02, displayStepS(text) / Math.sqrt(12));
}
