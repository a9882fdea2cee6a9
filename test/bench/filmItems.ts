import type { Clip } from "../../main/contract/footage.ts";
import type { Film } from "../../main/contract/film.ts";
import { shotOf } from "../render/filmFixtures.ts";

/** Length of the film, frames at 30000/1001 a second. */
const FILM_FRAMES = 3600;
const CARD_FRAMES = 90;

/** Frames of footage and of cards in a film with so many shots, each with a card before it. */
export function filmLengths(shots: number): { readonly shotFrames: number; readonly cardFrames: number } {
  return { shotFrames: FILM_FRAMES - shots * CARD_FRAMES, cardFrames: shots * CARD_FRAMES };
}

/** Shots from all over a clip, not in its order, each after a card. */
export function filmItems(clip: Clip, shots: number): Film["items"] {
  const frameS = 1001 / 30000;
  const length = Math.round(filmLengths(shots).shotFrames / shots);
  const stepS = (clip.durationS - 30) / shots;
  return Array.from({ length: shots }, (_, k) => {
    const startS = Math.round((((k * 5) % shots) * stepS + 3.3) / frameS) * frameS;
    return [
      {
        type: "card" as const,
        id: `k${k}`,
        durationS: CARD_FRAMES * frameS,
        card: { kind: "note" as const, title: `Part ${k + 1}`, lines: ["Held through the climb."] },
        moment: null,
        why: "",
        commentPath: null,
        crossfadeS: 0,
      },
      shotOf(clip, startS, startS + length * frameS),
    ];
  }).flat();
}
