import type { ReactNode, Ref } from "react";
import type { FilmItem } from "../../main/contract/film.ts";
import { Button } from "../look/Button.tsx";
import { build as words } from "../words/build.ts";
import { player as playerWords } from "../words/player.ts";

interface Props {
  readonly item: FilmItem;
  readonly playing: boolean;
  readonly large: boolean;
  readonly clock: Ref<HTMLSpanElement>;
  /** What is drawn and written on the picture with. */
  readonly children: ReactNode;
  readonly onPlayOrStop: () => void;
  readonly onStep: (frames: number) => void;
  readonly onLarge: () => void;
  readonly onFullScreen: () => void;
  readonly onNext: () => void;
}

/** Below the film's picture: play, where it stands, single frames, larger, on to the next step; and the tools of the picture. */
export function StageTools(props: Props) {
  const { item, playing, large, clock, children, onPlayOrStop, onStep, onLarge, onFullScreen, onNext } = props;
  const card = item.type === "card";
  return (
    <div className="build-tools">
      <div className="row">
        <Button kind="main" keys=" " onClick={onPlayOrStop}>
          {playing ? words.stop : words.play}
        </Button>
        <span ref={clock} className="figure build-clock" />
        <Button kind="bare" keys="ArrowLeft" disabled={card} onClick={() => onStep(-1)}>
          {playerWords.frameBack}
        </Button>
        <Button kind="bare" keys="ArrowRight" disabled={card} onClick={() => onStep(1)}>
          {playerWords.frameOn}
        </Button>
        <Button kind="main" keys="Ctrl+Enter" className="build-next" onClick={onNext}>
          {words.handover}
        </Button>
      </div>
      <div className="row build-draw">
        {children}
        <div className="row build-views">
          <Button kind="bare" keys="v" aria-pressed={large} onClick={onLarge}>
            {words.larger}
          </Button>
          <Button kind="bare" keys="Shift+v" onClick={onFullScreen}>
            {words.fullScreen}
          </Button>
        </div>
      </div>
    </div>
  );
}
