// The window's small computations, each by what it must hold to.
import { describe, expect, it } from "vitest";
import type { DebriefDocument, Edit } from "../../main/contract/debrief.ts";
import type { ClipPlacement } from "../../main/contract/lineup.ts";
import type { Caption, Film, Shot } from "../../main/contract/film.ts";
import { keepUnits } from "../../overlay/words/keepUnits.ts";
import { durationText } from "../../overlay/words/numbers.ts";
import { holdsIn } from "../../overlay/instant/shotTime.ts";
import { atSpeed, frozenAt, shownInstead, trimmed, withItem, withNewCaption } from "../../renderer/film/filmEdits.ts";
import { turns } from "../../renderer/desk/inTurn.ts";
import { rebased } from "../../renderer/desk/rebased.ts";
import { otherPlaces } from "../../renderer/lineup/ClipPlaces.tsx";
import { placedBecause } from "../../main/contract/notices/placement.ts";
import { confirmed, movesAlong, moveFootage, putFootage } from "../../renderer/lineup/moveFootage.ts";
import { plainReason } from "../../renderer/lineup/plainReason.ts";
import { perPixel } from "../../renderer/strip/perPixel.ts";
import { drawingAt } from "../../renderer/draw/shapes.ts";
import { placesToCheck } from "../../renderer/lineup/placesToCheck.ts";
import { secondsOf } from "../../renderer/look/secondsOf.ts";
import { droppedMatches } from "../../renderer/picker/droppedMatches.ts";
import { clipAt, firstFilmed, type PlacedClip } from "../../renderer/player/placedClips.ts";

describe("an edit made on a document that has changed since", () => {
  const document = {
    plan: { targetW: 185, toleranceW: null, note: { feel: null } },
    choices: [],
    deviceDelayS: 0,
  } as unknown as DebriefDocument;
  const withPlan = (part: object) => ({ ...document, plan: { ...document.plan, ...part } });
  const plan = (part: object): Edit => ({ part: "plan", value: { ...document.plan, ...part }, label: "plan" });

  it("stays as it is where its part is the same", () => {
    const edit = plan({ toleranceW: 12 });
    expect(rebased(edit, document, { ...document, deviceDelayS: 1 })).toBe(edit);
  });
  it("keeps what the other changed in other fields", () => {
    expect(rebased(plan({ toleranceW: 12 }), document, withPlan({ targetW: 190 }))?.value).toMatchObject({
      targetW: 190,
      toleranceW: 12,
    });
  });
  it("is refused where both changed the same field to different things, and where a list changed", () => {
    expect(rebased(plan({ targetW: 200 }), document, withPlan({ targetW: 190 }))).toBeNull();
    expect(
      rebased({ part: "choices", value: [], label: "x" }, document, {
        ...document,
        choices: [{ kind: "a", startS: 1, endS: 2, keep: true, span: null, name: null, note: null }],
      }),
    ).toBeNull();
  });
});

describe("changes in turn", () => {
  const movedOn = { code: "usage", notice: { code: "desk-moved-on", facts: {} }, causes: [] };
  const document = {} as DebriefDocument;
  /** A program whose document has the number `edit`, which it tells the window when `tell` is called. */
  function program(first: number) {
    const made: number[] = [];
    let [edit, told] = [first, first];
    const inTurn = turns({
      now: () => ({ edit: told, document }),
      seenAt: () => document,
      movedFrom: () => Promise.resolve(void (told = edit)),
    });
    const send = async (on: number) => {
      await Promise.resolve();
      // eslint-disable-next-line @typescript-eslint/only-throw-error -- what crosses the wire is data
      if (on !== edit) throw movedOn;
      made.push(on);
      told = ++edit;
    };
    return { made, inTurn, send, moveOn: () => void (edit += 1) };
  }

  // Seen on the window: a moment kept, then a break given its reason at once, and the second was refused.
  it("one follows the other, and is made on what that left", async () => {
    const { made, inTurn, send } = program(4);
    await Promise.all([1, 2, 3].map(() => inTurn(4, () => send, send)));
    expect(made).toEqual([4, 5, 6]);
  });
  it("is made again where the program itself moved on meanwhile, untold", async () => {
    const { made, inTurn, send, moveOn } = program(4);
    moveOn();
    moveOn();
    await inTurn(4, () => send, send);
    expect(made).toEqual([6]);
  });
  it("is refused where it is good no more, and holds nobody up", async () => {
    const { made, inTurn, send, moveOn } = program(4);
    moveOn();
    await expect(inTurn(4, () => null, send)).rejects.toEqual(movedOn);
    await inTurn(4, () => send, send);
    expect(made).toEqual([5]);
  });
});

