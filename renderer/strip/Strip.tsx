import {
  type KeyboardEvent,
  type PointerEvent,
  type Ref,
  useCallback,
  useEffect,
  useImperativeHandle,
  useLayoutEffect,
  useRef,
  useState,
} from "react";
import type { ValueOverride } from "../../main/contract/reading.ts";
import { traceEye, traceNeedle } from "../../overlay/thread/needle.ts";
import { clockText } from "../../overlay/words/numbers.ts";
import { Button } from "../look/Button.tsx";
import { type CanvasView, useCanvas } from "../look/useCanvas.ts";
import { useKeys } from "../look/keys.ts";
import { strip as words } from "../words/strip.ts";
import { Handle } from "./Handle.tsx";
import type { DrawnStrip, StripContent } from "./paintStrip.ts";
import { RideLayer } from "./rideLayer.ts";
import { type StripSpan, following, movedBy, zoomed } from "./stripSpan.ts";
import "./strip.css";

/** Moves the cursor without drawing the strip anew. */
export interface StripHandle {
  /** Ride time that is on the screen, s; null hides the cursor. */
  show(rideS: number | null): void;
}

interface Props extends StripContent {
  readonly handle: Ref<StripHandle>;
  readonly locked: boolean;
  readonly onGo: (rideS: number) => void;
  readonly onSelect: (moment: number) => void;
  /** The coach's own value in place of the computed one. */
  readonly onOverrule: (override: ValueOverride) => void;
}

const GO_S: Readonly<Record<string, number>> = {
  ArrowLeft: -5,
  ArrowRight: 5,
  ArrowDown: -5,
  ArrowUp: 5,
  PageDown: -300,
  PageUp: 300,
};
const CLOSER = 0.5;
/** A pointer this near to a moment's mark means the moment, px. */
const REACH_PX = 9;

