/** A frame that came on the screen while a clip plays. */
interface FrameSeen {
  readonly atMs: number;
  readonly frame: number;
}

/** Played for so long before it is judged, and by so much of the latest, ms. */
const JUDGED_AFTER_MS = 500;
/** Frames that a gap may differ from the usual one, where a quarter of that is less: the screen's own beat does as much. */
const SLACK_FRAMES = 2;
/** Of the gaps, so many have to be like the usual one. */
const EVEN_SHARE = 0.85;
/** A picture that stands for longer than this is seen to stand, ms. */
const STANDS_MS = 180;
/** Of the speed that was asked for, so much has to be kept. */
const KEPT_SHARE = 0.85;

/** Watches how evenly the frames come that a browser shows of a clip it plays fast. */
export class EvenGaps {
  private readonly seen: FrameSeen[] = [];
  private readonly framesAMs: number;

  /** @param framesAMs frames of the clip that should go by in a millisecond */
  constructor(framesAMs: number) {
    this.framesAMs = framesAMs;
  }

  /** Takes a frame that came; true once the gaps are plainly uneven, or the clip falls behind. */
  uneven(atMs: number, frame: number): boolean {
    const { seen } = this;
    if (seen.at(-1)?.frame !== frame) seen.push({ atMs, frame });
    while (seen.length > 2 && atMs - seen[1]!.atMs > JUDGED_AFTER_MS) seen.shift();
    const [first] = seen;
    if (first === undefined || atMs - first.atMs < JUDGED_AFTER_MS) return false;
    const gaps = seen.slice(1).map((one, k) => ({
      frames: one.frame - seen[k]!.frame,
      ms: one.atMs - seen[k]!.atMs,
    }));
    const usual = gaps.map(({ frames }) => frames).sort((a, b) => a - b)[gaps.length >> 1]!;
    const like = gaps.filter(({ frames }) => Math.abs(frames - usual) <= Math.max(SLACK_FRAMES, usual / 4)).length;
    const kept = (frame - first.frame) / ((atMs - first.atMs) * this.framesAMs);
    return like / gaps.length < EVEN_SHARE || kept < KEPT_SHARE || gaps.some(({ ms }) => ms > STANDS_MS);
  }
}

/** Steps whose time is remembered. */
const STEPS = 24;
/** A beat is made longer by as many of the latest as this, all but one: a single one that is late changes nothing. */
const LATEST = 8;
/** A beat is so much longer than those took. */
const ROOM = 1.25;
/** A beat is made shorter only where it could be this share of itself. */
const SHORTER_AT = 0.6;

/** The beat on which single frames are shown: as short as the machine holds, and a whole number of frames long. */
export class SteadyBeat {
  private readonly tookMs: number[] = [];
  private readonly framesAMs: number;
  private readonly least: number;
  private frames: number;

  /** @param leastMs no beat is shorter */
  constructor(framesAMs: number, leastMs: number) {
    this.framesAMs = framesAMs;
    this.least = Math.max(1, Math.ceil(leastMs * framesAMs));
    this.frames = this.least;
  }

  /** Frames from one that is shown to the next. */
  get stride(): number {
    return this.frames;
  }

  /** From one to the next, ms. */
  get beatMs(): number {
    return this.frames / this.framesAMs;
  }

  /** Takes how long a step took until its frame stood on the screen. */
  took(ms: number): void {
    const { tookMs } = this;
    tookMs.push(ms);
    if (tookMs.length > STEPS) tookMs.shift();
    const longer = this.forAllButOne(tookMs.slice(-LATEST));
    const shorter = this.forAllButOne(tookMs);
    if (longer > this.frames) this.frames = longer;
    else if (tookMs.length === STEPS && shorter < SHORTER_AT * this.frames) {
      this.frames = shorter;
      tookMs.length = 0;
    }
  }

  /** Frames of a beat that all of these but the slowest hold. */
  private forAllButOne(tookMs: readonly number[]): number {
    const slowest = tookMs.toSorted((a, b) => b - a)[1] ?? 0;
    return Math.max(this.least, Math.ceil(ROOM * slowest * this.framesAMs));
  }
}
