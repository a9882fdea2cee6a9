const day = new Intl.DateTimeFormat("en-GB", {
  day: "numeric",
  month: "short",
  year: "numeric",
  hour: "2-digit",
  minute: "2-digit",
});

/** A file's time on this machine's clock: `25 Nov 2026, 18:52`. */
export function dayText(utcMs: number): string {
  return day.format(utcMs);
}