describe("a column reduced to pixels", () => {
  it("keeps every least and most, whatever the width, and a gap stays a gap", () => {
    const column = Float64Array.from({ length: 1000 }, (_, k) => (k >= 300 && k < 400 ? Number.NaN : Math.sin(k) * k));
    for (const widthPx of [1, 7, 100, 999]) {
      const { least, most } = perPixel(column, 0, 1, 0, 1000, widthPx);
      const known = column.filter((value) => !Number.isNaN(value));
      expect(Math.min(...least.filter((value) => !Number.isNaN(value)))).toBe(Math.min(...known));
      expect(Math.max(...most.filter((value) => !Number.isNaN(value)))).toBe(Math.max(...known));
    }
    const { least } = perPixel(column, 0, 1, 0, 1000, 100);
    expect(Number.isNaN(least[35])).toBe(true);
    expect(Number.isNaN(least[29])).toBe(false);
  });
  it("is wider than the data without inventing any", () => {
    const { least, most } = perPixel(Float64Array.of(5, 6), 10, 1, 8, 14, 12);
    expect([...least].map((value) => (Number.isNaN(value) ? "-" : value)).join("")).toBe("----5566----");
    expect([...most]).toEqual([...least]);
  });
});

describe("places that show at once whether a line-up is right", () => {
  /** Rolling at 8 m/s, a stop from 100 to 130 s, a hard braking at 200 s. */
  const speed = Float64Array.from({ length: 400 }, (_, k) => (k >= 100 && k < 130 ? 0 : k >= 200 && k < 215 ? 2.6 : 8));
  it("are the stop, the start and the braking, in order, with their time in the clip", () => {
    const places = placesToCheck(speed, { offsetS: 50, rate: 1 }, 300);
    expect(places.map(({ kind, rideS, mediaS }) => [kind, rideS, mediaS])).toEqual([
      ["stops", 100, 50],
      ["starts", 130, 80],
      ["slows", 200, 150],
    ]);
  });
  it("lie inside the clip, and no figure is made of missing speed", () => {
    expect(placesToCheck(speed, { offsetS: 140, rate: 1 }, 40)).toEqual([]);
    expect(placesToCheck(new Float64Array(400).fill(Number.NaN), { offsetS: 0, rate: 1 }, 300)).toEqual([]);
  });
});

describe("other places that would fit", () => {
  const placement = {
    candidates: [-1600, 20, 0.4, 5000, 9000].map((rideStartS) => ({ rideStartS })),
    found: { offsetS: 0, rate: 1 },
  } as unknown as ClipPlacement;
  it("are those where something of the ride would be seen, other than the place in force", () => {
    expect(otherPlaces(placement, 12, 8000).map(({ rideStartS }) => rideStartS)).toEqual([20, 5000]);
    expect(otherPlaces(placement, 1700, 8000).map(({ rideStartS }) => rideStartS)).toEqual([-1600, 20, 5000]);
    expect(otherPlaces(placement, 12, null)).toHaveLength(4);
  });
});

