import { useKeys } from "../look/keys.ts";
import { build as words } from "../words/build.ts";
import { player as playerWords } from "../words/player.ts";
import type { LargeView } from "./useLargeView.ts";
import type { Parts } from "./useParts.ts";

interface Given {
  readonly parts: Parts;
  readonly locked: boolean;
  readonly view: LargeView;
  /** A drawing is chosen and being moved. */
  readonly drawing: boolean;
  readonly onPlayOrStop: () => void;
  readonly onStep: (frames: number) => void;
  readonly onNext: () => void;
}

/** The keys of Build as a whole; those of the open part are its form's. */
export function useBuildKeys(given: Given): void {
  const { parts, locked, view, drawing, onPlayOrStop, onStep, onNext } = given;
  const { chosen, clip, choose, move, remove } = parts;
  const secondFrames = clip === undefined ? 0 : Math.round(clip.frames / clip.durationS);
  useKeys(words.title, [
    { keys: " ", words: words.playKey, run: onPlayOrStop },
    // While a drawing is moved, the arrows are its own.
    ...(drawing
      ? []
      : [
          { keys: "Home", words: words.first, run: () => choose(0) },
          { keys: "ArrowUp", words: words.previous, run: () => choose(chosen - 1) },
          { keys: "ArrowDown", words: words.next, run: () => choose(chosen + 1) },
          { keys: "ArrowLeft", words: playerWords.frameBack, run: () => onStep(-1) },
          { keys: "ArrowRight", words: playerWords.frameOn, run: () => onStep(1) },
          { keys: "Shift+ArrowLeft", words: playerWords.backBy.second, run: () => onStep(-secondFrames) },
          { keys: "Shift+ArrowRight", words: playerWords.onBy.second, run: () => onStep(secondFrames) },
        ]),
    { keys: "v", words: view.large ? words.smaller : words.larger, run: view.onLarge },
    { keys: "Shift+v", words: words.fullScreen, run: view.onFullScreen },
    ...(view.large ? [{ keys: "Escape", words: words.smaller, run: view.onLarge }] : []),
    ...(locked
      ? []
      : [
          { keys: "Alt+ArrowUp", words: words.earlier, run: () => move(chosen, chosen - 1) },
          { keys: "Alt+ArrowDown", words: words.later, run: () => move(chosen, chosen + 1) },
          { keys: "Delete", words: words.remove, run: remove },
        ]),
    { keys: "Ctrl+Enter", words: words.handover, run: onNext, inFields: true },
  ]);
}
