import type { Film } from "../contract/film.ts";
import type { Part } from "./planParts.ts";

/** What a part costs beside its frames: starting, and the encoder's own beginning and end. Measured, on one encoder. */
const PART_WORK = 10;
/** What a frame of a card costs beside one of footage: it stands still. Measured, on one encoder. */
const CARD_WORK = 0.3;
/** What each frame costs that is read and not shown. */
const READ_WORK = 0.25;
/** So fast, keyframes alone are read. */
const READS_AT_MOST = 15;

/** How much work a part is, in frames of footage at the speed of life, for the time that is left. */
export function partWork(part: Part, film: Film): number {
  return part.pieces.reduce((sum, { item, frames }) => {
    const one = film.items[item]!;
    if (one.type === "card") return sum + (one.card.kind === "pair" ? 1 : CARD_WORK) * frames;
    return sum + frames * (1 + READ_WORK * Math.max(0, Math.min(one.speed, READS_AT_MOST) - 1));
  }, PART_WORK);
}
