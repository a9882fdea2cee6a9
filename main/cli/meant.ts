import { closestMatch } from "leven";

/** Two letters wrong, missing or changed about: more is another word. */
const MOST_EDITS = 2;

/** The known word that a mistyped one stands for, or null: at most two edits away, and of a longer word less than half. */
export function meant(text: string, known: readonly string[]): string | null {
  const near = closestMatch(text, known, { maxDistance: MOST_EDITS });
  return near !== undefined && text.length > 2 * MOST_EDITS - 1 ? near : null;
}
