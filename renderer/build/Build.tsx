import { useRef, useState } from "react";
import type { Film } from "../../main/contract/film.ts";
import { defaultPanels } from "../../overlay/layout/layout.ts";
import { useKeys } from "../look/keys.ts";
import { fetchRideColumns } from "../desk/columns.ts";
import { desk } from "../desk/desk.ts";
import { useDebrief } from "../desk/useDesk.ts";
import { useFetched } from "../desk/useFetched.ts";
import { useCalls } from "../look/useCalls.ts";
import { build as words } from "../words/build.ts";
import { BuildPicture } from "./BuildPicture.tsx";
import { FilmLane, type FilmLaneHandle } from "./FilmLane.tsx";
import { PartForm } from "./PartForm.tsx";
import { TaughtParts } from "./TaughtParts.tsx";
import { WholeFilm } from "./WholeFilm.tsx";
import { itemTitle } from "./itemTitle.ts";
import { useBuildKeys } from "./useBuildKeys.ts";
import { useCaptionTyping } from "./useCaptionTyping.tsx";
import { useFraming } from "../framing/useFraming.tsx";
import { useFilmEdits } from "./useFilmEdits.ts";
import { useFolds } from "./useFolds.ts";
import { useLargeView } from "./useLargeView.ts";
import { useParts } from "./useParts.ts";
import type { FilmStageHandle } from "./FilmStage.tsx";
import { useDrawing } from "./useDrawing.tsx";
import "./build.css";

/** So far into a caption it is sure to stand on the picture, s. */
const INTO_CAPTION_S = 0.05;

/** Build: the film as shots and cards in order, played without being rendered. */
export function Build({ onNext }: { readonly onNext: () => void }) {
  const { film } = useDebrief();
  return film === null || film.items.length === 0 ? (
    <NoFilm onNext={onNext} />
  ) : (
    <FilmBuild film={film} onNext={onNext} />
  );
}

function NoFilm({ onNext }: { readonly onNext: () => void }) {
  useKeys(words.title, [{ keys: "Ctrl+Enter", words: words.handover, run: onNext, inFields: true }]);
  return (
    <main className="build-none">
      <h1>{words.title}</h1>
      <p>{words.none}</p>
    </main>
  );
}

/** The film's picture, its lane below, and at the side the form of the part that is open. */
function FilmBuild({ film, onNext }: { readonly film: Film; readonly onNext: () => void }) {
  const debrief = useDebrief();
  const { clips, roads } = debrief;
  const columns = useFetched(debrief.addresses.columns, fetchRideColumns).value;
  const { failure, call } = useCalls();
  const stage = useRef<FilmStageHandle>(null);
  const lane = useRef<FilmLaneHandle>(null);
  const clock = useRef<HTMLSpanElement>(null);
  const [playing, setPlaying] = useState(false);
  const locked = debrief.readOnly !== null;

  const { edit, change, changeLook, comment } = useFilmEdits(debrief, call);
  const parts = useParts({ debrief, film, clips, stage, lane, clock, locked, edit });
  const { item, clip, chosen, lengthS, choose, move, remove } = parts;
  const fold = useFolds(item);
  const view = useLargeView();
  const playOrStop = () => (stage.current?.playing === true ? stage.current.stop() : stage.current?.play());
  const step = (frames: number) => stage.current?.step(frames);
  const onLook = (itemS: number) => stage.current?.show(chosen, itemS);
  const framing = useFraming({ film, item, clip, stage, locked, onChange: change });
  const drawing = useDrawing({ film, item, stage, locked, onChange: change, onLook });
  const caption = useCaptionTyping({ item, stage, locked, onChange: change });
  const openCaption = (index: number, at: number) => {
    const part = film.items[index];
    if (part?.type !== "shot") return;
    choose(index, (part.captions[at]?.startS ?? 0) + INTO_CAPTION_S);
    caption.begin(at, part.id);
  };
  useBuildKeys({
    parts,
    locked,
    view,
    drawing: drawing.moving || framing.whole,
    onPlayOrStop: playOrStop,
    onStep: step,
    onNext,
  });

  return (
    <main className={view.large ? "build large" : "build"}>
      <h1 className="unseen">{words.title}</h1>
      <BuildPicture
        {...{ film, columns, stage, clock, item, locked, view, drawing, framing, caption, failure, onNext }}
        onPlace={parts.show}
        onCall={call}
        onStep={step}
        playing={playing}
        onPlaying={setPlaying}
        onPlayOrStop={playOrStop}
      />
      <FilmLane
        film={film}
        debrief={debrief}
        columns={columns}
        chosen={chosen}
        locked={locked}
        handle={lane}
        onChoose={choose}
        onMove={move}
        onSeek={(filmS) => stage.current?.seek(filmS)}
        onLook={(mediaS) => stage.current?.look(mediaS)}
        onTrim={(shot) => change(shot, words.labels.cut)}
        onCaption={openCaption}
      />
      <PartForm
        {...{ item, clip, clips, chosen, locked, fold, stage, framing, roads, onMove: move, onRemove: remove }}
        title={itemTitle(item, debrief)}
        parts={film.items.length}
        panels={debrief.document.settings.look?.panels ?? defaultPanels}
        excused={debrief.excusedParts.find(({ itemId }) => itemId === item.id) ?? null}
        taught={<TaughtParts debrief={debrief} onCall={call} />}
        listenAddress={debrief.commentAddresses[item.id] ?? null}
        drawings={drawing.drawings}
        wholeFilm={<WholeFilm {...{ debrief, film, lengthS, locked, fold }} onLook={changeLook} onCall={call} />}
        onChange={change}
        onBeside={(ask) => void call(() => desk.showBeside(ask, debrief.edit))}
        onCaption={() => caption.begin(null)}
        onComment={comment}
      />
    </main>
  );
}
