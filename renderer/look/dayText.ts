import { common } from "../words/common.ts";

const day = new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "short", year: "numeric" });
const time = new Intl.DateTimeFormat("en-GB", { hour: "2-digit", minute: "2-digit" });
const DAY_MS = 86_400_000;

/** A file's time on this machine's clock: `25 Nov 2026, 18:52`, or `today, 18:52`. */
export function dayText(utcMs: number, nowMs: number = Date.now()): string {
  const written = day.format(utcMs);
  const near =
    written === day.format(nowMs) ? common.today : written === day.format(nowMs - DAY_MS) ? common.yesterday : written;
  return `${near}, ${time.format(utcMs)}`;
}
