import type { DragEvent, ReactNode, RefObject } from "react";
import type { ClipView, DebriefView } from "../../main/contract/debriefApi.ts";
import type { FilmItem, Shot } from "../../main/contract/film.ts";
import { durationText, factorText } from "../../overlay/words/numbers.ts";
import { build as words } from "../words/build.ts";
import { itemTitle } from "./itemTitle.ts";
import type { LaneScale } from "./laneScale.ts";
import { type PicturesGiven, PartPictures } from "./PartPictures.tsx";
import { PartMarks } from "./PartMarks.tsx";
import { useEdges } from "./useEdges.tsx";

/** Which part is carried, and over which. */
export interface Carried {
  readonly from: number | null;
  readonly over: number | null;
}

export interface LanePartProps extends PicturesGiven {
  readonly item: FilmItem;
  readonly index: number;
  readonly clip: ClipView | undefined;
  readonly scale: LaneScale;
  readonly debrief: Pick<DebriefView, "momentWords" | "excusedParts" | "taughtParts">;
  readonly chosen: boolean;
  readonly locked: boolean;
  readonly carried: Carried;
  /** The button of the part that is open. */
  readonly button: RefObject<HTMLButtonElement | null>;
  readonly thread: ReactNode;
  readonly onChoose: (index: number) => void;
  readonly onCarry: (carried: Carried) => void;
  readonly onMove: (from: number, to: number) => void;
  readonly onLook: (mediaS: number) => void;
  readonly onTrim: (shot: Shot) => void;
  readonly onCaption: (index: number, caption: number) => void;
}

/** A part in the lane, as wide as it lasts: taken by its middle to another place, by its edges to be cut. */
export function LanePart(props: LanePartProps) {
  const { item, index, scale, debrief, chosen, locked, carried, button, onChoose, onCarry } = props;
  const { leftPx, widthPx } = scale.parts[index]!;
  const title = itemTitle(item, debrief);
  const excused = debrief.excusedParts.some(({ itemId }) => itemId === item.id);
  const taught = debrief.taughtParts.some(({ itemId }) => itemId === item.id);
  const edges = useEdges(props);
  const { from, over } = carried;
  const onto = over !== index || from === null || from === index ? "" : from > index ? "before" : "after";
  const lastsS = scale.parts[index]!.widthPx / scale.pxPerS;
  return (
    <li
      className={`lane-part ${item.type === "shot" ? "firm" : ""} ${chosen ? "chosen" : ""} ${onto}`}
      style={{ left: leftPx + edges.leftPx, width: widthPx + edges.widerPx }}
      {...carrying(props)}
    >
      <div
        className="lane-body"
        draggable={!locked && !edges.moving}
        onDragStart={(event) => {
          event.dataTransfer.effectAllowed = "move";
          event.dataTransfer.setData("text/plain", item.id);
          onCarry({ from: index, over: null });
        }}
        onDragEnd={() => onCarry({ from: null, over: null })}
      >
        <button
          ref={chosen ? button : undefined}
          type="button"
          className="build-part"
          title={`${title}, ${durationText(lastsS)}`}
          aria-current={chosen ? "true" : undefined}
          onClick={() => onChoose(index)}
        >
          <span className="name">{title}</span>
          <span className="unseen">{`, ${item.type === "shot" ? words.shot : words.card}, ${durationText(lastsS)}`}</span>
          <PartPictures {...props} widthPx={widthPx} pxPerS={scale.pxPerS} />
          {item.type === "shot" && item.speed !== 1 && <span className="lane-tag">{factorText(item.speed)}</span>}
          {excused && <b className="lane-tag build-excused">{words.excusedShort}</b>}
          {taught && <b className="lane-tag build-excused">{words.taughtShort}</b>}
        </button>
      </div>
      {props.thread}
      <PartMarks item={item} pxPerS={scale.pxPerS} widthPx={widthPx} onCaption={(at) => props.onCaption(index, at)} />
      {edges.hands}
    </li>
  );
}

/** What a part that is carried over this one does to it. */
function carrying({ index, carried: { from }, onCarry, onMove }: LanePartProps) {
  return {
    onDragOver: (event: DragEvent) => {
      if (from === null) return;
      event.preventDefault();
      onCarry({ from, over: index });
    },
    onDrop: (event: DragEvent) => {
      if (from === null) return;
      event.preventDefault();
      event.stopPropagation();
      if (from !== index) onMove(from, index);
      onCarry({ from: null, over: null });
    },
  };
}
