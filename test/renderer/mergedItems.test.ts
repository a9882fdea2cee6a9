// Two changes of a film, the second made before the answer to the first came: neither is lost where they are of different
// things, and nothing stands at another instant of the clip than where it was put.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { DebriefDocument } from "../../main/contract/debrief.ts";
import type { CardItem, Film, FilmItem, Shot } from "../../main/contract/film.ts";
import { mediaTimeIn, shotLengthS } from "../../overlay/instant/shotTime.ts";
import {
  atSpeed,
  frozenAt,
  movedItem,
  trimmed,
  withItem,
  withNewCaption,
  withoutItem,
} from "../../renderer/film/filmEdits.ts";
import { mergedItems } from "../../renderer/film/mergedItems.ts";
import { rebased } from "../../renderer/desk/rebased.ts";

const CLIP_S = 300;
const shotOf = (id: string, mediaStartS: number, mediaEndS: number): Shot => ({
  type: "shot",
  id,
  clipId: "clip1",
  mediaStartS,
  mediaEndS,
  speed: 1,
  freezes: [],
  captions: [],
  drawings: [],
  pageStartS: mediaStartS - 60,
  pageEndS: mediaEndS,
  clock: { offsetS: 0, rate: 1 },
  moment: null,
  riderName: null,
  why: "",
  commentPath: null,
  crossfadeS: 0,
});
const card = { type: "card", id: "c", durationS: 5, moment: null, crossfadeS: 0 } as unknown as CardItem;
const film: Film = withItem(
  {
    widthPx: 1280,
    heightPx: 720,
    frameRate: { num: 30, den: 1 },
    items: [card, shotOf("a", 100, 130), shotOf("b", 200, 220)],
    leftOut: [],
  },
  shotOf("a", 100, 130),
);
const item = (of: Film, id: string): FilmItem => of.items.find((one) => one.id === id)!;
const shot = (of: Film, id = "a"): Shot => item(of, id) as Shot;
const merged = (now: Film, wished: Film): readonly FilmItem[] | null =>
  mergedItems(film.items, now.items, wished.items);

const cut = withItem(film, trimmed(shot(film), 104, 126, CLIP_S));
const captioned = withItem(film, withNewCaption(shot(film), 12, "press on"));

describe("a change of the film made before the answer to the one before came", () => {
  it("is made beside it where it is of another part, or of the order", () => {
    const other = withItem(film, trimmed(shot(film, "b"), 203, 220, CLIP_S));
    expect(merged(cut, other)).toEqual([card, shot(cut), shot(other, "b")]);
    expect(merged(cut, movedItem(film, 1, 2))).toEqual([card, shot(film, "b"), shot(cut)]);
    expect(merged(movedItem(film, 1, 2), cut)).toEqual([card, shot(film, "b"), shot(cut)]);
    expect(merged(cut, withoutItem(film, "a"))).toEqual([card, shot(film, "b")]);
  });

  it("is refused where both cut the same shot, both set the order, or what is changed is gone", () => {
    expect(merged(cut, withItem(film, trimmed(shot(film), 100, 120, CLIP_S)))).toBeNull();
    expect(merged(movedItem(film, 0, 1), movedItem(film, 1, 2))).toBeNull();
    expect(merged(withoutItem(film, "a"), captioned)).toBeNull();
    expect(merged(captioned, withItem(film, withNewCaption(shot(film), 3, "and this")))).toBeNull();
  });

  it("keeps words at their instant of the clip, whichever of the two came first", () => {
    for (const items of [merged(cut, captioned), merged(captioned, cut)]) {
      const both = items!.find(({ id }) => id === "a") as Shot;
      expect([both.mediaStartS, both.mediaEndS]).toEqual([104, 126]);
      expect(both.captions).toEqual([{ startS: 8, endS: 13, text: "press on" }]);
      expect(both.pageEndS).toBe(shot(cut).pageEndS);
    }
  });

  it("gives the same by either order, for any cut, speed or hold and any caption that stays in the shot", () => {
    const change = fc.oneof(
      fc
        .tuple(fc.integer({ min: 100, max: 112 }), fc.integer({ min: 124, max: 160 }))
        .map(([startS, endS]) => trimmed(shot(film), startS, endS, CLIP_S)),
      fc.constantFrom(0.25, 0.5, 2).map((speed) => atSpeed(shot(film), speed, CLIP_S)),
      fc.integer({ min: 101, max: 128 }).map((atS) => frozenAt(shot(film), atS + 0.5, 3)),
    );
    fc.assert(
      fc.property(change, fc.integer({ min: 13, max: 22 }), (after, atS) => {
        const [one, two] = [withItem(film, after), withItem(film, withNewCaption(shot(film), atS, "x"))];
        const [first, second] = [merged(one, two), merged(two, one)].map(
          (items) => items!.find(({ id }) => id === "a") as Shot,
        );
        expect(first).toEqual(second);
        const begins = first!.captions[0]!.startS;
        // Near the shot's end a caption begins earlier, so that it can be read.
        if (begins < shotLengthS(first!) - 3.001) expect(mediaTimeIn(first!, begins).mediaS).toBeCloseTo(100 + atS, 6);
      }),
    );
  });

  it("is what the window sends: the film put together, or nothing", () => {
    const on = (value: Film) => ({ film: value }) as unknown as DebriefDocument;
    const edit = { part: "film", value: captioned, label: "caption" } as const;
    expect(rebased(edit, on(film), on(film))).toBe(edit);
    expect(rebased(edit, on(film), on(cut))?.value).toEqual({ ...film, items: merged(cut, captioned) });
    expect(
      rebased({ ...edit, value: withItem(film, trimmed(shot(film), 100, 120, CLIP_S)) }, on(film), on(cut)),
    ).toBeNull();
  });
});
