import { type ReactNode, type RefObject, useEffect, useRef, useState } from "react";
import type { Drawing, Film, FilmItem, Shot } from "../../main/contract/film.ts";
import { drawingShows } from "../../main/contract/drawing.ts";
import { paintDrawing, wordsEmShare } from "../../overlay/drawing/paintDrawing.ts";
import { shotLengthS } from "../../overlay/instant/shotTime.ts";
import type { Theme } from "../../overlay/theme.ts";
import { type Draft, DrawLayer } from "../draw/DrawLayer.tsx";
import { DrawTools } from "../draw/DrawTools.tsx";
import { DrawnList } from "../draw/DrawnList.tsx";
import { drawingAt, type Shape } from "../draw/shapes.ts";
import { draw as drawWords } from "../words/draw.ts";
import type { FilmStageHandle } from "./FilmStage.tsx";
import { frozenAt } from "../film/filmEdits.ts";
import { TypedOnPicture } from "./TypedOnPicture.tsx";

/** A new drawing stays so long on film, s. */
const STAYS_S = 4;

interface Size {
  readonly width: number;
  readonly height: number;
}

interface Wishes {
  readonly film: Film;
  readonly item: FilmItem;
  readonly stage: RefObject<FilmStageHandle | null>;
  readonly locked: boolean;
  readonly onChange: (item: FilmItem, label: string) => void;
  readonly onLook: (itemS: number) => void;
}

/** Words that are being typed on the picture: new ones at a place, or those of a drawing. */
interface Typing {
  readonly index: number | null;
  readonly points: Drawing["points"];
  readonly text: string;
}

/** Drawing on the shot that is open: what takes the pointer over the picture, the tools below it, the draft as it grows. */
export function useDrawing({ film, item, stage, locked, onChange, onLook }: Wishes): {
  readonly layer: ReactNode;
  readonly tools: ReactNode;
  readonly drawings: ReactNode;
  readonly paintDraft: (context: CanvasRenderingContext2D, size: Size, theme: Theme) => void;
  readonly movedDrawing: () => number | null;
  /** A drawing is chosen and being moved. */
  readonly moving: boolean;
} {
  const [tool, setTool] = useState<Shape | "move" | null>(null);
  const [picked, setPicked] = useState<number | null>(null);
  const [typing, setTyping] = useState<Typing | null>(null);
  const [hold, setHold] = useState(true);
  const draft = useRef<Draft | null>(null);
  useEffect(() => {
    setTool(null);
    setPicked(null);
    setTyping(null);
    draft.current = null;
  }, [item.id]);

  const shot = item.type === "shot" ? item : null;
  const aspect = film.widthPx / film.heightPx;
  const shows = (one: Drawing) => drawingShows(one, stage.current?.place.itemS ?? 0);
  const onDraft = (next: Draft | null) => {
    draft.current = next;
    stage.current?.repaint();
  };
  const choose = (next: Shape | "move" | null) => {
    if (next !== null) stage.current?.stop();
    setTool(next);
  };
  const { add, replace } = useDrawingEdits({ shot, stage, hold, onChange, onPicked: setPicked });
  /** Words are typed before they are in the film; pressed on words that stand there, those are changed. */
  const typeAt = (points: Drawing["points"]) => {
    const there = drawingAt(shot?.drawings ?? [], (one) => one.shape === "text" && shows(one), points[0]!, aspect);
    const old = shot?.drawings[there];
    setTyping(
      old === undefined
        ? { index: null, points, text: "" }
        : { index: there, points: old.points, text: old.text ?? "" },
    );
  };
  const begin = (shape: Shape, points: Drawing["points"]) => (shape === "text" ? typeAt(points) : add(shape, points));
  const onDone = (made: Draft) => {
    draft.current = null;
    if (made.index === null) begin(made.shape, made.points);
    else if (shot !== null) replace(made.index, { ...shot.drawings[made.index]!, points: made.points });
  };
  const onTyped = (text: string | null) => {
    setTyping(null);
    if (typing === null || text === null || text === typing.text) return;
    const old = typing.index === null ? undefined : shot?.drawings[typing.index];
    if (typing.index !== null && old !== undefined) replace(typing.index, text === "" ? null : { ...old, text });
    else if (text !== "") add("text", typing.points, text);
  };
  const given = { drawings: shot?.drawings ?? [], tool, picked, locked, onTool: choose, onPick: setPicked };
  const replaced = { onChange: replace, onRemove: (index: number) => replace(index, null) };
  return {
    layer:
      shot === null || locked ? null : (
        <DrawnOver
          {...{ tool, drawings: shot.drawings, shows, aspect, typing, onDraft, onDone, onTyped }}
          onPick={setPicked}
        />
      ),
    tools: <DrawTools {...given} shot={shot !== null} hold={hold} onHold={setHold} onAdd={begin} {...replaced} />,
    drawings: <DrawnList {...given} onLook={onLook} {...replaced} />,
    paintDraft: (context, size, theme) =>
      draft.current !== null && paintAsDrawn(draft.current, shot, context, size, theme),
    // Words that are being changed are seen where they are typed.
    movedDrawing: () => draft.current?.index ?? typing?.index ?? null,
    moving: tool !== null && picked !== null,
  };
}

