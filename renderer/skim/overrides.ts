import type { AppliedOverride, Override } from "../../main/contract/reading.ts";

/** Overrides with one set; of one thing there is one. */
export function withOverride(overrides: readonly Override[], next: Override): readonly Override[] {
  return [...withoutOverride(overrides, next.what), next];
}

/** Overrides without the one about a thing: the computed value holds again. */
export function withoutOverride(overrides: readonly Override[], what: string): readonly Override[] {
  return overrides.filter((one) => !sameThing(one.what, what));
}

/** The override about a thing with what had been computed; null: the computed value holds. */
export function overrideOf(overrides: readonly AppliedOverride[], what: string): AppliedOverride | null {
  return overrides.find((one) => sameThing(one.what, what)) ?? null;
}

/** A break is known again by its start, which may have moved by a second or two. */
function sameThing(one: string, other: string): boolean {
  if (one === other) return true;
  if (!one.startsWith("break@") || !other.startsWith("break@")) return false;
  return Math.abs(Number(one.slice(6)) - Number(other.slice(6))) <= 2;
}
