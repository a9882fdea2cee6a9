import { type RefObject, type Ref, useImperativeHandle, useLayoutEffect, useRef } from "react";
import { clockText } from "../../overlay/words/numbers.ts";
import { strip as words } from "../words/strip.ts";
import type { DrawnWide } from "./useStripHand.ts";
import { type StripSpan, following } from "./stripSpan.ts";

/** Moves the cursor without drawing the strip anew. */
export interface StripHandle {
  /** Ride time that is on the screen, s; null hides the cursor. */
  show(rideS: number | null): void;
}

interface Given {
  readonly handle: Ref<StripHandle>;
  readonly cursor: RefObject<HTMLDivElement | null>;
  readonly slider: RefObject<HTMLDivElement | null>;
  readonly at: RefObject<number | null>;
  readonly dragging: RefObject<boolean>;
  readonly drawn: DrawnWide | null;
  readonly span: StripSpan;
  readonly spanNow: RefObject<StripSpan>;
  readonly xOf: (rideS: number) => number | null;
  readonly rideEndS: number;
  readonly onSpan: (change: (before: StripSpan) => StripSpan) => void;
}

/** The cursor follows the picture, outside React; what is shown of the ride follows the cursor. */
export function useStripCursor(given: Given): void {
  const { handle, cursor, slider, at, dragging, drawn, span, spanNow, xOf, rideEndS, onSpan } = given;
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
  useLayoutEffect(() => placing.current(), [drawn, span]);
  useImperativeHandle(
    handle,
    () => ({
      show(rideS) {
        at.current = rideS;
        if (rideS !== null && !dragging.current && (rideS < spanNow.current.fromS || rideS > spanNow.current.toS))
          onSpan((before) => following(before, rideS, rideEndS));
        placing.current();
      },
    }),
    [rideEndS],
  );
}
