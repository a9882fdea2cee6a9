import { type RefObject, type KeyboardEvent, type PointerEvent, useEffect } from "react";
import type { DrawnStrip, StripContent } from "./paintStrip.ts";
import { type StripSpan, movedBy, zoomed } from "./stripSpan.ts";
import { sliderSteps } from "../look/sliderSteps.ts";

/** A strip as it was drawn, with its width. */
export type DrawnWide = DrawnStrip & { readonly widthPx: number };

interface Given {
  readonly drawn: DrawnWide | null;
  readonly canvas: RefObject<HTMLCanvasElement | null>;
  /** Ride time on the screen, s. */
  readonly at: RefObject<number | null>;
  readonly dragging: RefObject<boolean>;
  readonly moments: StripContent["moments"];
  readonly xOf: (rideS: number) => number | null;
  readonly secondsAPx: number;
  readonly fromS: number;
  readonly rideEndS: number;
  readonly onGo: (rideS: number) => void;
  readonly onSelect: (moment: number) => void;
}

const GO_S = sliderSteps(5, 300);
/** A pointer this near to a moment's mark means the moment, px. */
const REACH_PX = 9;

/** Pointer and keys on the strip: to a ride time, or to the moment whose mark is near. */
export function useStripHand(given: Given) {
  const { drawn, canvas, at, dragging, moments, xOf, secondsAPx, fromS, rideEndS, onGo, onSelect } = given;
  const timeAt = (event: PointerEvent) => {
    const x = event.clientX - canvas.current!.getBoundingClientRect().left;
    return Math.max(0, Math.min(rideEndS - 1, fromS + (x - (drawn?.rooms.left ?? 0)) * secondsAPx));
  };
  const onPointerDown = (event: PointerEvent<HTMLDivElement>) => {
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
  const onKeyDown = (event: KeyboardEvent) => {
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
  const letGo = () => void (dragging.current = false);
  const onPointerMove = (event: PointerEvent) => dragging.current && onGo(timeAt(event));
  return { onPointerDown, onPointerMove, onPointerUp: letGo, onPointerCancel: letGo, onKeyDown };
}

/** The wheel: with Ctrl closer and wider, else along. */
export function useStripWheel(
  slider: RefObject<HTMLDivElement | null>,
  spanNow: RefObject<StripSpan>,
  rideEndS: number,
  onSpan: (change: (before: StripSpan) => StripSpan) => void,
): void {
  // Wheel listeners of React can't keep the page from moving.
  useEffect(() => {
    const element = slider.current!;
    const onWheel = (event: WheelEvent) => {
      if (!event.ctrlKey && !event.shiftKey && Math.abs(event.deltaX) <= Math.abs(event.deltaY)) return;
      event.preventDefault();
      const { fromS, toS } = spanNow.current;
      const share = (event.clientX - element.getBoundingClientRect().left) / Math.max(1, element.clientWidth);
      if (event.ctrlKey)
        onSpan((before) => zoomed(before, event.deltaY > 0 ? 1.25 : 0.8, fromS + share * (toS - fromS), rideEndS));
      else onSpan((before) => movedBy(before, ((event.deltaX || event.deltaY) / 600) * (toS - fromS), rideEndS));
    };
    element.addEventListener("wheel", onWheel, { passive: false });
    return () => element.removeEventListener("wheel", onWheel);
  }, [rideEndS]);
}