describe("footage that is moved", () => {
  const placement = (clipId: string, clockGroup: string, offsetS: number) =>
    ({ clipId, clockGroup, found: { offsetS, rate: 1 } }) as unknown as ClipPlacement;
  const placements = [placement("a", "one", 10), placement("b", "one", 500), placement("c", "two", 90)];
  it("takes the anchors of its whole camera along, and no other camera's", () => {
    const anchors = [
      { clipId: "b", mediaS: 0, rideS: 500, sigmaS: 0.5 },
      { clipId: "c", mediaS: 1, rideS: 91, sigmaS: 0.5 },
    ];
    expect(moveFootage(anchors, placements, "a", 3, 2.5, 0.3).map(({ rideS }) => rideS)).toEqual([502.5, 91]);
  });
  it("gets an anchor at the picture that was looked at, where its camera has none", () => {
    expect(moveFootage([], placements, "a", 3, -1, 0.3)).toMatchObject([
      { clipId: "a", mediaS: 3, rideS: 12, sigmaS: 0.3 },
    ]);
  });
  it("is a proposal once it lies beyond its error, and where it was not sure before, until it is confirmed", () => {
    const sure = [{ ...placements[0]!, sure: true, uncertaintyS: 0.1 }];
    const once = moveFootage([], sure, "a", 3, 0.06, 0.05);
    expect(once[0]!.byHand).toBeUndefined();
    // Small moves add up.
    const twice = moveFootage(once, sure, "a", 3, 0.06, 0.05);
    expect(twice[0]).toMatchObject({ byHand: true, movedS: 0.12 });
    expect(moveFootage([], placements, "a", 3, 0.01, 0.05)[0]!.byHand).toBe(true);
    const agreed = confirmed(twice, sure, sure[0]!, 7);
    // Twice the standard error is what is printed: never wider than before.
    expect(agreed).toEqual([
      { clipId: "a", mediaS: 3, rideS: expect.closeTo(13.12, 6) as number, sigmaS: 0.05 },
      { clipId: "a", mediaS: 7, rideS: 17, sigmaS: 0.05 },
    ]);
  });
  it("says which clips of its camera move along: those with an anchor, and those on its clock", () => {
    const group = ["a", "b", "c", "d"].map((id) => ({
      ...placement(id, "one", 0),
      inheritedFrom: null as string | null,
    }));
    group[1]!.inheritedFrom = "a";
    const anchors = [{ clipId: "c", mediaS: 0, rideS: 1, sigmaS: 0.5 }];
    expect(movesAlong(anchors, group, "a")).toEqual({ along: 2, stay: 1 });
  });
  it("put at a place of its own, it is held there by that anchor alone", () => {
    const next = { clipId: "a", mediaS: 0, rideS: 700, sigmaS: 0.5 };
    expect(
      putFootage(
        [
          { clipId: "b", mediaS: 0, rideS: 500, sigmaS: 0.5 },
          { clipId: "c", mediaS: 1, rideS: 91, sigmaS: 0.5 },
        ],
        placements,
        next,
      ).map(({ clipId }) => clipId),
    ).toEqual(["c", "a"]);
  });
});

describe("why a clip that is sure lies where it lies", () => {
  const positions = {
    rmsM: 3.3,
    movedM: 532,
    anotherFits: false,
    hardlyMoved: false,
    clockOffS: null,
    unlike: false,
  };
  const own = placedBecause("camera-positions", positions);
  const anchors = { count: 2, agreeToS: 0.1, rate: null, trouble: null };
  it("is folded where it says no more than what it was measured by", () => {
    for (const reason of [
      own,
      placedBecause("shared-clock", { own, others: 2 }),
      placedBecause("anchors", anchors),
      placedBecause("clock-of", { sourceName: "bars-1.mp4", trimS: null }),
    ])
      expect(plainReason(reason), reason.code).toBe(true);
  });
  it("stays open where anything is odd, doubted or has to be looked at", () => {
    const odd = placedBecause("camera-positions", { ...positions, clockOffS: 3600 });
    for (const reason of [
      odd,
      placedBecause("shared-clock", { own: odd, others: 2 }),
      ...(["anotherFits", "hardlyMoved", "unlike"] as const).map((doubt) =>
        placedBecause("camera-positions", { ...positions, [doubt]: true }),
      ),
      placedBecause("anchors", { ...anchors, rate: 0.25 }),
      placedBecause("anchors", { ...anchors, byHand: true }),
      placedBecause("anchors", { ...anchors, trouble: { kind: "one left out", mark: 2, byS: 9 } }),
      placedBecause("clock-of", { sourceName: "bars-1.mp4", trimS: 11 }),
      placedBecause("camera-on-another-rider", { leadS: 4, errorS: 1, unlike: false }),
      placedBecause("slow-motion", { own, times: 4 }),
      placedBecause("clock-unchecked", { zoneMin: 60 }),
    ])
      expect(plainReason(reason), JSON.stringify(reason)).toBe(false);
  });
});

