import type { Film, FilmItem, Shot } from "../../main/contract/film.ts";
import { type FilmClock, filmClock, type FilmInstant } from "../../overlay/instant/filmClock.ts";
import { itemTimeAt, mediaTimeIn } from "../../overlay/instant/shotTime.ts";

/** Where the film stands. */
export interface FilmPlace {
  readonly index: number;
  /** Film time since the part's start of the film's frame that stands, s; outside the part after `look`. */
  readonly itemS: number;
  /** Film time, s. */
  readonly filmS: number;
}

/** A picture that shows clips; the player is one. */
export interface ClipPicture {
  showClip(clipId: string, mediaS: number): void;
  play(speed: number): void;
  pause(): void;
  readonly playing: boolean;
}

/** What a film is played on. */
export interface FilmScreen {
  /** The picture of the part under way. */
  readonly front: ClipPicture;
  /** The picture that goes out beneath it. */
  readonly beneath: ClipPicture;
  /** Which parts the two show, and how much of the front is seen, 0 to 1. */
  lay(index: number, beneath: number | null, share: number): void;
  /** Numbers, caption and drawings anew. */
  repaint(): void;
  /** Plays a part's spoken comment from so many s of it on. */
  speak(index: number, fromS: number): void;
  hush(): void;
  /** Length of a clip's frames, s. */
  frameS(clipId: string): number;
  onPlace(place: FilmPlace): void;
  onPlaying(playing: boolean): void;
}

/** A browser plays no faster than this; a faster shot takes longer here than in the film. */
const FASTEST = 16;
/** Sums of binary fractions may miss an instant by this much, s. */
const ROUNDING_S = 1e-6;

/**
 * Plays a film from the clips themselves and always knows where on film it stands. Footage goes by the frames that come
 * on the screen; cards, holds and the last picture of a shot go by time. What is seen where, the film clock says.
 */
export class FilmPlayhead {
  private readonly screen: FilmScreen;
  private film: Film;
  private clock: FilmClock<FilmItem>;
  private index = 0;
  private itemS = 0;
  private id: string | null = null;
  /** The part alone, without what fades out beneath it and without its comment. */
  private alone = true;
  /** The place stands as it was asked for, wherever the frame that shows it began. */
  private asked = true;
  private going = false;
  private onlyPart = false;
  private waiting = false;
  /** While time runs by itself on a shot: until this film time of it, s. */
  private untilS: number | null = null;
  /** A frame of the part under way is on the screen. */
  private arrived = false;
  private spoken = false;
  /** The part whose tail stands ready beneath. */
  private ready: number | null = null;
  private lastMediaS: number | null = null;

  constructor(film: Film, screen: FilmScreen) {
    this.screen = screen;
    this.film = film;
    this.clock = filmClock(film);
  }

  get playing(): boolean {
    return this.going;
  }

  get place(): FilmPlace {
    const { index } = this;
    const span = this.clock.spans[index];
    const itemS = this.clock.timeOf(this.clock.frameAt(this.itemS));
    if (span === undefined) return { index, itemS, filmS: 0 };
    const within = Math.max(0, Math.min(itemS, this.clock.timeOf(span.frames)));
    return { index, itemS, filmS: this.clock.timeOf(span.startFrame) + within };
  }

  /** What the film shows where it stands; null without a part. */
  get instant(): FilmInstant<FilmItem> | null {
    const { index, clock } = this;
    const span = clock.spans[index];
    if (span === undefined) return null;
    const frame = clock.frameAt(this.itemS);
    const onFilm = this.alone || frame < 0 ? null : clock.at(span.startFrame + frame);
    return onFilm?.index === index ? onFilm : clock.within(index, frame);
  }

  /** The shot under way; null on a card. */
  get shot(): Shot | null {
    const item = this.film.items[this.index];
    return item?.type === "shot" ? item : null;
  }

