import { type KeyboardEvent, type PointerEvent, type Ref, type RefObject, useImperativeHandle, useRef } from "react";
import { clockText } from "../../overlay/words/numbers.ts";
import { build as words } from "../words/build.ts";
import { rulerTimes } from "./laneScale.ts";
import "./lane.css";
import { sliderSteps } from "../look/sliderSteps.ts";

/** Told where the film stands, s. */
export interface FilmRulerHandle {
  show(filmS: number): void;
}

interface Props {
  readonly handle: Ref<FilmRulerHandle>;
  readonly lengthS: number;
  readonly pxPerS: number;
  /** What scrolls the lane: the playhead stays in its sight. */
  readonly box: RefObject<HTMLElement | null>;
  readonly onSeek: (filmS: number) => void;
}

/** What the arrow keys move the playhead by while it has the focus, s. */
const STEPS_S: Readonly<Record<string, number>> = { ...sliderSteps(0.2, 5), Home: -Infinity, End: Infinity };
/** So near the edge of the lane's window the playhead pulls the lane along, px. */
const NEAR_EDGE_PX = 40;

/** Film time over the lane, with the playhead: pressed anywhere, it goes there and follows the hand. */
export function FilmRuler({ handle, lengthS, pxPerS, box, onSeek }: Props) {
  const ruler = useRef<HTMLDivElement>(null);
  const head = useRef<HTMLDivElement>(null);
  const nowS = useRef(0);
  const moving = useRef(false);
  const lay = (filmS: number) => {
    nowS.current = filmS;
    if (head.current === null) return;
    head.current.style.transform = `translateX(${filmS * pxPerS}px)`;
    head.current.setAttribute("aria-valuenow", String(Math.round(filmS * 100) / 100));
    head.current.setAttribute("aria-valuetext", clockText(filmS));
    keepInSight(box.current, filmS * pxPerS);
  };
  useImperativeHandle(handle, () => ({ show: lay }));
  const filmAt = (event: PointerEvent) =>
    Math.max(0, Math.min(lengthS, (event.clientX - ruler.current!.getBoundingClientRect().left) / pxPerS));
  const onKey = (event: KeyboardEvent) => {
    const stepS = STEPS_S[event.key];
    if (stepS === undefined || event.altKey || event.ctrlKey || event.shiftKey) return;
    event.preventDefault();
    event.stopPropagation();
    onSeek(Math.max(0, Math.min(lengthS, nowS.current + stepS)));
  };
  return (
    <div
      ref={ruler}
      className="lane-ruler"
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        moving.current = true;
        event.currentTarget.setPointerCapture(event.pointerId);
        onSeek(filmAt(event));
      }}
      onPointerMove={(event) => moving.current && onSeek(filmAt(event))}
      onPointerUp={() => (moving.current = false)}
      onPointerCancel={() => (moving.current = false)}
    >
      {rulerTimes(lengthS, pxPerS).map((timeS) => (
        <span key={timeS} className="lane-tick" style={{ left: timeS * pxPerS }}>
          {clockText(timeS)}
        </span>
      ))}
      <div
        ref={head}
        className="lane-head"
        style={{ transform: `translateX(${nowS.current * pxPerS}px)` }}
        role="slider"
        tabIndex={0}
        aria-label={words.playhead}
        aria-valuemin={0}
        aria-valuemax={Math.round(lengthS * 100) / 100}
        aria-valuenow={Math.round(nowS.current * 100) / 100}
        aria-valuetext={clockText(nowS.current)}
        onKeyDown={onKey}
      />
    </div>
  );
}

function keepInSight(box: HTMLElement | null, atPx: number): void {
  if (box === null || box.scrollWidth <= box.clientWidth) return;
  const { scrollLeft, clientWidth } = box;
  if (atPx < scrollLeft + NEAR_EDGE_PX) box.scrollLeft = atPx - NEAR_EDGE_PX;
  else if (atPx > scrollLeft + clientWidth - NEAR_EDGE_PX) box.scrollLeft = atPx - clientWidth + NEAR_EDGE_PX;
}
