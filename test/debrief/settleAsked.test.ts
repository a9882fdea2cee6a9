import { describe, expect, test } from "vitest";
import type { AskedChoice, MomentChoice } from "../../main/contract/debrief.ts";
import type { Film, Shot } from "../../main/contract/film.ts";
import type { Moment } from "../../main/contract/reading.ts";
import { choicesOn } from "../../main/debrief/choicesOn.ts";
import { newDebrief } from "../../main/debrief/debriefDocument.ts";
import { settleAsked, withAskedParts } from "../../main/debrief/settleAsked.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";

const moment = (startS: number, endS: number, kind = "lapse"): Moment => ({
  kind,
  startS,
  endS,
  reason: "unexplained",
  excused: false,
  rank: 1,
  numbers: {},
  setBy: "computed",
  coachOnly: false,
});
const choice = (startS: number, endS: number | null, more: Partial<MomentChoice>): MomentChoice => ({
  kind: "lapse",
  startS,
  endS,
  keep: null,
  span: null,
  name: null,
  note: null,
  ...more,
});
const document = newDebrief(defaultPlan(), [], "ride1");
const noFilm = { items: [] } as unknown as Film;

describe("what a coach said, on today's moments", () => {
  test("stays with its moment when that moves, and is asked about when it is cut in two", () => {
    const kept = choice(100, 140, { keep: true });
    const noted = choice(300, 330, { note: "press" });
    const { of, asked } = choicesOn([moment(304, 334), moment(100, 118), moment(124, 140)], [kept, noted]);
    expect(of).toEqual([noted, null, null]);
    expect(asked).toEqual([{ what: "choice", choice: kept, among: [1, 2] }]);
  });

  test("asks about what is gone, but not about a drop of it", () => {
    const { asked } = choicesOn([], [choice(1, 2, { keep: false }), choice(1, 9, { name: "x" })]);
    expect(asked.map((one) => one.choice.name)).toEqual(["x"]);
  });
});

describe("a coach's answer", () => {
  const moments = [moment(100, 118), moment(124, 140)];
  const askedOf = (one: MomentChoice): AskedChoice => ({ what: "choice", choice: one, among: [0, 1] });
  const choicesAfter = (choices: readonly MomentChoice[], at: number, to: number | null) => {
    const edits = settleAsked(
      { ...document, choices },
      { moments, breaks: [] },
      noFilm,
      askedOf(choices[at]!),
      to,
      "x",
    );
    return edits[0]!.value;
  };

  test("puts a choice on the moment, from then on by its times of today, or lets it go", () => {
    const kept = choice(100, 140, { keep: true, note: "press" });
    expect(choicesAfter([kept], 0, 1)).toEqual([{ ...kept, startS: 124, endS: 140 }]);
    expect(choicesAfter([kept], 0, null)).toEqual([]);
  });

  test("loses nothing where something was said about that moment already", () => {
    const there = choice(124, 140, { keep: false, note: "one" });
    const put = choicesAfter([there, choice(100, 140, { keep: true, name: "Bridge", note: "two" })], 1, 1);
    expect(put).toEqual([choice(124, 140, { keep: false, name: "Bridge", note: "one\ntwo" })]);
  });

  test("puts a reason on a break of today", () => {
    const override = { what: "break", startS: 5, endS: 9, set: { coach: "dog" }, reason: null } as const;
    const breaks = [{ ...moment(20, 25), reason: "unexplained", lapse: false } as const];
    const [edit] = settleAsked(
      { ...document, overrides: [{ what: "last", set: 4, reason: null }, override] },
      { moments, breaks },
      noFilm,
      { what: "break", override: { ...override }, among: [0] },
      0,
      "x",
    );
    expect(edit!.value).toEqual([
      { what: "last", set: 4, reason: null },
      { ...override, startS: 20, endS: 25 },
    ]);
  });
});

describe("parts of a film that are asked about", () => {
  const shot = {
    type: "shot",
    id: "s",
    moment: 0,
    momentKey: { kind: "lapse", startS: 100, endS: 140 },
    captions: [{ startS: 0, endS: 3, text: "made" }],
    made: "mark",
  } as unknown as Shot;
  const card = { type: "card", id: "c", moment: 0, momentKey: shot.momentKey } as unknown as Film["items"][number];
  const own = { type: "card", id: "o", moment: null } as unknown as Film["items"][number];
  const film = { items: [own, card, shot] } as unknown as Film;
  const shown = { items: [own, { ...shot, moment: null, captions: [], made: "none" }] } as unknown as Film;
  const asked = ["c", "s"].map((itemId): AskedChoice => ({
    what: "part",
    itemId,
    key: { kind: "lapse", startS: 100 },
    among: [],
  }));

  test("keep their words through an edit of the film that is shown without them", () => {
    const swapped = { ...shown, items: shown.items.toReversed() };
    const { items } = withAskedParts(swapped, { film }, shown, asked);
    expect(items.map(({ id }) => id)).toEqual(["s", "o", "c"]);
    expect(items[0]).toMatchObject({ captions: shot.captions, made: "mark" });
    // A shot that the coach takes out stays out.
    const without = withAskedParts({ ...shown, items: [own] }, { film }, shown, asked);
    expect(without.items.map(({ id }) => id)).toEqual(["o", "c"]);
  });

  test("go on the moment the coach says; let go, a shot stays without one and a card that said nothing goes", () => {
    const at = (index: number, to: number | null) =>
      (
        settleAsked(
          { ...document, film },
          { moments: [moment(0, 9), moment(124, 140)], breaks: [] },
          shown,
          asked[index]!,
          to,
          "x",
        )[0]!.value as Film
      ).items;
    expect(at(1, 1)[2]).toMatchObject({ moment: 1, momentKey: { startS: 124, endS: 140 } });
    expect(at(1, null)[2]).toMatchObject({ id: "s", moment: null });
    expect(at(1, null)[2]!.momentKey).toBeUndefined();
    expect(at(0, null).map(({ id }) => id)).toEqual(["o", "s"]);
  });
});