  /** Whether what stands on the screen is the part's own picture. */
  get pictured(): boolean {
    return this.shot === null || this.arrived;
  }

  /** The parts changed: the one on the screen stays there; where it is gone, the one in its place comes. */
  setFilm(film: Film): void {
    this.film = film;
    this.clock = filmClock(film);
    this.ready = null;
    this.untilS = null;
    if (this.id === null) return;
    const now = film.items.findIndex(({ id }) => id === this.id);
    if (now >= 0) {
      this.index = now;
      this.moved();
      // What is written over the picture was asked for by the old place.
      this.screen.repaint();
      return;
    }
    this.stop();
    this.enter(Math.min(this.index, film.items.length - 1), 0);
  }

  /** Stops, and shows a part alone at a film time since its start. */
  show(index: number, itemS: number): void {
    this.stop();
    this.alone = true;
    this.enter(index, itemS);
  }

  /** Stops, and shows the film at a film time, s, as it is there: in a crossfade both its pictures. */
  seek(filmS: number): void {
    const { clock } = this;
    const at = clock.at(Math.max(0, Math.min(clock.frames - 1, clock.frameAt(filmS))));
    if (at === null) return;
    this.stop();
    this.alone = false;
    this.enter(at.index, at.itemS);
  }

  /** Stops, and shows the shot under way at a clip time, which may lie outside its cut. */
  look(mediaS: number): void {
    const { shot } = this;
    if (shot !== null) this.show(this.index, itemTimeAt(shot, mediaS));
  }

  play(onlyPart: boolean): void {
    if (this.going || this.film.items.length === 0) return;
    this.going = true;
    this.onlyPart = onlyPart;
    this.alone = onlyPart;
    this.screen.onPlaying(true);
    this.enter(this.index, Math.max(0, this.itemS));
  }

  stop(): void {
    if (!this.going) return;
    this.going = false;
    this.waiting = false;
    this.asked = this.untilS !== null;
    this.screen.front.pause();
    this.screen.beneath.pause();
    this.screen.hush();
    this.screen.onPlaying(false);
  }

  /** From now on the frames on the screen say where the film stands. */
  follow(): void {
    this.stop();
    this.asked = false;
  }

  /** A frame of a clip came on the screen. */
  shown(clipId: string, mediaS: number): void {
    const { shot } = this;
    if (shot === null || clipId !== shot.clipId) return;
    this.arrived = true;
    this.lastMediaS = mediaS;
    if (!this.going) {
      if (!this.asked) this.itemS = this.timeShowing(mediaS);
      this.moved();
      return;
    }
    if (this.waiting || this.untilS !== null) return;
    if (!this.standsStill(shot, mediaS)) this.itemS = Math.max(this.itemS, this.timeShowing(mediaS));
    this.goOn();
  }

  /** A clip ran out: what is left of its shot passes with the last picture. */
  ended(clipId: string): void {
    if (this.going && !this.waiting && this.untilS === null && this.shot?.clipId === clipId) this.untilS = Infinity;
  }

  /** Time passes. */
  tick(dtS: number): void {
    if (!this.going || this.waiting) return;
    const { shot } = this;
    const { front } = this.screen;
    if (shot === null || this.untilS !== null) {
      this.itemS += dtS;
      if (shot !== null && this.itemS >= this.untilS! && !this.standsStill(shot, this.lastMediaS ?? shot.mediaStartS))
        this.untilS = null;
      this.goOn();
      this.screen.repaint();
    }
    // Also once a clip's frame times have come, or after a seek.
    if (this.going && this.untilS === null && this.shot !== null && this.arrived && !front.playing)
      front.play(Math.min(FASTEST, this.shot.speed));
  }

  private timeShowing(mediaS: number): number {
    return this.clock.timeOf(this.clock.frameShowing(this.index, mediaS));
  }

