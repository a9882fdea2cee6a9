import type { AppliedOverride, Break, BreakReason, Override } from "../contract/reading.ts";
import type { Plan } from "../contract/plan.ts";
import type { Span } from "../contract/ride.ts";
import { judgedBreak } from "./pressure/breaks.ts";

/** What the coach overruled, sorted by what it is about; of two about the same thing the later one holds. */
export interface SortedOverrides {
  readonly counted: Span | null;
  readonly firstAtS: number | null;
  readonly lastAtS: number | null;
  /** `undefined`: not overruled; null: the coach says that there is none. */
  readonly onsetS: number | null | undefined;
  readonly breaks: readonly { readonly atS: number; readonly reason: string; readonly override: Override }[];
  readonly warnings: readonly string[];
}

const reasonNames: readonly string[] = [
  "stopped",
  "corner",
  "braking",
  "steep descent",
  "slowed, cause not in the data",
  "unexplained",
  "cannot tell",
] satisfies BreakReason[];

function isSpan(value: Override["set"]): value is Span {
  return (
    typeof value === "object" &&
    value !== null &&
    Number.isFinite(value.startS) &&
    Number.isFinite(value.endS) &&
    value.endS > value.startS
  );
}

/** Middle of a time or a span that was set; null where it is neither. */
function middleOf(value: Override["set"]): number | null {
  if (typeof value === "number" && Number.isFinite(value)) return value;
  return isSpan(value) ? (value.startS + value.endS) / 2 : null;
}

/** Sorts the coach's overrides; one that can't be used is named in the warnings and left out, never half applied. */
export function sortOverrides(overrides: readonly Override[]): SortedOverrides {
  let counted: Span | null = null;
  let firstAtS: number | null = null;
  let lastAtS: number | null = null;
  let onsetS: number | null | undefined;
  const breaks: SortedOverrides["breaks"][number][] = [];
  const warnings: string[] = [];
  for (const override of overrides) {
    const { what, set } = override;
    const unusable = () => warnings.push(`The coach's "${what}" can't be used: it holds no time that this ride has.`);
    if (what === "counted") {
      if (isSpan(set)) counted = set;
      else unusable();
    } else if (what === "first" || what === "last") {
      const atS = middleOf(set);
      if (atS === null) unusable();
      else if (what === "first") firstAtS = atS;
      else lastAtS = atS;
    } else if (what === "onset") {
      if (set === null) onsetS = null;
      else if (middleOf(set) === null) unusable();
      else onsetS = middleOf(set);
    } else if (/^break@\d+(\.\d+)?$/.test(what)) {
      if (typeof set === "string" && set.trim() !== "")
        breaks.push({ atS: Number(what.slice(6)), reason: set.trim(), override });
      else unusable();
    } else {
      warnings.push(`The coach's "${what}" is nothing that can be overruled.`);
    }
  }
  return { counted, firstAtS, lastAtS, onsetS, breaks, warnings };
}

/**
 * Breaks with the coach's reasons in place of the computed ones. A reason in the coach's own words excuses the break; one
 * of the program's own reasons means what it always means.
 */
export function applyBreakOverrides(
  plan: Plan,
  breaks: readonly Break[],
  sorted: SortedOverrides,
): { breaks: Break[]; applied: AppliedOverride[]; warnings: string[] } {
  const result = [...breaks];
  const applied: AppliedOverride[] = [];
  const warnings: string[] = [];
  for (const { atS, reason, override } of sorted.breaks) {
    // A break may have moved by a second or two since the coach saw it.
    const index = result.findIndex((one) => atS >= one.startS - 2 && atS < one.endS);
    const old = result[index];
    const computed = breaks[index];
    if (!old || !computed) {
      warnings.push(`The coach's "${override.what}" names a break that is not there now.`);
      continue;
    }
    const meant: BreakReason = reasonNames.includes(reason) ? (reason as BreakReason) : { coach: reason };
    result[index] = judgedBreak(plan, old, meant, "coach");
    applied.push({ ...override, computed: reasonText(computed.reason) });
  }
  return { breaks: result, applied, warnings };
}

/** A break's reason as one text: the program's own code, or the coach's words. */
export function reasonText(reason: BreakReason): string {
  return typeof reason === "string" ? reason : reason.coach;
}
