import { type ReactNode, type RefObject, useEffect, useState } from "react";
import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { Film, FilmItem, Shot } from "../../main/contract/film.ts";
import type { Theme } from "../../overlay/theme.ts";
import { useKeys } from "../look/keys.ts";
import { framing as words } from "../words/framing.ts";
import { CloseUpForm } from "./CloseUpForm.tsx";
import { CoversForm } from "./CoversForm.tsx";
import { type Aspects, type FramingTool, type Work, withBoxPut } from "./boxes.ts";
import { FrameLayer } from "./FrameLayer.tsx";
import { grownBox, type KeyedClip, movedBox, zoomed } from "./framingEdits.ts";
import { FRAMING_KEYS } from "./keys.ts";
import { paintBoxes } from "./paintBoxes.ts";
import { wholePlace } from "./paintFramed.ts";
import { type FramingStage, useHand } from "./useHand.ts";
import { arrowMoves } from "../look/sliderSteps.ts";

interface Given {
  readonly film: Film;
  readonly item: FilmItem;
  readonly clip: ClipView | undefined;
  readonly stage: RefObject<FramingStage | null>;
  readonly locked: boolean;
  readonly onChange: (item: FilmItem, label: string) => void;
}

/** What is hidden of the open shot's picture and which part fills the frame: forms, what takes the pointer, keys. */
export interface Framing {
  readonly layer: ReactNode;
  readonly covers: ReactNode;
  readonly closeUp: ReactNode;
  /** The stage shows the clip's whole picture, without numbers. */
  readonly whole: boolean;
  /** The shot as the hand is about to make it; null: as it is. */
  readonly draftShot: () => Shot | null;
  readonly paintOver: (
    context: CanvasRenderingContext2D,
    size: { readonly width: number; readonly height: number },
    theme: Theme,
  ) => void;
}

const ARROWS = arrowMoves(0.01);
export function useFraming(given: Given): Framing {
  const { film, item, clip, stage, locked, onChange } = given;
  const [tool, setTool] = useState<FramingTool | null>(null);
  const [picked, setPicked] = useState<number | null>(null);
  const shot = item.type === "shot" && clip !== undefined && !locked ? item : null;
  const work: Work = { shot, tool, picked, clip: keyedClip(clip), aspects: aspectsOf(film, clip) };
  const { clip: keyed, aspects } = work;
  const hand = useHand(work, stage, setPicked, onChange);
  useEffect(() => {
    setTool(null);
    setPicked(null);
    hand.draft.current = null;
  }, [item.id]);
  // After the stage has its handle again.
  useEffect(() => stage.current?.repaint(), [tool, picked, item]);
  const now = () => stage.current?.mediaS ?? null;
  const arm = (next: FramingTool | null) => {
    hand.settle();
    if (next !== null) stage.current?.stop();
    setTool(next);
  };
  useFramingKeys(work, hand, arm);

  const place = wholePlace(aspects.clip, aspects.film);
  const onLook = (mediaS: number) => stage.current?.look(mediaS);
  const forms = { shot, clip: keyed, tool, now, onTool: arm, onLook, onChange };
  return {
    layer: shot !== null && tool !== null && (
      <>
        <FrameLayer
          title={words.layer}
          place={place}
          boxes={hand.boxes}
          picked={tool === "closeUp" ? 0 : picked}
          keepAspect={
            tool === "closeUp"
              ? Math.min(1, aspects.film / aspects.clip) / Math.min(1, aspects.clip / aspects.film)
              : null
          }
          onPick={setPicked}
          onDraft={hand.show}
          onDone={hand.done}
        />
        <p className="draw-armed" role="status">
          {tool === "cover" ? words.covers.armed : words.closeUp.armed}
        </p>
      </>
    ),
    covers: <CoversForm {...forms} picked={picked} onPick={setPicked} onRemove={hand.remove} />,
    closeUp: <CloseUpForm {...forms} />,
    whole: shot !== null && tool !== null,
    draftShot: () =>
      tool === "cover" && hand.draft.current !== null ? withBoxPut(work, hand.draft.current, now()) : null,
    paintOver: (context, size, theme) =>
      paintBoxes(context, size, place, hand.boxes(), tool === "closeUp" ? 0 : picked, theme, tool === "closeUp"),
  };
}

function keyedClip(clip: ClipView | undefined): KeyedClip {
  const durationS = clip?.durationS ?? 0;
  return { durationS, frameS: durationS / Math.max(1, clip?.frames ?? 1) };
}

function aspectsOf(film: Film, clip: ClipView | undefined): Aspects {
  return { clip: (clip?.widthPx ?? 16) / (clip?.heightPx ?? 9), film: film.widthPx / film.heightPx };
}

type Hand = ReturnType<typeof useHand>;

/** Keys that take the tool, and that move, size and remove the box that is chosen. */
function useFramingKeys({ shot, tool, picked }: Work, hand: Hand, arm: (tool: FramingTool | null) => void): void {
  const toggle = (which: FramingTool) => ({
    keys: FRAMING_KEYS[which],
    words: which === "cover" ? words.covers.tool : words.closeUp.tool,
    run: () => arm(tool === which ? null : which),
  });
  const move = (key: string, whole: boolean) => {
    const one = hand.chosen();
    const by = ARROWS[key];
    if (one === undefined || by === undefined) return;
    const grown = tool === "closeUp" ? zoomed : grownBox;
    hand.nudge({ ...one, box: (whole ? movedBox : grown)(one.box, ...by) });
  };
  const said = tool === "closeUp" ? words.closeUp : words.covers;
  const hasBox = tool === "closeUp" || (tool === "cover" && picked !== null);
  const bindings = [
    toggle("cover"),
    toggle("closeUp"),
    ...(tool === null
      ? []
      : [
          { keys: "Escape", words: words.done, run: () => arm(null) },
          { keys: "Enter", words: said.middle, run: hand.middle },
        ]),
    ...(hasBox
      ? [
          ...Object.keys(ARROWS).map((key) => ({ keys: key, words: said.move, run: () => move(key, true) })),
          ...Object.keys(ARROWS).map((key) => ({
            keys: `Shift+${key}`,
            words: said.grow,
            run: () => move(key, false),
          })),
          { keys: "Backspace", words: said.remove, run: hand.remove },
        ]
      : []),
  ];
  useKeys(words.covers.title, shot === null ? [] : bindings);
}
