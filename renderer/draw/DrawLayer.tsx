import { type PointerEvent, useRef } from "react";
import type { Drawing } from "../../main/contract/film.ts";
import { draw as words } from "../words/draw.ts";
import { type Point, type Shape, drawingAt, drawnTo, movedShape } from "./shapes.ts";
import "./draw.css";

/** What the hand is doing, painted but not yet in the film. */
export interface Draft {
  /** Index of the drawing that is moved; null: a new one. */
  readonly index: number | null;
  readonly shape: Shape;
  readonly points: readonly Point[];
}

interface Props {
  /** What a press begins: a shape, or moving what is there. */
  readonly tool: Shape | "move";
  readonly drawings: readonly Drawing[];
  /** Whether a drawing is on the picture now: only what is seen can be taken. */
  readonly shows: (drawing: Drawing) => boolean;
  /** Width over height of the picture. */
  readonly aspect: number;
  /** Called while the hand moves; null: nothing is under way. */
  readonly onDraft: (draft: Draft | null) => void;
  readonly onDone: (draft: Draft) => void;
  readonly onPick: (index: number | null) => void;
}

/** A press without a way is no line, share of the picture. */
const LEAST = 0.01;

/** Takes the pointer over the picture while one draws. */
export function DrawLayer({ tool, drawings, shows, aspect, onDraft, onDone, onPick }: Props) {
  const draft = useRef<Draft | null>(null);
  const began = useRef<Point | null>(null);
  const pointOf = (event: PointerEvent<HTMLDivElement>): Point => {
    const box = event.currentTarget.getBoundingClientRect();
    const share = (value: number) => Math.max(0, Math.min(1, value));
    return { x: share((event.clientX - box.left) / box.width), y: share((event.clientY - box.top) / box.height) };
  };
  const tell = (next: Draft | null) => {
    draft.current = next;
    onDraft(next);
  };
  const onDown = (event: PointerEvent<HTMLDivElement>) => {
    if (event.button !== 0) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    const at = pointOf(event);
    began.current = at;
    if (tool !== "move")
      return tell({
        index: null,
        shape: tool,
        points: tool === "arrow" || tool === "line" || tool === "ring" ? [at, at] : [at],
      });
    const index = drawingAt(drawings, shows, at, aspect);
    onPick(index < 0 ? null : index);
    if (index >= 0) tell({ index, shape: drawings[index]!.shape, points: drawings[index]!.points });
  };
  const onMove = (event: PointerEvent<HTMLDivElement>) => {
    const { current } = draft;
    if (current === null || began.current === null) return;
    const at = pointOf(event);
    const points =
      current.index === null
        ? drawnTo(current.shape, current.points, at)
        : movedShape(drawings[current.index]!.points, at.x - began.current.x, at.y - began.current.y);
    tell({ ...current, points });
  };
  const onUp = () => {
    const { current } = draft;
    draft.current = null;
    if (current === null) return;
    const first = current.index === null ? current.points[0]! : drawings[current.index]!.points[0]!;
    const far = Math.max(...current.points.map((point) => Math.hypot(point.x - first.x, point.y - first.y)));
    if (current.shape === "text" ? current.index === null || far > 0 : far >= LEAST) onDone(current);
    else onDraft(null);
  };
  return (
    <div
      className={`draw-layer ${tool}`}
      role="presentation"
      title={words.layer}
      onPointerDown={onDown}
      onPointerMove={onMove}
      onPointerUp={onUp}
      onPointerCancel={() => tell(null)}
    />
  );
}
