const AS_CLOCK = /^(\d{1,2}):([0-5]\d)(?::([0-5]\d))?$/;
const NUMBER = "(\\d{1,4}(?:[.,]\\d+)?)";
/** `75 min`, `1 h 15 min`, `1 h 15`, `1 min 30 s`, `45 s`. */
const AS_WORDS = new RegExp(
  `^(?=.*[a-z])(?:${NUMBER}\\s*h(?:ours?)?)?(?:\\s*${NUMBER}\\s*(?:min(?:utes?)?|$))?(?:\\s*(\\d{1,5})\\s*s)?$`,
);

/**
 * Seconds of a typed length: as the program writes it (`75 min`, `1 h 15 min`), `3:30` as hours and minutes, `3:30:15`
 * with seconds, `210` alone as minutes. NaN when it is no time, or less than `leastS`.
 */
export function secondsOf(typed: string, leastS = 1): number {
  const seconds = anyLength(typed.trim().toLowerCase());
  return seconds >= leastS ? seconds : Number.NaN;
}

function anyLength(text: string): number {
  const clock = AS_CLOCK.exec(text);
  if (clock !== null) return Number(clock[1]) * 3600 + Number(clock[2]) * 60 + Number(clock[3] ?? 0);
  if (/^\d{1,4}$/.test(text)) return Number(text) * 60;
  const words = AS_WORDS.exec(text);
  if (words === null) return Number.NaN;
  const [hours, minutes, seconds] = words
    .slice(1)
    .map((one: string | undefined) => one && Number(one.replace(",", ".")));
  const over = (value: number | "" | undefined): boolean => typeof value === "number" && value >= 60;
  if ((hours !== undefined && over(minutes)) || (minutes !== undefined && over(seconds))) return Number.NaN;
  return Number(hours ?? 0) * 3600 + Number(minutes ?? 0) * 60 + Number(seconds ?? 0);
}
