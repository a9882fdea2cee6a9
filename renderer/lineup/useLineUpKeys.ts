import { useKeys } from "../look/keys.ts";
import { lineup as words } from "../words/lineup.ts";
import { MOVES } from "./Nudge.tsx";
import type { LookedAt } from "./useLookedAt.ts";
import type { Placing } from "./usePlacing.ts";

interface Given {
  readonly placing: Placing;
  readonly looked: LookedAt;
  readonly onClip: (step: number) => void;
  readonly onAnchor: () => void;
  readonly onZoom: (by: 1 | -1) => void;
  readonly onNext: () => void;
}

/** The keys of Line up; those of the picture are the transport's. */
export function useLineUpKeys({ placing, looked, onClip, onAnchor, onZoom, onNext }: Given): void {
  const { moveBy, agree, glance } = placing;
  useKeys(words.title, [
    { keys: "n", words: words.keys.nextClip, run: () => onClip(1) },
    { keys: "p", words: words.keys.previousClip, run: () => onClip(-1) },
    ...MOVES.flatMap(({ how, byS, less, more }) => [
      { keys: less, words: words.earlier[how], run: () => moveBy(-(byS ?? looked.frameS), how) },
      { keys: more, words: words.later[how], run: () => moveBy(byS ?? looked.frameS, how) },
    ]),
    { keys: "a", words: words.keys.anchor, run: onAnchor },
    ...(glance.places.length === 0 ? [] : [{ keys: "g", words: words.keys.nextPlace, run: glance.goToNext }]),
    { keys: "y", words: words.keys.agree, run: agree },
    { keys: "+", words: words.zoomIn, run: () => onZoom(1) },
    { keys: "-", words: words.zoomOut, run: () => onZoom(-1) },
    { keys: "Ctrl+Enter", words: words.next, run: onNext, inFields: true },
  ]);
}
