import { type PointerEvent, type ReactNode, useRef } from "react";
import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { FilmItem, Shot } from "../../main/contract/film.ts";
import { shotLengthS } from "../../overlay/instant/shotTime.ts";
import { trimmed } from "../film/filmEdits.ts";
import type { LaneScale } from "./laneScale.ts";
import { useCutDraft } from "./useCutDraft.ts";

interface Given {
  readonly item: FilmItem;
  readonly clip: ClipView | undefined;
  readonly scale: LaneScale;
  readonly chosen: boolean;
  readonly locked: boolean;
  /** Shows a clip time while an edge is moved. */
  readonly onLook: (mediaS: number) => void;
  readonly onTrim: (shot: Shot) => void;
}

type Edge = "start" | "end";
/** The end shows the last picture, not the first that is cut away, s. */
const LAST_PICTURE_S = 0.04;

/**
 * The edges of the shot that is open, to be cut by the hand: what they are taken by, and how far the part is moved and
 * widened meanwhile. By keys a shot is cut in its form.
 */
export function useEdges({ item, clip, scale, chosen, locked, onLook, onTrim }: Given): {
  readonly hands: ReactNode;
  readonly moving: boolean;
  readonly leftPx: number;
  readonly widerPx: number;
} {
  const shot = item.type === "shot" ? item : null;
  const cut = useCutDraft(shot, (startS, endS) => {
    if (shot !== null && clip !== undefined) onTrim(trimmed(shot, startS, endS, clip.durationS));
  });
  /** Where the hand took it, and the shot as it was shown then. */
  const taken = useRef<{ readonly edge: Edge; readonly x: number; readonly shot: Shot } | null>(null);
  const { now } = cut;
  if (shot === null || now === null || clip === undefined) return { hands: null, moving: false, leftPx: 0, widerPx: 0 };

  const moved = ({ edge, x, shot: from }: NonNullable<typeof taken.current>, event: PointerEvent): Shot => {
    const byS = ((event.clientX - x) / scale.pxPerS) * from.speed;
    const next =
      edge === "start"
        ? trimmed(from, from.mediaStartS + byS, from.mediaEndS, clip.durationS)
        : trimmed(from, from.mediaStartS, from.mediaEndS + byS, clip.durationS);
    onLook(edge === "start" ? next.mediaStartS : Math.max(next.mediaStartS, next.mediaEndS - LAST_PICTURE_S));
    return next;
  };
  const hand = (edge: Edge) => (
    <span
      className={`lane-edge ${edge}`}
      aria-hidden="true"
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        event.preventDefault();
        event.currentTarget.setPointerCapture(event.pointerId);
        taken.current = { edge, x: event.clientX, shot: now };
        cut.show(now);
      }}
      onPointerMove={(event) => taken.current !== null && cut.show(moved(taken.current, event))}
      onPointerUp={(event) => {
        if (taken.current === null) return;
        const next = moved(taken.current, event);
        taken.current = null;
        cut.show(next);
        cut.make(next);
      }}
      onLostPointerCapture={() => {
        // The lane was put in another order meanwhile: what is shown is what was meant.
        if (taken.current === null) return;
        taken.current = null;
        cut.make(now);
      }}
      onPointerCancel={() => {
        taken.current = null;
        cut.drop();
      }}
    />
  );
  return {
    hands: chosen && !locked && (
      <>
        {hand("start")}
        {hand("end")}
      </>
    ),
    moving: now !== shot,
    leftPx: ((now.mediaStartS - shot.mediaStartS) / shot.speed) * scale.pxPerS,
    widerPx: (shotLengthS(now) - shotLengthS(shot)) * scale.pxPerS,
  };
}
