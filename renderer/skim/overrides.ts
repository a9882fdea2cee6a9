import type { AppliedOverride, Break, BreakOverride, Override, ValueOverride } from "../../main/contract/reading.ts";

/** Overrides with one set; of one thing there is one. */
export function withOverride(overrides: readonly Override[], next: Override): readonly Override[] {
  return [...withoutOverride(overrides, next), next];
}

/** Overrides without the one about a thing: the computed value holds again. */
export function withoutOverride(
  overrides: readonly Override[],
  gone: Pick<ValueOverride, "what"> | Pick<BreakOverride, "what" | "startS" | "endS">,
): readonly Override[] {
  return overrides.filter((one) =>
    one.what === "break" && gone.what === "break"
      ? one.startS !== gone.startS || one.endS !== gone.endS
      : one.what !== gone.what,
  );
}

/** The override of a value with what had been computed; null: the computed value holds. */
export function overrideOf<What extends ValueOverride["what"]>(
  overrides: readonly AppliedOverride[],
  what: What,
): Extract<AppliedOverride, { readonly what: What }> | null {
  const found = overrides.find((one) => one.what === what);
  return (found as Extract<AppliedOverride, { readonly what: What }> | undefined) ?? null;
}

/** The reason that a coach gave a break, with the computed one; null: the computed one holds. */
export function overrideOfBreak(
  overrides: readonly AppliedOverride[],
  { startS }: Break,
): Extract<AppliedOverride, { readonly what: "break" }> | null {
  for (const one of overrides) if (one.what === "break" && one.at.startS === startS) return one;
  return null;
}
