import { type KeyboardEvent, type PointerEvent, useEffect, useRef, useState } from "react";
import { clockText } from "../../overlay/words/numbers.ts";
import { sliderSteps } from "../look/sliderSteps.ts";

interface Props {
  readonly label: string;
  readonly atS: number;
  readonly leastS: number;
  readonly mostS: number;
  readonly locked: boolean;
  /** Where a ride time stands, px from the left of the strip; null: out of sight. */
  readonly xOf: (rideS: number) => number | null;
  readonly secondsAPx: number;
  readonly topPx: number;
  readonly heightPx: number;
  /** What kind of mark it is, for its look. */
  readonly kind: "edge" | "reading" | "onset";
  readonly onSet: (rideS: number) => void;
}

const STEPS_S = sliderSteps(1, 60);
/** Keys are taken together until they rest for so long, ms: one edit, one undo. */
const REST_MS = 700;

/** A mark on the strip that can be dragged, or moved by arrow keys; what it stands for is set when it is let go. */
export function Handle({ label, atS, leastS, mostS, locked, xOf, secondsAPx, topPx, heightPx, kind, onSet }: Props) {
  const [draft, setDraft] = useState<number | null>(null);
  const began = useRef<{ readonly x: number; readonly atS: number } | null>(null);
  const rest = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const pending = useRef<number | null>(null);
  const set = useRef(onSet);
  set.current = onSet;
  useEffect(() => setDraft(null), [atS]);
  useEffect(() => () => clearTimeout(rest.current), []);
  const now = draft ?? atS;
  const x = xOf(now);
  if (x === null) return null;
  const clamp = (rideS: number) => Math.max(leastS, Math.min(mostS, Math.round(rideS)));
  const done = () => {
    clearTimeout(rest.current);
    const { current } = pending;
    pending.current = null;
    if (current !== null && current !== Math.round(atS)) set.current(current);
    else setDraft(null);
  };
  const move = (rideS: number) => {
    pending.current = clamp(rideS);
    setDraft(pending.current);
  };
  const onDown = (event: PointerEvent<HTMLDivElement>) => {
    if (event.button !== 0 || locked) return;
    event.stopPropagation();
    began.current = { x: event.clientX, atS: now };
    event.currentTarget.setPointerCapture(event.pointerId);
  };
  const onMove = (event: PointerEvent) => {
    if (began.current !== null) move(began.current.atS + (event.clientX - began.current.x) * secondsAPx);
  };
  const onUp = (event: PointerEvent) => {
    event.stopPropagation();
    if (began.current === null) return;
    began.current = null;
    done();
  };
  const onKey = (event: KeyboardEvent) => {
    const step = STEPS_S[event.key];
    if (event.key === "Enter") done();
    if (step === undefined || locked || event.ctrlKey || event.altKey) return;
    event.preventDefault();
    event.stopPropagation();
    move((pending.current ?? now) + step * (event.shiftKey ? 10 : 1));
    clearTimeout(rest.current);
    rest.current = setTimeout(done, REST_MS);
  };
  return (
    <div
      className={`strip-handle ${kind}`}
      role="slider"
      tabIndex={0}
      aria-label={label}
      aria-valuemin={Math.round(leastS)}
      aria-valuemax={Math.round(mostS)}
      aria-valuenow={Math.round(now)}
      aria-valuetext={clockText(now)}
      aria-disabled={locked}
      title={`${label}: ${clockText(now)}`}
      style={{ left: `${x}px`, top: `${topPx}px`, height: `${heightPx}px` }}
      onPointerDown={onDown}
      onPointerMove={onMove}
      onPointerUp={onUp}
      onPointerCancel={() => {
        began.current = null;
        pending.current = null;
        setDraft(null);
      }}
      onKeyDown={onKey}
      onBlur={done}
    >
      <span className="strip-handle-said">
        {label} {clockText(now)}
      </span>
    </div>
  );
}
