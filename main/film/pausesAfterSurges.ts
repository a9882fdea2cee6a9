import type { Break, Reading, Surge } from "../contract/reading.ts";

/** A pause that begins so soon after a surge belongs to it, s. Own choice. */
const AFTER_S = 15;
/** And is worth a word from so long on, s. */
const PAUSE_S = 5;

/** Surges with the pause that each brought with it: what follows a hard effort is its price, no fault of its own. */
export function pausesAfterSurges({
  surges,
  breaks,
}: Pick<Reading, "surges" | "breaks">): { readonly surge: Surge; readonly pause: Break }[] {
  return surges.flatMap((surge) => {
    const pause = breaks.find(
      (one) =>
        one.excused !== true &&
        one.endS - one.startS >= PAUSE_S &&
        one.startS >= surge.endS - 3 &&
        one.startS - surge.endS <= AFTER_S,
    );
    return pause === undefined ? [] : [{ surge, pause }];
  });
}
