import { existsSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import type { Edit } from "../../../main/contract/debrief.ts";
import { made } from "./deskParts.ts";
import { type OpenDesk, openDeskWithRide } from "./openDesk.ts";

// 16 bit mono at 16 kHz: RIFF, WAVE, fmt, data (Multimedia Programming Interface, IBM and Microsoft 1991).
const wav = (value: number): string => {
  const data = Buffer.alloc(16_000 * value, value);
  const head = Buffer.alloc(44);
  head.write("RIFF", 0, "latin1");
  head.writeUInt32LE(36 + data.length, 4);
  head.write("WAVEfmt ", 8, "latin1");
  head.writeUInt32LE(16, 16);
  head.writeUInt16LE(1, 20);
  head.writeUInt16LE(1, 22);
  head.writeUInt32LE(16_000, 24);
  head.writeUInt32LE(32_000, 28);
  head.writeUInt16LE(2, 32);
  head.writeUInt16LE(16, 34);
  head.write("data", 36, "latin1");
  head.writeUInt32LE(data.length, 40);
  return Buffer.concat([head, data]).toString("base64");
};

describe("edits of a debrief on the desk", () => {
  let open: OpenDesk;
  let rides: string;
  beforeEach(async () => {
    ({ open, rides } = await openDeskWithRide());
  });
  afterEach(() => open.close());

  it("undoes and redoes every part a person edits, to the same desk", async () => {
    const start = open.view();
    const { document } = start;
    const own = {
      ...start.reading!.moments[0]!,
      kind: "look at the hands",
      reason: "hands",
      setBy: "coach" as const,
      startS: 100,
      endS: 130,
    };
    const edits: Edit[] = [
      { part: "plan", value: { ...document.plan, targetW: 170, toleranceW: 12 }, label: "target" },
      {
        part: "overrides",
        value: [{ what: "counted", set: { startS: 900, endS: 5000 }, reason: "coach" }],
        label: "counted part",
      },
      {
        part: "choices",
        value: [
          {
            kind: start.reading!.moments[0]!.kind,
            startS: start.reading!.moments[0]!.startS,
            endS: start.reading!.moments[0]!.endS,
            keep: false,
            span: null,
            name: "x",
            note: "y",
          },
        ],
        label: "drop",
      },
      { part: "ownMoments", value: [own], label: "own moment" },
      {
        part: "words",
        value: { held: "a", change: "b", next: "c", nextS: null, notes: null, questions: ["q"] },
        label: "words",
      },
      { part: "settings", value: { ...document.settings, lengthS: 60 }, label: "length" },
      { part: "deviceDelayS", value: 1, label: "delay" },
      // Two parts that stay whatever the ride is read as.
      {
        part: "film",
        value: { ...start.film!, items: start.film!.items.filter(({ id }) => id === "title" || id === "heart") },
        label: "film",
      },
    ];
    const seen = [open.view()];
    for (const edit of edits) {
      await made(edit, open);
      seen.push(open.view());
    }
    expect(open.view().reading?.moments.at(-1)).toMatchObject({ kind: "look at the hands", setBy: "coach" });
    expect(open.view().film?.items.length).toBe(2);
    const told = ({ document: { revision: _, ...rest }, reading, film, momentWords }: typeof start) => ({
      rest,
      reading,
      film,
      momentWords,
    });
    for (let at = edits.length - 1; at >= 0; at--) {
      expect(open.view().undo).toBe(edits[at]!.label);
      await open.api.undo();
      expect(told(open.view()), `undo ${edits[at]!.label}`).toEqual(told(seen[at]!));
    }
    expect(open.view().undo).toBeNull();
    for (let at = 0; at < edits.length; at++) await open.api.redo();
    expect(told(open.view())).toEqual(told(seen.at(-1)!));
    expect(open.view().redo).toBeNull();
  });

  it("keeps the computed value beside an overruled one, and recomputes", async () => {
    const { drift, counted } = open.view().reading!;
    await made(
      {
        part: "overrides",
        value: [
          { what: "counted", set: { startS: 1200, endS: 4800 }, reason: "traffic before" },
          { what: "first", set: 1500, reason: null },
        ],
        label: "overrule",
      },
      open,
    );
    const { reading } = open.view();
    expect(reading?.counted).toMatchObject({ startS: 1200, endS: 4800, source: "coach" });
    expect(reading?.drift.firstAtS).not.toBe(drift.firstAtS);
    expect(reading?.overrides.find(({ what }) => what === "counted")?.computed).toMatchObject({
      startS: counted.startS,
      endS: counted.endS,
    });
  });

  it("refuses an edit made on an older desk, of another part, or of another form, and changes nothing", async () => {
    const before = JSON.stringify(open.view().document);
    const { edit } = open.view();
    await expect(open.api.edit({ part: "deviceDelayS", value: 2, label: "x" }, edit - 1)).rejects.toMatchObject({
      code: "usage",
    });
    const bad: unknown[] = [
      {
        part: "media",
        value: [{ id: "ride1", kind: "ride", path: "/etc/passwd", bytes: 1, fingerprint: "" }],
        label: "x",
      },
      { part: "athletePath", value: "/etc", label: "x" },
      { part: "revision", value: 9, label: "x" },
      { part: "__proto__", value: {}, label: "x" },
      { part: "plan", value: { ...open.view().document.plan, targetW: "much" }, label: "x" },
      {
        part: "film",
        value: { ...open.view().film!, items: [{ ...open.view().film!.items[0], commentPath: "../../secret.wav" }] },
        label: "x",
      },
    ];
    for (const one of bad) await expect(open.api.edit(one as Edit, edit)).rejects.toMatchObject({ code: "usage" });
    expect(JSON.stringify(open.view().document)).toBe(before);
    expect(existsSync(join(rides, "sunday-debrief"))).toBe(false);
  });

  it("a note whose moment an overrule took away is asked about, goes where the coach says, and comes back by undo", async () => {
    const [first, second] = open.view().reading!.moments.filter(({ kind }) => kind === "lapse");
    const note = {
      kind: "lapse",
      startS: first!.startS,
      endS: first!.endS,
      keep: true,
      span: null,
      name: null,
      note: "x",
    };
    await made({ part: "choices", value: [note], label: "note" }, open);
    const noted = () => open.view().momentChoices.findIndex((one) => one !== null);
    expect(open.view().reading!.moments[noted()]!.startS).toBe(first!.startS);
    const { startS, endS } = first!;
    await made(
      {
        part: "overrides",
        value: [{ what: "break", startS, endS, set: { coach: "lorry" }, reason: null }],
        label: "reason",
      },
      open,
    );
    expect(noted()).toBe(-1);
    expect(open.view().asked).toMatchObject([{ what: "choice", choice: note }]);
    expect(open.view().document.choices).toEqual([note]);
    const to = open.view().reading!.moments.findIndex((one) => one.startS === second!.startS);
    const { edit } = open.view();
    await expect(open.api.settleAsked(0, to, edit - 1)).rejects.toMatchObject({ code: "usage" });
    await expect(open.api.settleAsked(0, 9999, edit)).rejects.toMatchObject({ code: "usage" });
    await open.api.settleAsked(0, to, edit);
    expect(open.view().asked).toEqual([]);
    expect(noted()).toBe(to);
    for (let n = 0; n < 2; n++) await open.api.undo();
    expect(open.view().reading!.moments[noted()]!.startS).toBe(first!.startS);
  });

  /** Keeps a moment as the window does. */
  const kept = (moment: number, keep: boolean | null = true) => {
    const { document, reading, edit } = open.view();
    const { kind, startS, endS } = reading!.moments[moment] ?? { kind: "none", startS: 0, endS: 1 };
    const rest = document.choices.filter((one) => one.kind !== kind || one.startS !== startS);
    const value = [...rest, { kind, startS, endS, keep, span: null, name: null, note: null }];
    return open.api.chooseMoment({ part: "choices", value, label: "keep" }, moment, edit);
  };

  it("picks the film anew for a length, adds a moment, and goes back", async () => {
    await open.api.pickFilm(60);
    expect(open.view().document).toMatchObject({ filmSetBy: "computed", settings: { lengthS: 60 } });
    const items = open.view().film!.items;
    const other = open.view().reading!.moments.findIndex((_, index) => !items.some(({ moment }) => moment === index));
    await kept(other);
    const shown = () => open.view().film!.items.filter(({ moment }) => moment === other).length;
    expect(shown()).toBe(1);
    expect(open.view().film!.items.at(-1)).toMatchObject({ card: { kind: "closing" } });
    await expect(kept(9999)).rejects.toMatchObject({ code: "usage" });
    await open.api.pickFilm(120);
    expect(open.view().document.filmSetBy).toBe("computed");
    await open.api.undo();
    await open.api.undo();
    expect(shown()).toBe(0);
    expect(open.view().film!.items.length).toBe(items.length);
  });

  it("puts a kept moment into the film once, and takes it out when it is no more kept, each by one undo", async () => {
    await open.api.pickFilm(60);
    const parts = (moment: number) => open.view().film!.items.filter((item) => item.moment === moment).length;
    const shown = open.view().film!.items.find((item) => item.moment !== null)!.moment!;
    const other = open.view().reading!.moments.findIndex((_, index) => parts(index) === 0);
    const shownBefore = parts(shown);
    await kept(shown);
    expect(parts(shown)).toBe(shownBefore);
    await kept(other);
    expect(parts(other)).toBe(1);
    await kept(other);
    expect(parts(other)).toBe(1);
    await open.api.undo();
    await open.api.undo();
    expect(parts(other)).toBe(0);
    await open.api.redo();
    await kept(other, null);
    expect(parts(other)).toBe(0);
    await kept(other);
    await kept(other, false);
    expect(parts(other)).toBe(0);
  });

  it("says which parts of the coach's film teach a break that has a reason now", async () => {
    const { reading, film } = open.view();
    const lapse = reading!.moments.findIndex(({ kind }) => kind === "lapse");
    await made({ part: "film", value: film!, label: "mine" }, open);
    await kept(lapse);
    // In the coach's own words: a card of the program's goes by itself once there is nothing to teach.
    const mine = open.view().film!;
    const items = mine.items.map((item) =>
      item.type === "card" && item.moment === lapse ? { ...item, card: { ...item.card, title: "Look here" } } : item,
    );
    await made({ part: "film", value: { ...mine, items }, label: "words" }, open);
    expect(open.view().excusedParts).toEqual([]);
    const taught = open.view().film!.items.find(({ moment }) => moment === lapse)!;
    const { startS, endS } = reading!.breaks.find(
      (one) => one.lapse && one.startS < reading!.moments[lapse]!.endS && one.endS > reading!.moments[lapse]!.startS,
    )!;
    await made(
      {
        part: "overrides",
        value: [{ what: "break", startS, endS, set: { coach: "a level crossing" }, reason: null }],
        label: "reason",
      },
      open,
    );
    expect(open.view().excusedParts).toContainEqual({
      itemId: taught.id,
      breakStartS: startS,
      reason: { coach: "a level crossing" },
    });
    // Another break's reason says nothing about this part.
    await open.api.undo();
    expect(open.view().excusedParts).toEqual([]);
  });

  it("keeps a spoken comment of one part, taken anew or removed alone", async () => {
    const [first, second] = open.view().film!.items;
    await open.api.setComment(first!.id, wav(1));
    await open.api.setComment(second!.id, wav(2));
    const taken = open.view().film!.items[0]!.commentPath!;
    await open.api.setComment(first!.id, wav(3));
    const [now, other] = open.view().film!.items;
    expect(now!.commentS).toBeCloseTo(1.5, 2);
    expect(now!.commentPath).not.toBe(taken);
    expect(other!.commentPath).toMatch(/^comments\//);
    for (const path of [now!.commentPath!, taken]) expect(existsSync(join(open.view().folder, path)), path).toBe(true);
    await open.api.setComment(first!.id, null);
    expect(
      open
        .view()
        .film!.items.slice(0, 2)
        .map(({ commentPath }) => commentPath === null),
    ).toEqual([true, false]);
    await open.api.undo();
    expect(open.view().film!.items[0]!.commentPath).toBe(now!.commentPath);
    await expect(open.api.setComment(first!.id, Buffer.from("text").toString("base64"))).rejects.toMatchObject({
      code: "usage",
    });
    await expect(open.api.setComment("nothing", wav(1))).rejects.toMatchObject({ code: "usage" });
  });

  it("keeps what was spoken while skimming at its instant, in the film that follows and in the coach's own", async () => {
    const before = open.view().film!.items.length;
    const partAt = (atS: number) =>
      open.view().film!.items.find(({ momentKey }) => momentKey?.kind === "ownMoment" && momentKey.startS === atS);
    await open.api.speakAt(900.04, wav(2));
    expect(open.view().document).toMatchObject({
      filmSetBy: "computed",
      ownMoments: [{ startS: 900, endS: 908, setBy: "coach", comment: { lengthS: 1 } }],
    });
    expect(partAt(900)).toMatchObject({ commentS: 1 });
    expect(existsSync(join(open.view().folder, partAt(900)!.commentPath!))).toBe(true);
    expect(open.view().momentWords.at(-1)).toContain("your spoken comment");
    // Picked anew, the film still carries it.
    await open.api.pickFilm(120);
    expect(partAt(900)?.commentPath).toMatch(/^comments\/spoken-900/);
    await open.api.undo();
    // One step takes it back, from the film too.
    await open.api.undo();
    expect(partAt(900)).toBeUndefined();
    expect(open.view().film!.items.length).toBe(before);
    await open.api.redo();
    // In a film of the coach's own it is one part more.
    const film = open.view().film!;
    await open.api.edit({ part: "film", value: film, label: "mine" }, open.view().edit);
    await open.api.speakAt(1500, wav(1));
    expect(open.view().document.filmSetBy).toBe("coach");
    expect(open.view().film!.items.length).toBe(film.items.length + 1);
    expect(partAt(1500)).toMatchObject({ commentS: 0.5 });
    await expect(open.api.speakAt(-3, wav(1))).rejects.toMatchObject({ code: "usage" });
    await expect(open.api.speakAt(900, Buffer.from("text").toString("base64"))).rejects.toMatchObject({
      code: "usage",
    });
    // A sound file elsewhere is never taken from the window.
    const outside = { ...open.view().document.ownMoments[0]!, comment: { path: "../other.wav", lengthS: 1 } };
    await expect(
      open.api.edit({ part: "ownMoments", value: [outside], label: "x" }, open.view().edit),
    ).rejects.toMatchObject({ code: "usage" });
  });
});
