import type { Dispatch, RefObject, SetStateAction } from "react";
import { type Ref, useCallback, useEffect, useRef, useState } from "react";
import type { ValueOverride } from "../../main/contract/reading.ts";
import { traceEye, traceNeedle } from "../../overlay/thread/needle.ts";
import { Button } from "../look/Button.tsx";
import { type CanvasView, useCanvas } from "../look/useCanvas.ts";
import { useKeys } from "../look/keys.ts";
import { strip as words } from "../words/strip.ts";
import { OtherRide, type OtherRideChoice } from "./OtherRide.tsx";
import { StripHandles } from "./StripHandles.tsx";
import { type StripHandle, useStripCursor } from "./useStripCursor.ts";
import { type DrawnWide, useStripHand, useStripWheel } from "./useStripHand.ts";
import type { StripContent } from "./paintStrip.ts";
import { RideLayer } from "./rideLayer.ts";
import { type StripSpan, zoomed } from "./stripSpan.ts";
import "./strip.css";

interface Props extends StripContent {
  readonly handle: Ref<StripHandle>;
  readonly locked: boolean;
  readonly onGo: (rideS: number) => void;
  readonly onSelect: (moment: number) => void;
  /** Whether the map stands beside; null: the ride has no places. */
  readonly map: boolean | null;
  readonly onMap: () => void;
  readonly other: OtherRideChoice;
  /** The coach's own value in place of the computed one. */
  readonly onOverrule: (override: ValueOverride) => void;
}

const CLOSER = 0.5;

/** The whole ride as one strip: thread on the road, power, heart, footage, moments. */
export function Strip(props: Props) {
  const { columns, reading, asked, units, coverage, moments, selected, handle, locked, onGo, onSelect, onOverrule } =
    props;
  const { roads } = props;
  const rideEndS = columns.seconds;
  const [span, setSpan] = useState<StripSpan>({ fromS: 0, toS: rideEndS });
  const [drawn, setDrawn] = useState<DrawnWide | null>(null);
  const cursor = useRef<HTMLDivElement>(null);
  const slider = useRef<HTMLDivElement>(null);
  const at = useRef<number | null>(null);
  const dragging = useRef(false);
  useEffect(() => setSpan((before) => (before.toS > rideEndS ? { fromS: 0, toS: rideEndS } : before)), [rideEndS]);

  const [layer] = useState(() => new RideLayer());
  const draw = useCallback(
    (context: CanvasRenderingContext2D, view: CanvasView) =>
      setDrawn({
        ...layer.paint(context, view, { columns, reading, asked, units, coverage, roads, moments, selected }, span),
        widthPx: view.widthPx,
      }),
    [layer, columns, reading, asked, units, coverage, roads, moments, selected, span],
  );
  const canvas = useCanvas(draw);
  const secondsAPx = drawn === null ? 1 : (span.toS - span.fromS) / (drawn.rooms.right - drawn.rooms.left);
  const xOf = (rideS: number) =>
    drawn === null || rideS < span.fromS - 1 || rideS > span.toS + 1
      ? null
      : drawn.rooms.left + (rideS - span.fromS) / secondsAPx;
  const spanNow = useRef(span);
  spanNow.current = span;
  useStripCursor({ handle, cursor, slider, at, dragging, drawn, span, spanNow, xOf, rideEndS, onSpan: setSpan });

  useStripWheel(slider, spanNow, rideEndS, setSpan);
  const hand = useStripHand({
    drawn,
    canvas,
    at,
    dragging,
    moments,
    xOf,
    secondsAPx,
    fromS: span.fromS,
    rideEndS,
    onGo,
    onSelect,
  });
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
        {...hand}
      >
        <canvas ref={canvas} className="strip-canvas" aria-hidden="true" />
      </div>
      <div ref={cursor} className="strip-cursor" hidden>
        <StripNeedle />
      </div>
      {drawn !== null && (
        <StripHandles
          reading={reading}
          rooms={drawn.rooms}
          rideEndS={rideEndS}
          locked={locked}
          xOf={xOf}
          secondsAPx={secondsAPx}
          onOverrule={onOverrule}
        />
      )}
      <StripTools {...{ at, span, rideEndS }} {...props} onSpan={setSpan} />
    </section>
  );
}

/** The needle at the cursor. */
function StripNeedle() {
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
  return <canvas ref={needle} className="strip-needle" aria-hidden="true" />;
}

interface ToolsProps {
  readonly at: RefObject<number | null>;
  readonly span: StripSpan;
  readonly rideEndS: number;
  readonly map: boolean | null;
  readonly onMap: () => void;
  readonly other: OtherRideChoice;
  readonly onSpan: Dispatch<SetStateAction<StripSpan>>;
}

/** The other ride, the map, closer, wider, the whole ride. */
function StripTools({ at, span, rideEndS, map, onMap, other, onSpan }: ToolsProps) {
  const zoom = (factor: number) =>
    onSpan((before) => zoomed(before, factor, at.current ?? (span.fromS + span.toS) / 2, rideEndS));
  const whole = () => onSpan({ fromS: 0, toS: rideEndS });
  useKeys(words.title, [
    { keys: "+", words: words.closer, run: () => zoom(CLOSER) },
    { keys: "-", words: words.wider, run: () => zoom(1 / CLOSER) },
    { keys: "w", words: words.whole, run: whole },
    ...(map === null ? [] : [{ keys: "Shift+m", words: words.map, run: onMap }]),
  ]);

  return (
    <div className="strip-tools">
      <OtherRide {...other} />
      {map !== null && (
        <Button kind="bare" keys="Shift+m" aria-pressed={map} onClick={onMap}>
          {words.map}
        </Button>
      )}
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
  );
}
