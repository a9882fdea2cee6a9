import type { Ref } from "react";
import type { DebriefDocument } from "../../main/contract/debrief.ts";
import type { FilmItem } from "../../main/contract/film.ts";
import type { FilmLook } from "../../main/contract/filmLook.ts";
import { Button } from "../look/Button.tsx";
import { build as words } from "../words/build.ts";
import { player as playerWords } from "../words/player.ts";
import { LookForm } from "./LookForm.tsx";

interface ToolsProps {
  readonly item: FilmItem;
  readonly playing: boolean;
  readonly clock: Ref<HTMLSpanElement>;
  readonly onPlayOrStop: () => void;
  readonly onStep: (frames: number) => void;
  readonly onNext: () => void;
}

/** Below the film's picture: play, where it stands, single frames, on to the next step. */
export function StageTools({ item, playing, clock, onPlayOrStop, onStep, onNext }: ToolsProps) {
  return (
    <div className="row apart">
      <div className="row">
        <Button kind="main" keys=" " onClick={onPlayOrStop}>
          {playing ? words.stop : words.play}
        </Button>
        <span ref={clock} className="figure" />
      </div>
      {item.type === "shot" && (
        <div className="row build-frames">
          <Button kind="bare" keys="ArrowLeft" onClick={() => onStep(-1)}>
            {playerWords.frameBack}
          </Button>
          <Button kind="bare" keys="ArrowRight" onClick={() => onStep(1)}>
            {playerWords.frameOn}
          </Button>
        </div>
      )}
      <Button kind="main" keys="Ctrl+Enter" onClick={onNext}>
        {words.handover}
      </Button>
    </div>
  );
}

interface WhyProps {
  readonly item: FilmItem;
  readonly document: DebriefDocument;
  readonly locked: boolean;
  readonly onLook: (value: Partial<FilmLook>, label: string) => void;
}

/** Why the part is in the film, and how the numbers look on it. */
export function WhyAndLook({ item, document: written, locked, onLook }: WhyProps) {
  return (
    <>
      <details open>
        <summary>{words.why}</summary>
        <p className="small quiet">{item.why}</p>
      </details>
      <details>
        <summary>{words.look}</summary>
        <LookForm look={written.settings.look ?? {}} planUnits={written.plan.units} locked={locked} onChange={onLook} />
      </details>
    </>
  );
}
