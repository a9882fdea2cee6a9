// The preview is asked at the same instants as render, still, timeline and captions are in test/film/oneClock: stopped it
// shows what the film clock says, and playing it runs through the film as the film will, on a made-up screen whose clips
// play by a made-up time.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Film, FilmItem } from "../../main/contract/film.ts";
import { filmClock } from "../../overlay/instant/filmClock.ts";
import { type ClipPicture, FilmPlayhead, type FilmScreen } from "../../renderer/build/filmPlayhead.ts";
import { clips, films, instants, pictureOf } from "../film/madeFilms.ts";

/** A clip on a screen whose time we hand out. */
class MadePicture implements ClipPicture {
  clipId: string | null = null;
  wishedS = 0;
  frame = -1;
  playing = false;
  /** Where it is between two frames, s. */
  private atS = 0;
  private speed = 0;
  private readonly onFrame: (clipId: string, mediaS: number) => void;
  private readonly onEnd: (clipId: string) => void;

  constructor(
    onFrame: (clipId: string, mediaS: number) => void = () => undefined,
    onEnd: (clipId: string) => void = () => undefined,
  ) {
    this.onFrame = onFrame;
    this.onEnd = onEnd;
  }

  showClip(clipId: string, mediaS: number): void {
    this.clipId = clipId;
    this.wishedS = mediaS;
    this.frame = -1;
    this.atS = mediaS;
  }
  play(speed: number): void {
    this.playing = true;
    this.speed = speed;
  }
  pause(): void {
    this.playing = false;
  }

  /** Its time goes on; the frame that stands then is told when it is another. */
  run(dtS: number): void {
    const clip = clips.find(({ id }) => id === this.clipId);
    if (clip === undefined) return;
    const { ticks, timescale } = clip.frames;
    if (this.playing && this.frame >= 0) this.atS += dtS * this.speed;
    if (this.atS >= clip.durationS) {
      this.playing = false;
      this.onEnd(clip.id);
      return;
    }
    let frame = Math.max(0, this.frame);
    while (frame + 1 < ticks.length && ticks[frame + 1]! / timescale <= this.atS + 1e-6) frame += 1;
    if (frame === this.frame) return;
    this.frame = frame;
    this.onFrame(clip.id, ticks[frame]! / timescale);
  }
}

function stageOf(film: Film) {
  const log = { laid: { index: 0, beneath: null as number | null, share: 1 }, spoken: [] as [number, number][] };
  const front: MadePicture = new MadePicture(
    (clipId, mediaS) => playhead.shown(clipId, mediaS),
    (clipId) => playhead.ended(clipId),
  );
  const beneath = new MadePicture();
  const screen: FilmScreen = {
    front,
    beneath,
    lay: (index, out, share) => (log.laid = { index, beneath: out, share }),
    repaint: () => undefined,
    speak: (index, fromS) => log.spoken.push([index, fromS]),
    hush: () => undefined,
    frameS(clipId) {
      const { frameRate } = clips.find(({ id }) => id === clipId)!;
      return frameRate.den / frameRate.num;
    },
    onPlace: () => undefined,
    onPlaying: () => undefined,
  };
  const playhead: FilmPlayhead = new FilmPlayhead(film, screen);
  return { log, front, beneath, playhead, screen };
}

