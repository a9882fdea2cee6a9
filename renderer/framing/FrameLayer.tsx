import { type PointerEvent, useRef } from "react";
import type { PictureBox } from "../../overlay/instant/closeUpAt.ts";
import { boxBetween, cornersOf, movedBox, type Point } from "./framingEdits.ts";

/** A box under the hand: one that is there, or (null) a new one. */
export interface BoxDraft {
  readonly index: number | null;
  readonly box: PictureBox;
}

interface Props {
  readonly title: string;
  /** Where the picture lies on the stage, shares of it. */
  readonly place: PictureBox;
  /** The boxes that can be taken now, by their index; the last lies on top. */
  readonly boxes: () => readonly BoxDraft[];
  readonly picked: number | null;
  /** Width over height that a box keeps, in shares of the picture; null: any. */
  readonly keepAspect: number | null;
  readonly onPick: (index: number | null) => void;
  /** While the hand moves; null: nothing is under way. */
  readonly onDraft: (draft: BoxDraft | null) => void;
  readonly onDone: (draft: BoxDraft) => void;
}

/** So near to a corner takes the corner, px of the page. */
const REACH_PX = 14;

type Grip =
  | { readonly kind: "corner"; readonly index: number | null; readonly fixed: Point }
  | { readonly kind: "body"; readonly index: number | null; readonly began: Point; readonly box: PictureBox };

/** Takes the pointer over the picture: a box is drawn from corner to corner, moved by its middle, sized by its corners. */
export function FrameLayer({ title, place, boxes, picked, keepAspect, onPick, onDraft, onDone }: Props) {
  const grip = useRef<Grip | null>(null);
  const draft = useRef<BoxDraft | null>(null);
  const tell = (next: BoxDraft | null) => {
    draft.current = next;
    onDraft(next);
  };
  const onDown = (event: PointerEvent<HTMLDivElement>) => {
    if (event.button !== 0) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    grip.current = gripAt(event, boxes(), picked);
    onPick(grip.current.index);
  };
  const onMove = (event: PointerEvent<HTMLDivElement>) => {
    const { current } = grip;
    if (current === null) return;
    const at = shareOf(event);
    if (current.kind === "body")
      return tell({
        index: current.index,
        box: movedBox(current.box, at.x - current.began.x, at.y - current.began.y),
      });
    const to = keepAspect === null ? at : keptShape(current.fixed, at, keepAspect);
    const box = boxBetween(current.fixed, to);
    if (box !== null) tell({ index: current.index, box });
  };
  const onUp = () => {
    const { current } = draft;
    grip.current = null;
    draft.current = null;
    if (current !== null) onDone(current);
  };
  const share = (value: number) => `${value * 100}%`;
  return (
    <div
      className="draw-layer frame-layer"
      role="presentation"
      title={title}
      style={{
        inset: "auto",
        left: share(place.x),
        top: share(place.y),
        width: share(place.width),
        height: share(place.height),
      }}
      onPointerDown={onDown}
      onPointerMove={onMove}
      onPointerUp={onUp}
      onPointerCancel={() => {
        grip.current = null;
        tell(null);
      }}
    />
  );
}

/** The corner or the body of a box at the pointer, the picked one first; else the first corner of a new one. */
function gripAt(event: PointerEvent<HTMLDivElement>, boxes: readonly BoxDraft[], picked: number | null): Grip {
  const { width, height } = event.currentTarget.getBoundingClientRect();
  const at = shareOf(event);
  const firstPicked = [...boxes].reverse().sort((a, b) => Number(b.index === picked) - Number(a.index === picked));
  for (const { index, box } of firstPicked) {
    const corners = cornersOf(box);
    const taken = corners.findIndex(
      (corner) => Math.hypot((corner.x - at.x) * width, (corner.y - at.y) * height) <= REACH_PX,
    );
    if (taken >= 0) return { kind: "corner", index, fixed: corners[(taken + 2) % 4]! };
  }
  for (const { index, box } of firstPicked)
    if (at.x >= box.x && at.x <= box.x + box.width && at.y >= box.y && at.y <= box.y + box.height)
      return { kind: "body", index, began: at, box };
  return { kind: "corner", index: null, fixed: at };
}

/** The corner over from a fixed one so that the box keeps its shape, inside the picture. */
function keptShape(fixed: Point, at: Point, aspect: number): Point {
  const [towardsX, towardsY] = [at.x < fixed.x ? -1 : 1, at.y < fixed.y ? -1 : 1];
  const room = Math.min(towardsX < 0 ? fixed.x : 1 - fixed.x, (towardsY < 0 ? fixed.y : 1 - fixed.y) * aspect);
  const width = Math.min(room, Math.max(Math.abs(at.x - fixed.x), Math.abs(at.y - fixed.y) * aspect));
  return { x: fixed.x + towardsX * width, y: fixed.y + (towardsY * width) / aspect };
}

function shareOf(event: PointerEvent<HTMLDivElement>): Point {
  const box = event.currentTarget.getBoundingClientRect();
  const share = (value: number) => Math.max(0, Math.min(1, value));
  return { x: share((event.clientX - box.left) / box.width), y: share((event.clientY - box.top) / box.height) };
}
