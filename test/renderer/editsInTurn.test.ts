// Edits of the window that cross each other: made on what the other left, or refused.
import { describe, expect, it } from "vitest";
import type { DebriefDocument, Edit } from "../../main/contract/debrief.ts";
import { turns } from "../../renderer/desk/inTurn.ts";
import { rebased } from "../../renderer/desk/rebased.ts";

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
      // oxlint-disable-next-line typescript/only-throw-error -- what crosses the wire is data
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
