import type { RefObject } from "react";
import { type CSSProperties, useRef, useState } from "react";
import type { Film } from "../../main/contract/film.ts";
import type { Calls } from "../look/useCalls.ts";
import { useKeys } from "../look/keys.ts";
import { fetchRideColumns } from "../desk/columns.ts";
import { desk } from "../desk/desk.ts";
import { useDebrief } from "../desk/useDesk.ts";
import { useFetched } from "../desk/useFetched.ts";
import { FailureNote } from "../look/FailureNote.tsx";
import { useCalls } from "../look/useCalls.ts";
import { build as words } from "../words/build.ts";
import type { FilmPlace } from "./filmPlayhead.ts";
import { useParts } from "./useParts.ts";
import { FilmParts } from "./FilmParts.tsx";
import { PartForm } from "./PartForm.tsx";
import { StageTools, WhyAndLook } from "./StageTools.tsx";
import { useBuildKeys } from "./useBuildKeys.ts";
import { useFilmEdits } from "./useFilmEdits.ts";
import { FilmStage, type FilmStageHandle } from "./FilmStage.tsx";
import { useDrawing } from "./useDrawing.tsx";
import "./build.css";

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

/** The film's parts, its picture, and the form of the part that is open. */
function FilmBuild({ film, onNext }: { readonly film: Film; readonly onNext: () => void }) {
  const debrief = useDebrief();
  const { clips, document: written } = debrief;
  const { failure, call } = useCalls();
  const stage = useRef<FilmStageHandle>(null);
  const clock = useRef<HTMLSpanElement>(null);
  const [playing, setPlaying] = useState(false);
  const locked = debrief.readOnly !== null;

  const { edit, change, changeLook, comment } = useFilmEdits(debrief, call);
  const parts = useParts({ film, clips, stage, clock, locked, edit });
  const { item, clip, chosen, lengthS, show, choose, move, remove } = parts;
  const playOrStop = () => (stage.current?.playing === true ? stage.current.stop() : stage.current?.play());
  const step = (frames: number) => stage.current?.step(frames);

  const drawing = useDrawing({
    film,
    item,
    stage,
    locked,
    onChange: change,
    onLook: (itemS) => stage.current?.show(chosen, itemS),
  });

  useBuildKeys({ parts, locked, drawing: drawing.moving, onPlayOrStop: playOrStop, onStep: step, onNext });

  return (
    <main className="build">
      <FilmParts
        debrief={debrief}
        film={film}
        lengthS={lengthS}
        chosen={chosen}
        locked={locked}
        onChoose={choose}
        onMove={move}
        onCall={call}
      />
      <section
        className="build-picture"
        aria-label={words.preview}
        style={{ "--film-aspect": `${film.widthPx} / ${film.heightPx}` } as CSSProperties}
      >
        <FilmPicture film={film} stage={stage} drawing={drawing} onPlace={show} onPlaying={setPlaying} onCall={call} />
        <StageTools
          item={item}
          playing={playing}
          clock={clock}
          onPlayOrStop={playOrStop}
          onStep={step}
          onNext={onNext}
        />
        {failure !== null && <FailureNote failure={failure} />}
        <WhyAndLook item={item} document={written} locked={locked} onLook={changeLook} />
      </section>
      <PartForm
        item={item}
        clip={clip}
        chosen={chosen}
        parts={film.items.length}
        locked={locked}
        excused={debrief.excusedParts.find(({ itemId }) => itemId === item.id) ?? null}
        stage={stage}
        listenAddress={debrief.commentAddresses[item.id] ?? null}
        tools={drawing.tools}
        onMove={move}
        onRemove={remove}
        onChange={change}
        onComment={comment}
      />
    </main>
  );
}

interface PictureProps {
  readonly film: Film;
  readonly stage: RefObject<FilmStageHandle | null>;
  readonly drawing: ReturnType<typeof useDrawing>;
  readonly onPlace: (place: FilmPlace) => void;
  readonly onPlaying: (playing: boolean) => void;
  readonly onCall: Calls["call"];
}

/** The film's picture, with what is drawn on it. */
function FilmPicture({ film, stage, drawing, onPlace, onPlaying, onCall }: PictureProps) {
  const { clips, addresses, document: written, commentAddresses } = useDebrief();
  const columns = useFetched(addresses.columns, fetchRideColumns).value;
  return (
    <FilmStage
      film={film}
      clips={clips}
      framesAddress={addresses.frames}
      columns={columns}
      units={written.plan.units}
      language={written.settings.language}
      look={written.settings.look}
      preset={written.settings.preset}
      handle={stage}
      onPlace={onPlace}
      onPlaying={onPlaying}
      onWantProxy={(clipId) => void onCall(() => desk.makeProxy(clipId))}
      commentOf={(id) => commentAddresses[id] ?? null}
      paintDraft={drawing.paintDraft}
      movedDrawing={drawing.movedDrawing}
    >
      {drawing.layer}
    </FilmStage>
  );
}
