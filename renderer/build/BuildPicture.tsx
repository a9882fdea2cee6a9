import type { CSSProperties, RefObject } from "react";
import type { WindowColumns } from "../../main/contract/columnBytes.ts";
import type { FailureData } from "../../main/contract/failure.ts";
import type { Film, FilmItem } from "../../main/contract/film.ts";
import type { Framing } from "../framing/useFraming.tsx";
import { Button } from "../look/Button.tsx";
import { FailureNote } from "../look/FailureNote.tsx";
import type { Calls } from "../look/useCalls.ts";
import { build as words } from "../words/build.ts";
import { FilmPicture } from "./FilmPicture.tsx";
import type { FilmPlace } from "./filmPlayhead.ts";
import type { FilmStageHandle } from "./FilmStage.tsx";
import { StageTools } from "./StageTools.tsx";
import type { useCaptionTyping } from "./useCaptionTyping.tsx";
import type { useDrawing } from "./useDrawing.tsx";
import type { LargeView } from "./useLargeView.ts";

interface Props {
  readonly film: Film;
  readonly columns: WindowColumns | null;
  readonly stage: RefObject<FilmStageHandle | null>;
  readonly clock: RefObject<HTMLSpanElement | null>;
  readonly item: FilmItem;
  readonly locked: boolean;
  readonly view: LargeView;
  readonly drawing: ReturnType<typeof useDrawing>;
  readonly framing: Framing;
  readonly caption: ReturnType<typeof useCaptionTyping>;
  readonly failure: FailureData | null;
  readonly playing: boolean;
  readonly onPlace: (place: FilmPlace) => void;
  readonly onPlaying: (playing: boolean) => void;
  readonly onCall: Calls["call"];
  readonly onPlayOrStop: () => void;
  readonly onStep: (frames: number) => void;
  readonly onNext: () => void;
}

/** The film's picture as large as it can be, and below it what plays it and what is written and drawn on it with. */
export function BuildPicture(props: Props) {
  const { film, item, locked, view, drawing, caption, failure } = props;
  return (
    <section
      ref={view.section}
      className="build-picture"
      aria-label={words.preview}
      style={{ "--film-aspect": `${film.widthPx / film.heightPx}` } as CSSProperties}
    >
      <FilmPicture {...props}>{caption.layer}</FilmPicture>
      {failure !== null && <FailureNote failure={failure} />}
      <StageTools {...props} large={view.large} onLarge={view.onLarge} onFullScreen={view.onFullScreen}>
        <Button
          title="C"
          aria-keyshortcuts="c"
          disabled={locked || item.type === "card"}
          onClick={() => caption.begin(null)}
        >
          {words.captionTool}
        </Button>
        {drawing.tools}
      </StageTools>
    </section>
  );
}