interface OverProps {
  readonly tool: Shape | "move" | null;
  readonly drawings: Shot["drawings"];
  readonly shows: (drawing: Drawing) => boolean;
  readonly aspect: number;
  readonly typing: Typing | null;
  readonly onDraft: (draft: Draft | null) => void;
  readonly onDone: (draft: Draft) => void;
  readonly onPick: (index: number | null) => void;
  readonly onTyped: (text: string | null) => void;
}

/** Over the picture: what takes the pointer while a tool is armed, which tool that is, and words being typed. */
function DrawnOver({ tool, typing, aspect, onTyped, ...given }: OverProps) {
  return (
    <>
      {tool !== null && (
        <>
          <DrawLayer tool={tool} aspect={aspect} {...given} />
          <p className="draw-armed" role="status">
            {drawWords.armed[tool]}
          </p>
        </>
      )}
      {typing !== null && (
        <TypedOnPicture
          key={`${typing.index} ${typing.points[0]!.x} ${typing.points[0]!.y}`}
          label={drawWords.type}
          text={typing.text}
          at={typing.points[0]!}
          emShare={wordsEmShare(aspect)}
          onDone={onTyped}
        />
      )}
    </>
  );
}

interface EditsGiven extends Pick<Wishes, "stage" | "onChange"> {
  readonly shot: Shot | null;
  readonly hold: boolean;
  readonly onPicked: (index: number | null) => void;
}

/** A drawing more, another shape of one, or one less. */
function useDrawingEdits({ shot, stage, hold, onChange, onPicked }: EditsGiven) {
  const add = (shape: Shape, points: Drawing["points"], text: string | null = null) => {
    if (shot === null || stage.current === null) return;
    // The picture at the cut is the frame under way, which began a little before it.
    const startS = Math.max(0, Math.min(stage.current.place.itemS, shotLengthS(shot) - 1));
    const drawing: Drawing = { shape, points, text, startS, endS: startS + STAYS_S };
    const atS = stage.current.mediaS;
    const held: Shot = hold && atS !== null && atS < shot.mediaEndS ? frozenAt(shot, atS, STAYS_S) : shot;
    onPicked(shot.drawings.length);
    onChange({ ...held, drawings: [...held.drawings, drawing] }, drawWords.labels.add(drawWords.shapes[shape]));
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
  const text = index === null ? null : (shot?.drawings[index]?.text ?? null);
  paintDrawing(context, { shape, points, text, startS: 0, endS: 1 }, size, theme);
}
