import {
  type KeyboardEvent,
  type PointerEvent,
  type Ref,
  type RefObject,
  useCallback,
  useImperativeHandle,
  useLayoutEffect,
  useRef,
} from "react";
import type { Anchor, FoundClock } from "../../main/contract/lineup.ts";
import { clockText, fixedText } from "../../overlay/words/numbers.ts";
import { type CanvasView, useCanvas } from "../look/useCanvas.ts";
import { lineup as words } from "../words/lineup.ts";
import { paintMotionPicture } from "./paintMotionPicture.ts";

/** Moves the running mark without drawing the lane anew. */
export interface LaneMark {
  /** Clip time of the frame that is shown, s; null hides the mark. */
  show(mediaS: number | null): void;
}

interface Props {
  readonly clipName: string;
  readonly speedMps: Float64Array | null;
  readonly motion: Float64Array | null;
  readonly stepS: number;
  readonly clock: FoundClock;
  readonly durationS: number;
  readonly frameS: number;
  readonly sure: boolean;
  readonly anchors: readonly Anchor[];
  readonly fromS: number;
  readonly toS: number;
  readonly locked: boolean;
  readonly mark: Ref<LaneMark>;
  /** While it is dragged: ride seconds away from where it lay; 0 at the end. The clock given has them counted in. */
  readonly onDrag: (byS: number) => void;
  /** Ride seconds to move by, and how it was done. */
  readonly onMove: (byS: number, how: "frame" | "second" | "minute" | "drag") => void;
  /** A click without a drag: look at this clip time. */
  readonly onLook: (mediaS: number) => void;
}

const STEPS: Readonly<Record<string, readonly [number, "second" | "minute"]>> = {
  "Shift+ArrowLeft": [-1, "second"],
  "Shift+ArrowRight": [1, "second"],
  PageUp: [60, "minute"],
  PageDown: [-60, "minute"],
};
/** A pointer that moved less than this meant to click, px. */
const CLICK_PX = 4;

/** Ride speed above, footage motion below, on one axis; the footage is dragged or moved by keys. */
export function MotionLane({
  clipName,
  speedMps,
  motion,
  stepS,
  clock,
  durationS,
  frameS,
  sure,
  anchors,
  fromS,
  toS,
  locked,
  mark,
  onDrag,
  onMove,
  onLook,
}: Props) {
  const line = useRef<HTMLDivElement>(null);
  const shownAt = useRef<number | null>(null);
  const draw = useCallback(
    (context: CanvasRenderingContext2D, view: CanvasView) =>
      paintMotionPicture(
        context,
        { ...view, fromS, toS, speedMps, motion, stepS, clock, durationS, sure, anchors, words },
        { ...view.colours, ground: view.colours.sunk },
      ),
    [fromS, toS, speedMps, motion, stepS, clock, durationS, sure, anchors],
  );
  const canvas = useCanvas(draw);

  const place = () => {
    if (line.current === null) return;
    const at = shownAt.current;
    const share = at === null ? -1 : (clock.offsetS + clock.rate * at - fromS) / (toS - fromS);
    line.current.hidden = !(share >= 0 && share <= 1);
    line.current.style.left = `${share * 100}%`;
  };
  useImperativeHandle(mark, () => ({
    show(mediaS) {
      shownAt.current = mediaS;
      place();
    },
  }));
  useLayoutEffect(place);

  const hand = useLaneHand({ canvas, clock, durationS, frameS, fromS, toS, locked, onDrag, onMove, onLook });
  return (
    <div
      className="lane"
      role="slider"
      tabIndex={0}
      aria-label={words.slider(clipName)}
      aria-valuenow={Math.round(clock.offsetS * 100) / 100}
      aria-valuemin={Math.round(fromS)}
      aria-valuemax={Math.round(toS)}
      aria-valuetext={words.starts(`${clockText(clock.offsetS)} (${fixedText(clock.offsetS, 2)} s)`)}
      aria-disabled={locked}
      title={words.sliderHint}
      {...hand}
    >
      <canvas ref={canvas} aria-hidden="true" />
      <div ref={line} className="lane-mark" hidden />
    </div>
  );
}

type Hand = Pick<
  Props,
  "clock" | "durationS" | "frameS" | "fromS" | "toS" | "locked" | "onDrag" | "onMove" | "onLook"
> & {
  readonly canvas: RefObject<HTMLCanvasElement | null>;
};

/** Dragging, clicking and the keys of the lane. */
function useLaneHand({ canvas, clock, durationS, frameS, fromS, toS, locked, onDrag, onMove, onLook }: Hand) {
  const from = useRef<{ readonly x: number; far: boolean } | null>(null);
  const secondsAPx = () => (toS - fromS) / Math.max(1, canvas.current!.clientWidth);
  const onPointerDown = (event: PointerEvent<HTMLDivElement>) => {
    if (event.button !== 0) return;
    from.current = { x: event.clientX, far: false };
    event.currentTarget.setPointerCapture(event.pointerId);
  };
  const onPointerMove = (event: PointerEvent) => {
    if (from.current === null || locked) return;
    if (Math.abs(event.clientX - from.current.x) >= CLICK_PX) from.current.far = true;
    if (from.current.far) onDrag((event.clientX - from.current.x) * secondsAPx());
  };
  const onPointerUp = (event: PointerEvent) => {
    const began = from.current;
    from.current = null;
    if (began === null) return;
    if (began.far) {
      onDrag(0);
      onMove((event.clientX - began.x) * secondsAPx(), "drag");
    } else {
      const x = event.clientX - canvas.current!.getBoundingClientRect().left;
      const mediaS = (fromS + x * secondsAPx() - clock.offsetS) / clock.rate;
      if (mediaS >= 0 && mediaS < durationS) onLook(mediaS);
    }
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (locked || event.ctrlKey || event.altKey) return;
    const frames = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
    const step = STEPS[`${event.shiftKey ? "Shift+" : ""}${event.key}`];
    if (step !== undefined) onMove(step[0], step[1]);
    else if (frames !== undefined) onMove(frames * frameS, "frame");
    else return;
    event.preventDefault();
  };
  const onPointerCancel = () => {
    from.current = null;
    onDrag(0);
  };
  return { onPointerDown, onPointerMove, onPointerUp, onPointerCancel, onKeyDown };
}
