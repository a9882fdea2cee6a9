import { type KeyboardEvent, type PointerEvent, useRef } from "react";
import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { Shot } from "../../main/contract/film.ts";
import { clockText } from "../../overlay/words/numbers.ts";
import { build as words } from "../words/build.ts";
import { trimmed } from "../film/filmEdits.ts";
import { useCutDraft } from "./useCutDraft.ts";
import { sliderSteps } from "../look/sliderSteps.ts";

interface Props {
  readonly shot: Shot;
  readonly clip: ClipView;
  readonly locked: boolean;
  /** While an edge is moved: shows that instant. */
  readonly onLook: (mediaS: number) => void;
  readonly onTrim: (mediaStartS: number, mediaEndS: number) => void;
}

type Edge = "start" | "end";
const STEPS_S = sliderSteps(0.2, 2);
/** So much of the clip stands on either side of the shot, as a share of its length. */
const ROOM = 0.75;

/** The shot as a stretch of its clip; either edge is dragged or moved by arrow keys. */
export function TrimBar({ shot, clip, locked, onLook, onTrim }: Props) {
  const { now, show, make, makeAtRest, drop } = useCutDraft(shot, onTrim);
  const bar = useRef<HTMLDivElement>(null);

  const roomS = Math.max(10, ROOM * (shot.mediaEndS - shot.mediaStartS));
  const fromS = Math.max(0, shot.mediaStartS - roomS);
  const toS = Math.min(clip.durationS, shot.mediaEndS + roomS);
  const share = (mediaS: number) => `${((mediaS - fromS) / (toS - fromS)) * 100}%`;

  const move = (edge: Edge, mediaS: number): Shot => {
    const next =
      edge === "start"
        ? trimmed(shot, mediaS, now.mediaEndS, clip.durationS)
        : trimmed(shot, now.mediaStartS, mediaS, clip.durationS);
    show(next);
    onLook(edge === "start" ? next.mediaStartS : Math.max(next.mediaStartS, next.mediaEndS - 0.04));
    return next;
  };
  const mediaAt = (event: PointerEvent) => {
    const { left, width } = bar.current!.getBoundingClientRect();
    return fromS + Math.max(0, Math.min(1, (event.clientX - left) / width)) * (toS - fromS);
  };
  const onKey = (edge: Edge, event: KeyboardEvent) => {
    const stepS = STEPS_S[event.key];
    if (stepS === undefined || locked || event.altKey || event.ctrlKey) return;
    event.preventDefault();
    event.stopPropagation();
    makeAtRest(move(edge, (edge === "start" ? now.mediaStartS : now.mediaEndS) + stepS));
  };
  const hand = (edge: Edge) => ({
    mediaS: edge === "start" ? now.mediaStartS : now.mediaEndS,
    left: share(edge === "start" ? now.mediaStartS : now.mediaEndS),
    clipS: clip.durationS,
    locked,
    onKey: (event: KeyboardEvent) => onKey(edge, event),
    onMove: (event: PointerEvent) => void move(edge, mediaAt(event)),
    onSet: (event: PointerEvent) => make(move(edge, mediaAt(event))),
    onDrop: drop,
  });
  return (
    <div className="trim" ref={bar}>
      <TrimPictures strip={clip.filmstrip} fromS={fromS} toS={toS} />
      <div
        className="trim-shot"
        style={{ left: share(now.mediaStartS), right: `calc(100% - ${share(now.mediaEndS)})` }}
      />
      <TrimEdge edge="start" {...hand("start")} />
      <TrimEdge edge="end" {...hand("end")} />
    </div>
  );
}

interface EdgeProps {
  readonly edge: Edge;
  /** Clip time at which it stands, s, and where that is in the bar. */
  readonly mediaS: number;
  readonly left: string;
  readonly clipS: number;
  readonly locked: boolean;
  readonly onKey: (event: KeyboardEvent) => void;
  readonly onMove: (event: PointerEvent) => void;
  readonly onSet: (event: PointerEvent) => void;
  readonly onDrop: () => void;
}

/** Start or end of the shot, to be dragged. */
function TrimEdge({ edge, mediaS, left, clipS, locked, onKey, onMove, onSet, onDrop }: EdgeProps) {
  const moving = useRef(false);
  return (
    <div
      className={`trim-edge ${edge}`}
      style={{ left }}
      role="slider"
      tabIndex={locked ? -1 : 0}
      aria-label={edge === "start" ? words.begins : words.ends}
      aria-valuemin={0}
      aria-valuemax={clipS}
      aria-valuenow={Math.round(mediaS * 100) / 100}
      aria-valuetext={words.clipTime(clockText(mediaS))}
      aria-disabled={locked}
      onKeyDown={onKey}
      onPointerDown={(event) => {
        if (locked || event.button !== 0) return;
        moving.current = true;
        event.currentTarget.setPointerCapture(event.pointerId);
      }}
      onPointerMove={(event) => moving.current && onMove(event)}
      onPointerUp={(event) => {
        if (!moving.current) return;
        moving.current = false;
        onSet(event);
      }}
      onPointerCancel={() => {
        moving.current = false;
        onDrop();
      }}
    />
  );
}

interface PicturesProps {
  readonly strip: ClipView["filmstrip"];
  readonly fromS: number;
  readonly toS: number;
}

/** Small pictures of the stretch that the bar stands for. */
function TrimPictures({ strip, fromS, toS }: PicturesProps) {
  const pictures =
    strip === null
      ? []
      : Array.from({ length: 8 }, (_, k) =>
          Math.min(strip.count - 1, Math.floor((fromS + ((k + 0.5) / 8) * (toS - fromS)) / strip.everyS)),
        ).filter((n) => n >= 0);
  return (
    <div className="trim-pictures" aria-hidden="true">
      {pictures.map((n, k) => (
        <img key={k} src={`${strip!.address}/${n}.jpg`} alt="" draggable={false} />
      ))}
    </div>
  );
}
