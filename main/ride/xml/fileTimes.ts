import { isoTime } from "./isoTime.ts";
import { localOffsetMin } from "../localOffsetMin.ts";
import { note, type Note } from "../../contract/notice.ts";

/** Reads the times of one file and remembers what they say about zones. */
export class FileTimes {
  private readonly offsets = new Set<number>();
  private withoutZone = 0;
  private day = "";
  private dayMs = NaN;

  /** Time in ms UTC, NaN when the text is no time. A time without a zone is taken as UTC. */
  read(text: string): number {
    return this.plain(text) ?? this.any(text);
  }

  private any(text: string): number {
    const time = isoTime(text);
    if (!time) return NaN;
    if (time.offsetMin === null) this.withoutZone++;
    else this.offsets.add(time.offsetMin);
    return time.ms;
  }

  /** The usual form, `2026-05-17T08:00:00Z`, without the cost of the general one: most files hold nothing else. */
  private plain(text: string): number | null {
    if (text.length !== 20 || text.charCodeAt(19) !== 90 || text.charCodeAt(10) !== 84) return null;
    const hour = twoDigits(text, 11);
    const minute = twoDigits(text, 14);
    const second = twoDigits(text, 17);
    if (!(hour < 24 && minute < 60 && second < 60) || text.charCodeAt(13) !== 58 || text.charCodeAt(16) !== 58)
      return null;
    const day = text.slice(0, 10);
    if (day !== this.day) {
      const time = isoTime(day);
      if (!time) return null;
      this.day = day;
      this.dayMs = time.ms;
    }
    this.offsets.add(0);
    return this.dayMs + ((hour * 60 + minute) * 60 + second) * 1000;
  }

  /** Local time minus UTC, min, where every time names the same zone other than UTC; else null. */
  get utcOffsetMin(): number | null {
    const [only] = this.offsets;
    return this.offsets.size === 1 && this.withoutZone === 0 && only ? localOffsetMin(only) : null;
  }

  /** The warning due, or none. */
  get warnings(): Note[] {
    return this.withoutZone > 0 ? [note("ride-times-without-zone", {})] : [];
  }
}

/** The number of two digits at a place of a text; NaN when they are none. */
function twoDigits(text: string, at: number): number {
  const tens = text.charCodeAt(at) - 48;
  const ones = text.charCodeAt(at + 1) - 48;
  return tens >= 0 && tens <= 9 && ones >= 0 && ones <= 9 ? tens * 10 + ones : NaN;
}
