import { type ReactNode, type RefObject, useEffect, useRef, useState } from "react";
import type { Drawing, Film, FilmItem, Shot } from "../../main/contract/film.ts";
import { drawingShows } from "../../main/contract/drawing.ts";
import { paintDrawing } from "../../overlay/drawing/paintDrawing.ts";
import { shotLengthS } from "../../overlay/instant/shotTime.ts";
import type { Theme } from "../../overlay/theme.ts";
import { type Draft, DrawLayer } from "../draw/DrawLayer.tsx";
import { DrawTools } from "../draw/DrawTools.tsx";
import type { Shape } from "../draw/shapes.ts";
import { draw as drawWords } from "../words/draw.ts";
import type { FilmStageHandle } from "./FilmStage.tsx";
import { frozenAt } from "./filmEdits.ts";

/** A new drawing stays so long on film, s. */
const STAYS_S = 4;

interface Size {
  readonly width: number;
  readonly height: number;
}

interface Wishes {
  readonly film: Film;
  readonly item: FilmItem | undefined;
  readonly stage: RefObject<FilmStageHandle | null>;
  readonly locked: boolean;
  readonly onChange: (item: FilmItem, label: string) => void;
  readonly onLook: (itemS: number) => void;
}

/** Drawing on the shot that is open: what takes the pointer over the picture, the tools beside it, the draft as it grows. */
export function useDrawing({ film, item, stage, locked, onChange, onLook }: Wishes): {
  readonly layer: ReactNode;
  readonly tools: ReactNode;
  readonly paintDraft: (context: CanvasRenderingContext2D, size: Size, theme: Theme) => void;
  readonly movedDrawing: () => number | null;
  /** A drawing is chosen and being moved. */
  readonly moving: boolean;
} {
  const [tool, setTool] = useState<Shape | "move" | null>(null);
  const [picked, setPicked] = useState<number | null>(null);
  const [hold, setHold] = useState(true);
  const draft = useRef<Draft | null>(null);
  const id = item?.id;
  useEffect(() => {
    setTool(null);
    setPicked(null);
    draft.current = null;
  }, [id]);

  const shot = item?.type === "shot" ? item : null;
  const repaint = () => stage.current?.repaint();
  const onDraft = (next: Draft | null) => {
    draft.current = next;
    repaint();
  };
  const choose = (next: Shape | "move" | null) => {
    if (next !== null) stage.current?.stop();
    setTool(next);
  };
  const { add, replace } = useDrawingEdits({ shot, stage, hold, onChange, onPicked: setPicked, onTool: setTool });
  const onDone = (made: Draft) => {
    draft.current = null;
    if (made.index === null) add(made.shape, made.points);
    else if (shot !== null) replace(made.index, { ...shot.drawings[made.index]!, points: made.points });
  };
  const paintDraft = (context: CanvasRenderingContext2D, size: Size, theme: Theme) =>
    draft.current !== null && paintAsDrawn(draft.current, shot, context, size, theme);
  return {
    layer:
      shot === null || tool === null || locked ? null : (
        <DrawLayer
          tool={tool}
          drawings={shot.drawings}
          shows={(one) => drawingShows(one, stage.current?.place.itemS ?? 0)}
          aspect={film.widthPx / film.heightPx}
          onDraft={onDraft}
          onDone={onDone}
          onPick={setPicked}
        />
      ),
    tools:
      shot === null ? null : (
        <DrawTools
          drawings={shot.drawings}
          tool={tool}
          picked={picked}
          hold={hold}
          locked={locked}
          onTool={choose}
          onPick={setPicked}
          onHold={setHold}
          onAdd={add}
          onChange={replace}
          onRemove={(index) => replace(index, null)}
          onLook={onLook}
        />
      ),
    paintDraft,
    movedDrawing: () => draft.current?.index ?? null,
    moving: tool !== null && picked !== null,
  };
}

interface EditsGiven extends Pick<Wishes, "stage" | "onChange"> {
  readonly shot: Shot | null;
  readonly hold: boolean;
  readonly onPicked: (index: number | null) => void;
  readonly onTool: (tool: "move") => void;
}

/** A drawing more, another shape of one, or one less. */
function useDrawingEdits({ shot, stage, hold, onChange, onPicked, onTool }: EditsGiven) {
  const add = (shape: Shape, points: Drawing["points"]) => {
    if (shot === null || stage.current === null) return;
    // The picture at the cut is the frame under way, which began a little before it.
    const startS = Math.max(0, Math.min(stage.current.place.itemS, shotLengthS(shot) - 1));
    const drawing: Drawing = {
      shape,
      points,
      text: shape === "text" ? drawWords.newText : null,
      startS,
      endS: startS + STAYS_S,
    };
    const atS = stage.current.mediaS;
    const held: Shot = hold && atS !== null && atS < shot.mediaEndS ? frozenAt(shot, atS, STAYS_S) : shot;
    onPicked(shot.drawings.length);
    if (shape === "text") onTool("move");
    onChange({ ...held, drawings: [...shot.drawings, drawing] }, drawWords.labels.add(drawWords.shapes[shape]));
  };
  const replace = (index: number, drawing: Drawing | null) => {
    if (shot === null) return;
    const drawings = shot.drawings.flatMap((one, k) => (k !== index ? [one] : drawing === null ? [] : [drawing]));
    if (drawing === null) onPicked(null);
    onChange({ ...shot, drawings }, drawing === null ? drawWords.labels.remove : drawWords.labels.change);
  };
  return { add, replace };
}

function paintAsDrawn(
  { index, shape, points }: Draft,
  shot: Shot | null,
  context: CanvasRenderingContext2D,
  size: Size,
  theme: Theme,
): void {
  const own = shape === "text" ? drawWords.newText : null;
  const text = index === null ? own : (shot?.drawings[index]?.text ?? null);
  paintDrawing(context, { shape, points, text, startS: 0, endS: 1 }, size, theme);
}
