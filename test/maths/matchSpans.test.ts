import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type FoundSpan, matchSpans } from "../../main/maths/matchSpans.ts";

const span = (startS: number, endS: number, kind = "lapse"): FoundSpan => ({ kind, startS, endS });

/** What became of one moment: moved, cut in two, joined with the next of its kind, gone. */
interface Fate {
  readonly what: "stays" | "moves" | "is cut" | "joins the next" | "goes";
  readonly shiftS: number;
  readonly cutAt: number;
  readonly gapS: number;
}

const fate = (...whats: Fate["what"][]): fc.Arbitrary<Fate> =>
  fc.record({
    what: fc.constantFrom(...whats),
    shiftS: fc.integer({ min: -6, max: 6 }),
    cutAt: fc.double({ min: 0.1, max: 0.9, noNaN: true }),
    gapS: fc.integer({ min: 1, max: 10 }),
  });

/** Moments of one kind lie more than 15 s apart (the reading joins nearer ones); kinds cross as they like. */
function ride(...whats: Fate["what"][]) {
  const one = fc.record({ afterS: fc.integer({ min: 16, max: 90 }), lengthS: fc.integer({ min: 2, max: 120 }) });
  const told = fc.array(fc.tuple(one, fate(...whats)), { minLength: 1, maxLength: 8 });
  return fc.tuple(told, told).map((kinds) => {
    const before: FoundSpan[] = [];
    const now: FoundSpan[] = [];
    /** For each moment of before the indices of what is made of it. */
    const truth: number[][] = [];
    kinds.forEach((list, which) => {
      const kind = which === 0 ? "lapse" : "turn";
      let endS = 200;
      let open: { startS: number; of: number[] } | null = null;
      list.forEach(([{ afterS, lengthS }, { what, shiftS, cutAt, gapS }], nth) => {
        const startS = endS + afterS;
        endS = startS + lengthS;
        const at = before.push(span(startS, endS, kind)) - 1;
        truth.push([]);
        const put = (fromS: number, toS: number, of: number[]): void => {
          const index = now.push(span(fromS, toS, kind)) - 1;
          for (const each of of) truth[each]!.push(index);
        };
        if (what === "joins the next" && nth < list.length - 1) {
          open = { startS: open?.startS ?? startS, of: [...(open?.of ?? []), at] };
        } else if (open !== null) {
          put(open.startS, endS, [...open.of, at]);
          open = null;
        } else if (what === "is cut" && lengthS > gapS + 4) {
          const firstEndS = startS + Math.max(1, Math.round(cutAt * (lengthS - gapS - 2)));
          put(startS + shiftS, firstEndS + shiftS, [at]);
          put(firstEndS + gapS + shiftS, endS + shiftS, [at]);
        } else if (what !== "goes") {
          const byS = what === "moves" ? shiftS : 0;
          put(startS + byS, endS + byS, [at]);
        }
      });
    });
    return { before, now, truth };
  });
}

describe("spans that are known again", () => {
  test("moved, cut, joined or gone by seconds: each stays with its own or is asked about, never another's", () => {
    fc.assert(
      fc.property(ride("stays", "moves", "is cut", "joins the next", "goes"), ({ before, now, truth }) => {
        const matches = matchSpans(before, now);
        const sures = matches.flatMap(({ sure }) => sure ?? []);
        expect(new Set(sures).size).toBe(sures.length);
        matches.forEach(({ sure, among }, at) => {
          if (sure !== null) expect(truth[at]).toContain(sure);
          else if (truth[at]!.length > 0) expect(among.some((index) => truth[at]!.includes(index))).toBe(true);
        });
      }),
      { seed: 25, numRuns: 1000 },
    );
  });

  test("the same with only starts known, as old files hold them", () => {
    fc.assert(
      fc.property(ride("stays", "moves", "is cut", "goes"), ({ before, now, truth }) => {
        matchSpans(
          before.map((one) => ({ ...one, endS: null })),
          now,
        ).forEach(({ sure }, at) => sure !== null && expect(truth[at]).toContain(sure));
      }),
      { seed: 26, numRuns: 1000 },
    );
  });

  test("nothing is asked about what stayed or only moved by up to 6 s", () => {
    fc.assert(
      fc.property(ride("stays", "moves"), ({ before, now, truth }) => {
        expect(matchSpans(before, now).map(({ sure }) => [sure])).toEqual(truth);
      }),
      { seed: 27, numRuns: 1000 },
    );
  });

  test("cut in halves is asked about, with both parts; a small part cut off is not", () => {
    expect(matchSpans([span(100, 160)], [span(100, 128), span(132, 160)])).toEqual([{ sure: null, among: [0, 1] }]);
    expect(matchSpans([span(100, 160)], [span(100, 150), span(155, 160)])[0]!.sure).toBe(0);
    expect(matchSpans([span(100, 160)], [span(100, 112)])[0]!.sure).toBe(0);
  });

  test("of two that were joined the larger part is known again, the other asked about", () => {
    expect(matchSpans([span(100, 112), span(128, 190)], [span(100, 190)])).toEqual([
      { sure: null, among: [0] },
      { sure: 0, among: [] },
    ]);
    expect(matchSpans([span(100, 110), span(126, 136)], [span(100, 136)]).map(({ sure }) => sure)).toEqual([
      null,
      null,
    ]);
  });

  test("what is gone does not become its neighbour, and names one of another kind in its place", () => {
    expect(matchSpans([span(100, 110)], [span(140, 150)])).toEqual([{ sure: null, among: [0] }]);
    expect(matchSpans([span(100, 110)], [span(400, 410), span(90, 300, "breakRun")])).toEqual([
      { sure: null, among: [1] },
    ]);
    expect(matchSpans([span(100, 110)], [])).toEqual([{ sure: null, among: [] }]);
  });
});
