import { type DragEvent, useEffect, useRef, useState } from "react";
import type { DebriefView } from "../../main/contract/debriefApi.ts";
import type { Film } from "../../main/contract/film.ts";
import { keepUnits } from "../../overlay/words/keepUnits.ts";
import { itemLengthS } from "../../overlay/instant/filmClock.ts";
import { durationText } from "../../overlay/words/numbers.ts";
import { build as words } from "../words/build.ts";
import { itemTitle } from "./itemTitle.ts";

interface Props {
  readonly film: Film;
  readonly debrief: Pick<DebriefView, "momentWords" | "excusedParts">;
  readonly chosen: number;
  readonly locked: boolean;
  readonly onChoose: (index: number) => void;
  readonly onMove: (from: number, to: number) => void;
}

/** The film's parts in order, each as long a stroke as it lasts; dragged to another place, or moved by keys. */
export function PartList({ film, debrief, chosen, locked, onChoose, onMove }: Props) {
  const [from, setFrom] = useState<number | null>(null);
  const [over, setOver] = useState<number | null>(null);
  const row = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    // Newer browsers answer with a promise, which must not become the effect's clean-up.
    void row.current?.scrollIntoView({ block: "nearest" });
    // Keys that go on from a focused row take the focus along, lest Space and Enter go to the row left behind.
    if (row.current?.closest("ol")?.contains(document.activeElement)) row.current.focus({ preventScroll: true });
  }, [chosen]);
  const longestS = Math.max(1, ...film.items.map(itemLengthS));
  const drop = (event: DragEvent, to: number) => {
    event.preventDefault();
    if (from !== null && from !== to) onMove(from, to);
    setFrom(null);
    setOver(null);
  };
  return (
    <ol className="rows build-parts scroll" aria-label={words.list}>
      {film.items.map((item, index) => {
        const lengthS = itemLengthS(item);
        const title = itemTitle(item, debrief);
        return (
          <li
            key={item.id}
            className={`${item.type === "shot" ? "firm" : ""} ${index === chosen ? "chosen" : ""} ${over === index && from !== index ? "onto" : ""}`}
            draggable={!locked}
            onDragStart={(event) => {
              event.dataTransfer.effectAllowed = "move";
              event.dataTransfer.setData("text/plain", item.id);
              setFrom(index);
            }}
            onDragOver={(event) => {
              if (from === null) return;
              event.preventDefault();
              setOver(index);
            }}
            onDragEnd={() => {
              setFrom(null);
              setOver(null);
            }}
            onDrop={(event) => drop(event, index)}
          >
            <button
              ref={index === chosen ? row : undefined}
              type="button"
              className="build-part"
              aria-current={index === chosen ? "true" : undefined}
              onClick={() => onChoose(index)}
            >
              <span className="name">{keepUnits(title)}</span>
              <span className="quiet small">
                {item.type === "shot" ? words.shot : words.card}, {durationText(lengthS)}
                {item.type === "shot" && item.speed !== 1 ? `, ${words.times(item.speed)}` : ""}
                {item.commentPath === null ? "" : `, ${words.comment.toLowerCase()}`}
                {debrief.excusedParts.some(({ itemId }) => itemId === item.id) && (
                  <b className="build-excused">. {words.excusedShort}</b>
                )}
              </span>
              <span className="build-length" aria-hidden="true" style={{ width: `${(lengthS / longestS) * 100}%` }} />
            </button>
          </li>
        );
      })}
    </ol>
  );
}