describe("the preview asks the film clock", () => {
  it("stopped: the same item, clip time, caption, page and drawings at the same instants", () => {
    fc.assert(
      fc.property(films, (film) => {
        const clock = filmClock<FilmItem>(film);
        const { playhead, front } = stageOf(film);
        for (const frame of instants(clock)) {
          const at = clock.at(frame)!;
          playhead.show(at.index, at.itemS);
          if (at.mediaS !== null) expect(front.wishedS).toBe(at.mediaS);
          front.run(0);
          expect(playhead.place.filmS).toBeCloseTo(clock.timeOf(frame), 9);
          if (at.from === null) expect(playhead.instant).toEqual(at);
        }
      }),
      { numRuns: 60 },
    );
  });

  it("an edit of the part that stands there is painted at once", () => {
    const item: FilmItem = {
      ...fc
        .sample(films, { numRuns: 50, seed: 1 })
        .flatMap(({ items }) => items)
        .find(({ type }) => type === "shot")!,
      id: "one",
      drawings: [],
    } as FilmItem;
    const film: Film = { widthPx: 16, heightPx: 9, frameRate: { num: 30, den: 1 }, items: [item], leftOut: [] };
    let painted = 0;
    const { playhead, screen } = stageOf(film);
    playhead.show(0, 0);
    screen.repaint = () => (painted = playhead.instant?.drawings.length ?? 0);
    const drawing = { shape: "ring" as const, points: [], text: null, startS: 0, endS: 4 };
    playhead.setFilm({ ...film, items: [{ ...item, drawings: [drawing] } as FilmItem] });
    expect(painted).toBe(1);
  });

  it("a picture that is looked at stands where the film first shows it", () => {
    fc.assert(
      fc.property(films, (film) => {
        const clock = filmClock<FilmItem>(film);
        for (const frame of instants(clock)) {
          const { index, item, frozen, frameInItem } = clock.at(frame)!;
          if (item.type === "card" || frozen) continue;
          const { ticks, timescale } = clips.find(({ id }) => id === item.clipId)!.frames;
          const picture = pictureOf(clock.within(index, frameInItem)!, null)!;
          const first = clock.frameShowing(index, ticks[picture]! / timescale);
          expect(first).toBeLessThanOrEqual(frameInItem);
          expect(pictureOf(clock.within(index, first)!, picture)).toBe(picture);
        }
      }),
      { numRuns: 60 },
    );
  });

  it("playing: it runs as long as the film, with the film's pictures, crossfades and comments", () => {
    fc.assert(
      fc.property(films, (film) => {
        const clock = filmClock<FilmItem>(film);
        const { playhead, front, beneath, log } = stageOf(film);
        const tickS = 1 / 60;
        playhead.show(0, 0);
        playhead.play(false);
        let passedS = 0;
        for (; playhead.playing && passedS < 3 * clock.lengthS + 5; passedS += tickS) {
          front.run(tickS);
          beneath.run(tickS);
          playhead.tick(tickS);
          if (!playhead.playing) break;
          const at = playhead.instant!;
          if (at.from === null) expect(log.laid.share).toBe(1);
          // A crossfade is laid as the film has it.
          if (playhead.pictured)
            expect(log.laid).toEqual({ index: at.index, beneath: at.from?.index ?? null, share: at.share });
          for (const [one, picture] of [[at, front] as const, [at.from, beneath] as const]) {
            if (one === null || one.item.type === "card" || picture.frame < 0 || !playhead.pictured) continue;
            expect(picture.clipId).toBe(one.item.clipId);
            // Video runs by itself, and film time goes by the front's frames: within two of the longest step of these.
            const { frameRate } = clips.find(({ id }) => id === picture.clipId)!;
            const perSecond = frameRate.num / frameRate.den;
            const stepS = Math.max(clock.timeOf(1), at.item.type === "card" ? tickS : 1 / 25 / at.item.speed);
            const framesOff = Math.abs(picture.frame - pictureOf(one, picture.frame)!);
            expect(framesOff).toBeLessThanOrEqual(Math.ceil(2 * Math.max(1, stepS * perSecond * one.item.speed)));
          }
        }
        expect(playhead.playing).toBe(false);
        // A part, and footage after a hold, begins with a whole picture of its clip, wherever in it the film begins.
        const spareS = film.items.map((item, index) =>
          item.type === "card" ? 0.1 : 0.1 + (1 + clock.holdsOf(index).length) / 25 / item.speed,
        );
        expect(Math.abs(passedS - clock.lengthS)).toBeLessThan(spareS.reduce((sum, one) => sum + one, 0));
        const comments = film.items.flatMap((item, index) => (item.commentPath === null ? [] : [index]));
        expect(log.spoken.map(([index]) => index)).toEqual(
          comments.filter((index) => clock.spans[index]!.frames > clock.spans[index]!.crossfadeFrames),
        );
        // Speech begins with the first picture that comes when its time has come.
        for (const [index, fromS] of log.spoken) {
          const item = film.items[index]!;
          expect(fromS).toBeLessThan(0.05 + (item.type === "card" ? 0 : 1 / 25 / item.speed));
        }
      }),
      { numRuns: 25 },
    );
  });
});
