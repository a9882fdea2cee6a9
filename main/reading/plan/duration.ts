/**
 * A duration as people write it: a number is minutes; text is `m:ss`, `h:mm:ss`, `90 min`, `2 h`, `2 h 30` or `45 s`.
 *
 * Gives seconds, or null where the text is no duration.
 */
export function parseDurationS(value: number | string): number | null {
  if (typeof value === "number") return Number.isFinite(value) && value >= 0 ? value * 60 : null;
  const text = value.trim().toLowerCase();
  const clock = /^(?:(\d{1,2}):)?(\d{1,3}):([0-5]\d)$/.exec(text);
  if (clock) {
    const [, hours, minutes, seconds] = clock;
    if (hours !== undefined && Number(minutes) > 59) return null;
    return Number(hours ?? 0) * 3600 + Number(minutes) * 60 + Number(seconds);
  }
  const words =
    /^(?:(\d+(?:\.\d+)?)\s*h(?:ours?)?)?\s*(?:(\d+(?:\.\d+)?)\s*(min(?:utes?)?|m)?(?![\d.]|\s*s))?\s*(?:(\d+)\s*s(?:ec(?:onds?)?)?)?$/.exec(
      text,
    );
  if (!words || text === "") return null;
  const [, hours, minutes, unit, seconds] = words;
  if (hours === undefined && minutes !== undefined && unit === undefined) return Number(minutes) * 60;
  if (hours === undefined && minutes === undefined && seconds === undefined) return null;
  return Number(hours ?? 0) * 3600 + Number(minutes ?? 0) * 60 + Number(seconds ?? 0);
}

/** Seconds as the text `parseDurationS` takes: `h:mm:ss`, under an hour `m:ss`. Fractions are dropped. */
export function durationText(seconds: number): string {
  const whole = Math.floor(seconds);
  const two = (value: number) => String(value).padStart(2, "0");
  const hours = Math.floor(whole / 3600);
  const minutes = Math.floor(whole / 60) % 60;
  return hours > 0 ? `${hours}:${two(minutes)}:${two(whole % 60)}` : `${minutes}:${two(whole % 60)}`;
}
