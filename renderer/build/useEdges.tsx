import { type PointerEvent, type ReactNode, useEffect, useRef, useState } from "react";
import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { FilmItem, Shot } from "../../main/contract/film.ts";
import { shotLengthS } from "../../overlay/instant/shotTime.ts";
import { trimmed } from "./filmEdits.ts";
import type { LaneScale } from "./laneScale.ts";

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
  const [draft, setDraft] = useState<{ readonly edge: Edge; readonly shot: Shot } | null>(null);
  const from = useRef(0);
  useEffect(() => setDraft(null), [item]);
  if (item.type !== "shot" || clip === undefined || !chosen || locked)
    return { hands: null, moving: false, leftPx: 0, widerPx: 0 };

  const moved = (edge: Edge, event: PointerEvent): Shot => {
    const byS = ((event.clientX - from.current) / scale.pxPerS) * item.speed;
    const shot =
      edge === "start"
        ? trimmed(item, item.mediaStartS + byS, item.mediaEndS, clip.durationS)
        : trimmed(item, item.mediaStartS, item.mediaEndS + byS, clip.durationS);
    setDraft({ edge, shot });
    onLook(edge === "start" ? shot.mediaStartS : Math.max(shot.mediaStartS, shot.mediaEndS - LAST_PICTURE_S));
    return shot;
  };
  const hand = (edge: Edge) => (
    <span
      className={`lane-edge ${edge}`}
      aria-hidden="true"
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        event.preventDefault();
        from.current = event.clientX;
        event.currentTarget.setPointerCapture(event.pointerId);
        setDraft({ edge, shot: item });
      }}
      onPointerMove={(event) => draft !== null && void moved(edge, event)}
      onPointerUp={(event) => {
        if (draft === null) return;
        const shot = moved(edge, event);
        if (shot.mediaStartS === item.mediaStartS && shot.mediaEndS === item.mediaEndS) setDraft(null);
        else onTrim(shot);
      }}
      onPointerCancel={() => setDraft(null)}
    />
  );
  const longerPx = draft === null ? 0 : (shotLengthS(draft.shot) - shotLengthS(item)) * scale.pxPerS;
  return {
    hands: (
      <>
        {hand("start")}
        {hand("end")}
      </>
    ),
    moving: draft !== null,
    leftPx: draft?.edge === "start" ? -longerPx : 0,
    widerPx: longerPx,
  };
}