describe("what was filmed of a span", () => {
  const placed = [
    { clip: { id: "unsure" }, startS: 100, endS: 200, sure: false },
    { clip: { id: "sure" }, startS: 150, endS: 180, sure: true },
  ] as unknown as PlacedClip[];
  it("is its start, else its first picture, else nothing", () => {
    expect(firstFilmed(placed, 120, 130)).toBe(120);
    expect(firstFilmed(placed, 90, 130)).toBe(100);
    expect(firstFilmed(placed, 90, 100)).toBeNull();
    expect(firstFilmed(placed, 200, 300)).toBeNull();
  });
  it("comes from a sure clip where there is one", () => {
    expect(clipAt(placed, 160)?.clip.id).toBe("sure");
    expect(clipAt(placed, 190)?.clip.id).toBe("unsure");
  });
});

describe("a length as typed", () => {
  it("is hours and minutes, with seconds if there are some, or minutes alone", () => {
    expect([secondsOf("3:30"), secondsOf(" 0:05:07 "), secondsOf("210")]).toEqual([12_600, 307, 12_600]);
  });
  it("is read as the program writes it", () => {
    for (const typed of ["75 min", "1 h 15 min", "1:15", "75", "1 h 15", "1h15min", "1.25 h", "1,25 h", "4500 s"])
      expect(secondsOf(typed), typed).toBe(4500);
    for (const seconds of [45, 90, 225, 600, 4500, 7200, 12_660])
      expect(secondsOf(keepUnits(durationText(seconds))), durationText(seconds)).toBe(seconds);
    expect(secondsOf("0 min", 0)).toBe(0);
  });
  it("is no time where it can't be one", () => {
    for (const typed of [
      "",
      "0",
      "3:60",
      "1:2:3",
      "-5",
      "1.5",
      "three",
      "h",
      "0 min",
      "0:00",
      "1 h 75 min",
      "5 km",
      "15 min 1 h",
    ])
      expect(secondsOf(typed), typed).toBeNaN();
  });
});

describe("files that were dropped", () => {
  const entry = (id: string, name: string, kind: "ride" | "folder", bytes: number) => ({
    id,
    name,
    kind,
    bytes,
    modifiedUtcMs: 0,
  });
  const listing = {
    id: "f",
    parentId: null,
    path: "/rides",
    entries: [entry("1", "a.fit", "ride", 10), entry("2", "a.fit", "ride", 11), entry("3", "rides", "folder", 0)],
  };
  it("are those of the same name and size; a folder goes by its name", () => {
    expect(
      droppedMatches(listing, [
        { name: "a.fit", bytes: 11 },
        { name: "rides", bytes: 4096 },
      ]),
    ).toEqual(["2", "3"]);
    expect(droppedMatches(listing, [{ name: "b.fit", bytes: 10 }])).toEqual([]);
  });
});

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

describe("the drawing under the pointer", () => {
  const ring = (startS: number) => ({
    shape: "ring" as const,
    points: [
      { x: 0.5, y: 0.5 },
      { x: 0.6, y: 0.5 },
    ],
    text: null,
    startS,
    endS: startS + 4,
  });
  const drawings = [ring(0), ring(10)];
  it("is one that shows, though another lies over it at another time", () => {
    const rim = { x: 0.4, y: 0.5 };
    expect(drawingAt(drawings, ({ startS }) => startS === 0, rim, 16 / 9)).toBe(0);
    expect(drawingAt(drawings, () => true, rim, 16 / 9)).toBe(1);
    expect(drawingAt(drawings, () => false, rim, 16 / 9)).toBe(-1);
  });
  it("is words as far as they reach, in a wide picture and an upright one", () => {
    const words = {
      shape: "text" as const,
      points: [{ x: 0.1, y: 0.5 }],
      text: "Hands low, eyes up",
      startS: 0,
      endS: 4,
    };
    for (const [aspect, endX] of [
      [16 / 9, 0.37],
      [9 / 16, 0.69],
    ] as const) {
      // Painted, they reach from 0.10 to 0.38 and to 0.70 of the width.
      expect(
        drawingAt([words], () => true, { x: endX, y: 0.49 }, aspect),
        String(aspect),
      ).toBe(0);
      expect(
        drawingAt([words], () => true, { x: endX + 0.12, y: 0.49 }, aspect),
        String(aspect),
      ).toBe(-1);
    }
  });
  it("is taken by its rim, not by its middle", () => {
    expect(drawingAt(drawings, () => true, { x: 0.5, y: 0.5 }, 16 / 9)).toBe(-1);
  });
});
