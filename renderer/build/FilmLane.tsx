import { type Ref, useEffect, useImperativeHandle, useMemo, useRef, useState } from "react";
import type { DebriefView } from "../../main/contract/debriefApi.ts";
import type { WindowColumns } from "../../main/contract/columnBytes.ts";
import type { Film, Shot } from "../../main/contract/film.ts";
import { filmClock } from "../../overlay/instant/filmClock.ts";
import { themeFor } from "../../overlay/theme.ts";
import { useWidth } from "../look/useWidth.ts";
import { build as words } from "../words/build.ts";
import type { FilmPlace } from "./filmPlayhead.ts";
import { FilmRuler, type FilmRulerHandle } from "./FilmRuler.tsx";
import { type Carried, LanePart } from "./LanePart.tsx";
import { laneScale } from "./laneScale.ts";
import { ShotThread } from "./ShotThread.tsx";
import "./lane.css";

/** Told where the film stands, outside React. */
export interface FilmLaneHandle {
  show(place: FilmPlace): void;
}

interface Props {
  readonly film: Film;
  readonly debrief: DebriefView;
  readonly columns: WindowColumns | null;
  readonly chosen: number;
  readonly locked: boolean;
  readonly handle: Ref<FilmLaneHandle>;
  readonly onChoose: (index: number) => void;
  readonly onMove: (from: number, to: number) => void;
  /** Shows the film at a film time, s. */
  readonly onSeek: (filmS: number) => void;
  readonly onLook: (mediaS: number) => void;
  readonly onTrim: (shot: Shot) => void;
  readonly onCaption: (index: number, caption: number) => void;
}

const NOBODY: Carried = { from: null, over: null };

/** The whole film as one lane: its parts as wide as they last, the ride's thread beneath the shots, a playhead over all. */
export function FilmLane(props: Props) {
  const { film, debrief, columns, chosen, handle, onSeek } = props;
  const { settings } = debrief.document;
  const box = useRef<HTMLDivElement>(null);
  const ruler = useRef<FilmRulerHandle>(null);
  const button = useRef<HTMLButtonElement>(null);
  const [carried, setCarried] = useState(NOBODY);
  const clock = useMemo(() => filmClock(film), [film]);
  const room = useRef<HTMLDivElement>(null);
  const roomPx = useWidth(room);
  const scale = useMemo(() => laneScale(clock, roomPx), [clock, roomPx]);
  const theme = themeFor(settings.look?.ink ?? "light");
  useChosenInSight(button, chosen);
  useImperativeHandle(handle, () => ({ show: ({ filmS }) => ruler.current?.show(filmS) }), []);
  return (
    <section className="lane-film" aria-label={words.lane}>
      <div ref={box} className="lane-scroll scroll">
        <div ref={room} className="lane-room" />
        <div className="lane-all" style={{ width: scale.widthPx }}>
          <FilmRuler handle={ruler} lengthS={clock.lengthS} pxPerS={scale.pxPerS} box={box} onSeek={onSeek} />
          <ol className="build-parts" aria-label={words.list}>
            {film.items.map((item, index) => (
              <LanePart
                key={item.id}
                {...props}
                item={item}
                index={index}
                clip={item.type === "shot" ? debrief.clips.find(({ id }) => id === item.clipId) : undefined}
                scale={scale}
                chosen={index === chosen}
                carried={carried}
                button={button}
                theme={theme}
                language={settings.language}
                thread={
                  item.type === "shot" &&
                  columns !== null && (
                    <ShotThread film={film} index={index} clock={clock} columns={columns} pxPerS={scale.pxPerS} />
                  )
                }
                onCarry={setCarried}
              />
            ))}
          </ol>
        </div>
      </div>
    </section>
  );
}

function useChosenInSight(button: { readonly current: HTMLButtonElement | null }, chosen: number): void {
  useEffect(() => {
    // Newer browsers answer with a promise, which must not become the effect's clean-up.
    void button.current?.scrollIntoView({ block: "nearest", inline: "nearest" });
    // Keys that go on from a focused part take the focus along, lest Space and Enter go to the part left behind.
    if (button.current?.closest("ol")?.contains(document.activeElement)) button.current.focus({ preventScroll: true });
  }, [chosen]);
}
