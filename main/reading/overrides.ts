import type {
  AppliedOverride,
  Break,
  BreakOverride,
  BreakReason,
  Override,
  UnsureOverride,
  ValueOverride,
} from "../contract/reading.ts";
import type { Plan } from "../contract/plan.ts";
import type { Span } from "../contract/ride.ts";
import { matchSpans } from "../maths/matchSpans.ts";
import { judgedBreak } from "./pressure/breaks.ts";
import { lengthS, sharedS } from "./spans.ts";
import { note, type Note } from "../contract/notice.ts";

/** What the coach overruled, sorted by what it is about; of two about the same thing the later one holds. */
export interface SortedOverrides {
  readonly counted: Span | null;
  readonly firstAtS: number | null;
  readonly lastAtS: number | null;
  /** `undefined`: not overruled; null: the coach says that there is none. */
  readonly onsetS: number | null | undefined;
  /** Those that the four above are from, one of each. */
  readonly values: readonly ValueOverride[];
  readonly breaks: readonly BreakOverride[];
  readonly warnings: readonly Note[];
}

/** Sorts the coach's overrides; one that can't be used is named in the warnings and left out, never half applied. */
export function sortOverrides(overrides: readonly Override[]): SortedOverrides {
  const values = new Map<ValueOverride["what"], ValueOverride>();
  const breaks: BreakOverride[] = [];
  const warnings: Note[] = [];
  for (const override of overrides) {
    if (override.what === "break") breaks.push(override);
    else if (override.what === "counted" && !(override.set.endS > override.set.startS))
      warnings.push(note("override-without-time", { what: "counted" }));
    else values.set(override.what, override);
  }
  const setOf = <What extends ValueOverride["what"]>(what: What) =>
    values.get(what)?.set as Extract<ValueOverride, { readonly what: What }>["set"] | undefined;
  return {
    counted: setOf("counted") ?? null,
    firstAtS: setOf("first") ?? null,
    lastAtS: setOf("last") ?? null,
    onsetS: setOf("onset"),
    values: [...values.values()],
    breaks,
    warnings,
  };
}

/** A break of which an override covers so much is what the coach spoke of, or a part of it. Own choice. */
const COVERED_SHARE = 0.5;

/** Indices of the breaks an override is about, by its span alone: none, one, or the parts into which it was cut. */
function coveredBy(override: BreakOverride, breaks: readonly Break[]): number[] {
  const { startS, endS } = override;
  return breaks.flatMap((one, index) => {
    const covered =
      endS === null
        ? startS >= one.startS && startS < one.endS
        : sharedS({ startS, endS }, one) >= COVERED_SHARE * lengthS(one);
    return covered ? [index] : [];
  });
}

/** How much of two spans together they share, 0 to 1; an override without an end names the whole break it starts in: 1. */
function alike({ startS, endS }: BreakOverride, one: Break): number {
  if (endS === null) return 1;
  const shared = sharedS({ startS, endS }, one);
  return shared / (endS - startS + lengthS(one) - shared);
}

/** The override of each break, by index; those that cover none are matched by times that moved. */
function overrideOfEach(
  overrides: readonly BreakOverride[],
  breaks: readonly Break[],
): { readonly of: ReadonlyMap<number, BreakOverride>; readonly unsure: readonly UnsureOverride[] } {
  const of = new Map<number, BreakOverride>();
  const uncovering: BreakOverride[] = [];
  for (const override of overrides) {
    const covered = coveredBy(override, breaks);
    if (covered.length === 0) uncovering.push(override);
    for (const index of covered) {
      const before = of.get(index);
      // The one that fits the break best; of two that fit alike the later.
      if (before === undefined || alike(override, breaks[index]) >= alike(before, breaks[index]))
        of.set(index, override);
    }
  }
  const asFound = breaks.map(({ startS, endS }, index) => ({
    kind: of.has(index) ? "overruled" : "break",
    startS,
    endS,
  }));
  const unsure: UnsureOverride[] = [];
  matchSpans(
    uncovering.map(({ startS, endS }) => ({ kind: "break", startS, endS })),
    asFound,
  ).forEach(({ sure, among }, at) => {
    const override = uncovering[at];
    // A short break's reason does not stand for a long one that it became part of.
    const fits =
      sure !== null && (override.endS === null || lengthS(breaks[sure]) <= 2 * (override.endS - override.startS));
    if (fits) of.set(sure, override);
    else unsure.push({ override, among: sure === null ? among : [sure] });
  });
  return { of, unsure };
}

/**
 * Breaks with the coach's reasons in place of the computed ones. A reason in the coach's own words excuses the break; one
 * of the program's own reasons means what it always means. A break that was cut since takes it in each of its parts.
 */
export function applyBreakOverrides(
  plan: Plan,
  breaks: readonly Break[],
  sorted: SortedOverrides,
): { breaks: Break[]; applied: AppliedOverride[]; unsure: readonly UnsureOverride[] } {
  const { of, unsure } = overrideOfEach(sorted.breaks, breaks);
  const result = breaks.map((one, index) => {
    const override = of.get(index);
    return override === undefined ? one : judgedBreak(plan, one, override.set, "coach");
  });
  const applied = [...of].map(([index, override]): AppliedOverride => {
    const { startS, endS, reason } = breaks[index];
    return { ...override, computed: reason, at: { startS, endS } };
  });
  return { breaks: result, applied, unsure };
}

/** A break's reason as one text: the program's own code, or the coach's words. */
export function reasonText(reason: BreakReason): string {
  return typeof reason === "string" ? reason : reason.coach;
}
