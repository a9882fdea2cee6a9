// A shot that is cut, held, sped up or captioned keeps its words and drawings where they belong.
import { describe, expect, it } from "vitest";
import type { Caption, Film, Shot } from "../../main/contract/film.ts";
import { holdsIn } from "../../overlay/instant/shotTime.ts";
import { atSpeed, frozenAt, shownInstead, trimmed, withItem, withNewCaption } from "../../renderer/film/filmEdits.ts";

describe("the thread's page of a shot that was cut", () => {
  it("begins a minute before the shot, and no earlier than the ride", () => {
    const shot = { type: "shot", id: "a", mediaStartS: 5, mediaEndS: 15, clock: { offsetS: 20, rate: 1 } } as Shot;
    const film = { items: [shot] } as unknown as Film;
    expect(withItem(film, shot).items[0]).toMatchObject({ pageStartS: 0, pageEndS: 35 });
    expect(withItem(film, { ...shot, clock: { offsetS: 120, rate: 1 } }).items[0]).toMatchObject({ pageStartS: 65 });
  });
});

describe("a hold on a shot's first picture", () => {
  it("is on film, though that picture began before the cut", () => {
    const plain = { type: "shot", mediaStartS: 5.02, mediaEndS: 15, speed: 1, freezes: [], captions: [], drawings: [] };
    const shot = plain as unknown as Shot;
    expect(holdsIn(frozenAt(shot, 5, 3))).toHaveLength(1);
    expect(frozenAt(frozenAt(shot, 5, 3), 5.02, 0).freezes).toEqual([]);
  });
});

describe("captions and drawings keep their instant of the clip", () => {
  const ring = { shape: "ring" as const, points: [], text: null, startS: 8, endS: 12 };
  const shot = {
    type: "shot",
    mediaStartS: 100,
    mediaEndS: 130,
    speed: 1,
    freezes: [],
    captions: [
      { startS: 2, endS: 7, text: "a" },
      { startS: 8, endS: 13, text: "b" },
    ],
    drawings: [ring],
  } as unknown as Shot;
  const times = (one: Shot) => [...one.captions, ...one.drawings].map(({ startS, endS }) => [startS, endS]);
  it("at another speed, and are as before where it is taken back", () => {
    const slow = atSpeed(shot, 0.5, 300);
    expect(times(slow)).toEqual([
      [4, 9],
      [16, 21],
      [16, 20],
    ]);
    expect(times(atSpeed(slow, 1, 300))).toEqual(times(shot));
    // No room for both in full: the first ends for the second.
    expect(times(atSpeed(shot, 2, 300))).toEqual([
      [1, 4],
      [4, 9],
      [4, 8],
    ]);
  });
  it("where more of the clip is taken before the shot", () => {
    const fast = atSpeed(shot, 8, 140);
    expect([fast.mediaStartS, fast.mediaEndS]).toEqual([92, 140]);
    expect(fast.captions[1]!.startS).toBeCloseTo((108 - 92) / 8, 9);
  });
  it("under another cut: a drawing whose picture is gone goes, words stay in the shot", () => {
    expect(times(trimmed(shot, 104, 130, 300))).toEqual([
      [0, 3],
      [4, 9],
      [4, 8],
    ]);
    const late = trimmed(shot, 115, 130, 300);
    expect(late.drawings).toEqual([]);
    expect(late.captions.map(({ text }) => text)).toEqual(["a", "b"]);
    expect(times(trimmed(shot, 100, 110, 300))).toEqual([
      [2, 7],
      [7, 10],
      [8, 10],
    ]);
  });
  it("after a hold, and in one", () => {
    const held = frozenAt(shot, 105, 3);
    expect(times(held)).toEqual([
      [2, 7],
      [11, 16],
      [11, 15],
    ]);
    const inHold = { ...held, drawings: [{ ...ring, startS: 6, endS: 10 }] };
    expect(atSpeed(inHold, 2, 300).drawings[0]).toMatchObject({ startS: 2.5 + 1, endS: 7.5 });
    expect(frozenAt(inHold, 105, 0).drawings[0]).toMatchObject({ startS: 5, endS: 9 });
  });
});

describe("a caption of one's own", () => {
  const shot = (captions: readonly Caption[], lengthS = 12) =>
    ({
      type: "shot",
      mediaStartS: 100,
      mediaEndS: 100 + lengthS,
      speed: 1,
      freezes: [],
      drawings: [],
      crossfadeS: 0,
      captions,
    }) as unknown as Shot;
  const one = (startS: number, endS: number, text: string): Caption => ({ startS, endS, text });
  it("ends the one that stands there, where enough of that stays, and leaves the next whole", () => {
    expect(withNewCaption(shot([one(0, 6, "a"), one(8, 12, "b")]), 4, "mine").captions).toEqual([
      one(0, 4, "a"),
      one(4, 8, "mine"),
      one(8, 12, "b"),
    ]);
  });
  it("waits until the one that stands there has had its least time", () => {
    expect(withNewCaption(shot([one(0, 6, "a"), one(6, 9, "b")], 9), 0, "mine").captions).toEqual([
      one(0, 3, "a"),
      one(3, 6, "mine"),
      one(6, 9, "b"),
    ]);
  });
  it("shows first where there is no room for both, and the other is said to wait", () => {
    const { captions } = withNewCaption(shot([one(6, 9, "a")], 9), 7, "mine");
    expect(captions.map(({ text }) => text)).toEqual(["mine", "a"]);
    expect([shownInstead(captions, 0), shownInstead(captions, 1)]).toEqual([null, 0]);
  });
  it("lies inside the shot", () => {
    expect(withNewCaption(shot([], 6), 5.5, "mine").captions).toEqual([one(3, 6, "mine")]);
  });
  it("is not said to wait for one that it only touches", () => {
    expect(shownInstead([one(0, 4, "a"), one(4, 8, "b")], 1)).toBeNull();
  });
});