  /** True where the picture now on the screen is the one of the next hold, or the shot's last: it stays for its time. */
  private standsStill(shot: Shot, mediaS: number): boolean {
    const nextS = mediaS + this.screen.frameS(shot.clipId) - ROUNDING_S;
    const hold = this.clock.holdsOf(this.index).find(({ endS }) => endS > this.itemS + ROUNDING_S);
    if (hold !== undefined && hold.atMediaS < nextS) {
      this.screen.front.pause();
      if (hold.atMediaS < mediaS - ROUNDING_S) {
        this.itemS = Math.max(this.itemS, hold.startS);
        this.screen.front.showClip(shot.clipId, hold.atMediaS);
      } else this.itemS = Math.max(this.itemS, this.timeShowing(mediaS));
      this.untilS = hold.endS;
      return true;
    }
    if (shot.mediaEndS > nextS) return false;
    this.itemS = Math.max(this.itemS, this.timeShowing(mediaS));
    this.screen.front.pause();
    this.untilS = Infinity;
    return true;
  }

  /** On to the next part where the film says so; else the two pictures are laid as they are now. */
  private goOn(): void {
    const { index, clock } = this;
    const span = clock.spans[index]!;
    const frame = clock.frameAt(this.itemS);
    if (this.onlyPart) {
      if (frame < span.frames) return this.moved();
      // Its last picture stays on the screen until it is stopped.
      this.screen.front.pause();
      this.waiting = true;
      return;
    }
    const onFilm = clock.at(span.startFrame + frame);
    if (onFilm === null) {
      this.stop();
      this.alone = true;
      this.enter(0, 0);
    } else if (onFilm.index === index) this.moved();
    else this.enter(index + 1, 0);
  }

  private enter(index: number, itemS: number): void {
    const item = this.film.items[index];
    if (item === undefined) return;
    this.index = index;
    this.itemS = itemS;
    this.id = item.id;
    this.asked = true;
    this.arrived = false;
    this.untilS = null;
    this.spoken = false;
    this.lastMediaS = null;
    this.screen.hush();
    if (item.type === "card") this.screen.front.pause();
    else {
      // Between frames of the film the clip's own instant is shown.
      this.screen.front.showClip(item.clipId, mediaTimeIn(item, itemS, this.clock.holdsOf(index)).mediaS);
      if (this.going) this.screen.front.play(Math.min(FASTEST, item.speed));
    }
    this.moved();
  }

  private moved(): void {
    const at = this.instant;
    if (at === null) return;
    const { from } = at;
    // What comes in is not seen before its own picture is there.
    this.screen.lay(at.index, from?.index ?? null, from === null || this.pictured ? at.share : 0);
    if (from === null) this.makeReady();
    else this.runBeneath(from);
    if (this.going && !this.onlyPart && at.comment !== null && !this.spoken) {
      this.spoken = true;
      this.screen.speak(at.index, at.comment.sinceS);
    }
    this.screen.onPlace(this.place);
  }

  private runBeneath(from: NonNullable<FilmInstant<FilmItem>["from"]>): void {
    const { beneath } = this.screen;
    if (from.item.type === "card" || from.mediaS === null) return;
    if (this.ready !== from.index || !this.going) beneath.showClip(from.item.clipId, from.mediaS);
    this.ready = from.index;
    if (!this.going || from.frozen || !this.pictured) beneath.pause();
    else if (!beneath.playing) beneath.play(Math.min(FASTEST, from.item.speed));
  }

  /** The part under way will go out beneath the next: the picture at which that begins is brought there in time. */
  private makeReady(): void {
    const { beneath } = this.screen;
    if (beneath.playing) beneath.pause();
    const next = this.clock.spans[this.index + 1];
    if (!this.going || this.onlyPart || next === undefined || next.crossfadeFrames === 0) return;
    const from = this.clock.at(next.startFrame)?.from;
    if (this.ready === this.index || from?.item.type !== "shot" || from.mediaS === null) return;
    this.ready = this.index;
    beneath.showClip(from.item.clipId, from.mediaS);
  }
}
