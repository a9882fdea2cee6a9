import { isoTime } from "./isoTime.ts";
import { localOffsetMin } from "../localOffsetMin.ts";

/** Reads the times of one file and remembers what they say about zones. */
export class FileTimes {
  private readonly offsets = new Set<number>();
  private withoutZone = 0;

  /** Time in ms UTC, NaN when the text is no time. A time without a zone is taken as UTC. */
  read(text: string): number {
    const time = isoTime(text);
    if (!time) return NaN;
    if (time.offsetMin === null) this.withoutZone++;
    else this.offsets.add(time.offsetMin);
    return time.ms;
  }

  /** Local time minus UTC, min, where every time names the same zone other than UTC; else null. */
  get utcOffsetMin(): number | null {
    const [only] = this.offsets;
    return this.offsets.size === 1 && this.withoutZone === 0 && only ? localOffsetMin(only) : null;
  }

  /** The warning due, or none. */
  get warnings(): string[] {
    return this.withoutZone > 0 ? ["Times in the file name no zone; they are taken as UTC."] : [];
  }
}