/** The whole ride as one strip: thread on the road, power, heart, footage, moments. */
export function Strip(props: Props) {
  const { columns, reading, coverage, moments, selected, handle, locked, onGo, onSelect, onOverrule } = props;
  const rideEndS = columns.seconds;
  const [span, setSpan] = useState<StripSpan>({ fromS: 0, toS: rideEndS });
  const [drawn, setDrawn] = useState<(DrawnStrip & { readonly widthPx: number }) | null>(null);
  const cursor = useRef<HTMLDivElement>(null);
  const slider = useRef<HTMLDivElement>(null);
  const at = useRef<number | null>(null);
  const dragging = useRef(false);
  useEffect(() => setSpan((before) => (before.toS > rideEndS ? { fromS: 0, toS: rideEndS } : before)), [rideEndS]);

  const [layer] = useState(() => new RideLayer());
  const draw = useCallback(
    (context: CanvasRenderingContext2D, view: CanvasView) =>
      setDrawn({
        ...layer.paint(context, view, { columns, reading, coverage, moments, selected }, span),
        widthPx: view.widthPx,
      }),
    [layer, columns, reading, coverage, moments, selected, span],
  );
  const canvas = useCanvas(draw);
  const needle = useCanvas(
    useCallback((context: CanvasRenderingContext2D, { widthPx, heightPx, colours }: CanvasView) => {
      context.clearRect(0, 0, widthPx, heightPx);
      const pose = { x: 3, y: heightPx / 2, leanRad: 0, unitPx: 1 };
      context.beginPath();
      traceNeedle(context, pose);
      context.lineWidth = 3;
      context.strokeStyle = colours.ground;
      context.stroke();
      context.fillStyle = colours.ink;
      context.fill();
      context.beginPath();
      traceEye(context, pose);
      context.fillStyle = colours.ground;
      context.fill();
    }, []),
  );

  const secondsAPx = drawn === null ? 1 : (span.toS - span.fromS) / (drawn.rooms.right - drawn.rooms.left);
  const xOf = (rideS: number) =>
    drawn === null || rideS < span.fromS - 1 || rideS > span.toS + 1
      ? null
      : drawn.rooms.left + (rideS - span.fromS) / secondsAPx;
  const place = () => {
    const { current } = cursor;
    if (current === null) return;
    const x = at.current === null ? null : xOf(at.current);
    current.hidden = x === null;
    if (x !== null && drawn !== null) {
      current.style.transform = `translateX(${x}px)`;
      (current.lastElementChild as HTMLElement).style.top = `${drawn.roadY(at.current!)}px`;
    }
    slider.current?.setAttribute("aria-valuenow", String(Math.round(at.current ?? 0)));
    slider.current?.setAttribute("aria-valuetext", at.current === null ? words.nowhere : clockText(at.current));
  };
  const placing = useRef(place);
  placing.current = place;
  const spanNow = useRef(span);
  spanNow.current = span;
  useLayoutEffect(() => placing.current(), [drawn, span]);
  useImperativeHandle(
    handle,
    () => ({
      show(rideS) {
        at.current = rideS;
        if (rideS !== null && !dragging.current && (rideS < spanNow.current.fromS || rideS > spanNow.current.toS))
          setSpan((before) => following(before, rideS, rideEndS));
        placing.current();
      },
    }),
    [rideEndS],
  );

  const zoom = (factor: number, aboutS = at.current ?? (span.fromS + span.toS) / 2) =>
    setSpan((before) => zoomed(before, factor, aboutS, rideEndS));
  const whole = () => setSpan({ fromS: 0, toS: rideEndS });
  useKeys(words.title, [
    { keys: "+", words: words.closer, run: () => zoom(CLOSER) },
    { keys: "-", words: words.wider, run: () => zoom(1 / CLOSER) },
    { keys: "w", words: words.whole, run: whole },
  ]);

  // Wheel listeners of React can't keep the page from moving.
  useEffect(() => {
    const element = slider.current!;
    const onWheel = (event: WheelEvent) => {
      if (!event.ctrlKey && !event.shiftKey && Math.abs(event.deltaX) <= Math.abs(event.deltaY)) return;
      event.preventDefault();
      const { fromS, toS } = spanNow.current;
      const share = (event.clientX - element.getBoundingClientRect().left) / Math.max(1, element.clientWidth);
      if (event.ctrlKey)
        setSpan((before) => zoomed(before, event.deltaY > 0 ? 1.25 : 0.8, fromS + share * (toS - fromS), rideEndS));
      else setSpan((before) => movedBy(before, ((event.deltaX || event.deltaY) / 600) * (toS - fromS), rideEndS));
    };
    element.addEventListener("wheel", onWheel, { passive: false });
    return () => element.removeEventListener("wheel", onWheel);
  }, [rideEndS]);

  const timeAt = (event: PointerEvent) => {
    const x = event.clientX - canvas.current!.getBoundingClientRect().left;
    return Math.max(0, Math.min(rideEndS - 1, span.fromS + (x - (drawn?.rooms.left ?? 0)) * secondsAPx));
  };
  const onDown = (event: PointerEvent<HTMLDivElement>) => {
    if (event.button !== 0 || drawn === null) return;
    const box = canvas.current!.getBoundingClientRect();
    const x = event.clientX - box.left;
    if (event.clientY - box.top < drawn.rooms.moments.bottom + 6) {
      const near = moments
        .map((one) => ({
          one,
          far: Math.min(
            Math.abs((xOf(one.startS) ?? -1e6) - x),
            x >= (xOf(one.startS) ?? 1e6) && x <= (xOf(one.endS) ?? -1e6) ? 0 : 1e6,
          ),
        }))
        .sort((a, b) => a.far - b.far)[0];
      if (near !== undefined && near.far <= REACH_PX) return onSelect(near.one.index);
    }
    dragging.current = true;
    event.currentTarget.setPointerCapture(event.pointerId);
    onGo(timeAt(event));
  };
  const onKey = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.altKey || at.current === null) return;
    const step = GO_S[event.key];
    const target =
      event.key === "Home"
        ? 0
        : event.key === "End"
          ? rideEndS - 1
          : step === undefined
            ? null
            : at.current + step * (event.shiftKey ? 12 : 1);
    if (target === null) return;
    event.preventDefault();
    onGo(Math.max(0, Math.min(rideEndS - 1, target)));
  };

  const { counted, drift } = reading;
  const lanes = drawn?.rooms;
  const shared = { locked, xOf, secondsAPx };
  const heart =
    lanes === undefined
      ? { topPx: 0, heightPx: 0 }
      : { topPx: lanes.heart.top, heightPx: lanes.heart.bottom - lanes.heart.top };
  const all =
    lanes === undefined
      ? { topPx: 0, heightPx: 0 }
      : { topPx: lanes.thread.top, heightPx: lanes.heart.bottom - lanes.thread.top };
  return (
    <section className="strip" aria-label={words.title}>
      <div
        ref={slider}
        className="strip-all"
        role="slider"
        tabIndex={0}
        aria-label={words.slider}
        aria-valuemin={0}
        aria-valuemax={rideEndS}
        aria-valuenow={0}
        title={words.sliderHint}
        onPointerDown={onDown}
        onPointerMove={(event) => dragging.current && onGo(timeAt(event))}
        onPointerUp={() => (dragging.current = false)}
        onPointerCancel={() => (dragging.current = false)}
        onKeyDown={onKey}
      >
        <canvas ref={canvas} className="strip-canvas" aria-hidden="true" />
      </div>
      <div ref={cursor} className="strip-cursor" hidden>
        <canvas ref={needle} className="strip-needle" aria-hidden="true" />
      </div>
      {drawn !== null && (
        <>
          <Handle
            {...shared}
            {...all}
            kind="edge"
            label={words.countedStart}
            atS={counted.startS}
            leastS={0}
            mostS={counted.endS - 60}
            onSet={(startS) => onOverrule({ what: "counted", set: { startS, endS: counted.endS }, reason: null })}
          />
          <Handle
            {...shared}
            {...all}
            kind="edge"
            label={words.countedEnd}
            atS={counted.endS}
            leastS={counted.startS + 60}
            mostS={rideEndS}
            onSet={(endS) => onOverrule({ what: "counted", set: { startS: counted.startS, endS }, reason: null })}
          />
          {drift.firstAtS !== null && (
            <Handle
              {...shared}
              {...heart}
              kind="reading"
              label={words.first}
              atS={drift.firstAtS}
              leastS={counted.startS}
              mostS={counted.endS}
              onSet={(atS) => onOverrule({ what: "first", set: atS, reason: null })}
            />
          )}
          {drift.lastAtS !== null && (
            <Handle
              {...shared}
              {...heart}
              kind="reading"
              label={words.last}
              atS={drift.lastAtS}
              leastS={counted.startS}
              mostS={counted.endS}
              onSet={(atS) => onOverrule({ what: "last", set: atS, reason: null })}
            />
          )}
          {drift.onsetS !== null && (
            <Handle
              {...shared}
              {...heart}
              kind="onset"
              label={words.onset}
              atS={drift.onsetS}
              leastS={counted.startS}
              mostS={counted.endS}
              onSet={(atS) => onOverrule({ what: "onset", set: atS, reason: null })}
            />
          )}
        </>
      )}
      <div className="strip-tools">
        <Button kind="bare" keys="+" onClick={() => zoom(CLOSER)}>
          {words.closer}
        </Button>
        <Button kind="bare" keys="-" onClick={() => zoom(1 / CLOSER)}>
          {words.wider}
        </Button>
        <Button kind="bare" keys="w" onClick={whole}>
          {words.whole}
        </Button>
      </div>
    </section>
  );
}
