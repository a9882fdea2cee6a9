import { type CSSProperties, useEffect, useMemo, useRef, useState } from "react";
import type { Film, FilmItem } from "../../main/contract/film.ts";
import type { FilmLook } from "../../main/contract/filmLook.ts";
import { filmClock } from "../../overlay/instant/filmClock.ts";
import { clockText, durationText } from "../../overlay/words/numbers.ts";
import { fetchRideColumns } from "../desk/columns.ts";
import { desk } from "../desk/desk.ts";
import { useDebrief } from "../desk/useDesk.ts";
import { useFetched } from "../desk/useFetched.ts";
import { Button } from "../look/Button.tsx";
import { FailureNote } from "../look/FailureNote.tsx";
import { NumberField } from "../look/NumberField.tsx";
import { useKeys } from "../look/keys.ts";
import { useCalls } from "../look/useCalls.ts";
import { build as words } from "../words/build.ts";
import { player as playerWords } from "../words/player.ts";
import { CardForm } from "./CardForm.tsx";
import { CommentForm } from "./CommentForm.tsx";
import { FilmStage, type FilmStageHandle } from "./FilmStage.tsx";
import type { FilmPlace } from "./filmPlayhead.ts";
import { movedItem, withItem, withoutItem } from "./filmEdits.ts";
import { LookForm } from "./LookForm.tsx";
import { PartList } from "./PartList.tsx";
import { ShotForm } from "./ShotForm.tsx";
import { useDrawing } from "./useDrawing.tsx";
import { base64Of } from "./wavBytes.ts";
import "./build.css";

/** Shortest and longest film that the program picks, s. */
const WISHED_S = { least: 20, most: 1800 } as const;

const NO_FILM: Film = { widthPx: 16, heightPx: 9, frameRate: { num: 30, den: 1 }, items: [], leftOut: [] };

/** Build: the film as shots and cards in order, played without being rendered. */
export function Build({ onNext }: { readonly onNext: () => void }) {
  const debrief = useDebrief();
  const { film, clips, addresses, document: written } = debrief;
  const { failure, call } = useCalls();
  const stage = useRef<FilmStageHandle>(null);
  const clock = useRef<HTMLSpanElement>(null);
  const [chosenId, setChosenId] = useState<string | null>(null);
  const [playing, setPlaying] = useState(false);
  const columns = useFetched(addresses.columns, fetchRideColumns).value;
  const locked = debrief.readOnly !== null;

  const items = film?.items ?? [];
  const chosen = Math.max(
    0,
    items.findIndex(({ id }) => id === chosenId),
  );
  const item = items[chosen];
  const clip = item?.type === "shot" ? clips.find(({ id }) => id === item.clipId) : undefined;
  const lengthS = useMemo(() => (film === null ? 0 : filmClock(film).lengthS), [film]);

  const show = (place: FilmPlace) => {
    if (film === null) return;
    if (clock.current !== null)
      clock.current.textContent = `${clockText(Math.floor(place.filmS))} / ${clockText(Math.round(lengthS))}`;
    const id = film.items[place.index]?.id ?? null;
    if (id !== chosenId) setChosenId(id);
  };
  useEffect(() => {
    if (film !== null) stage.current?.show(chosen, 0);
    // Only when the screen opens: later the person goes where they like.
  }, [film === null]);

  const edit = (value: Film, label: string) => void call(() => desk.edit({ part: "film", value, label }, debrief.edit));
  const change = (next: FilmItem, label: string) => film !== null && edit(withItem(film, next), label);
  const changeLook = (value: Partial<FilmLook>, label: string) =>
    void call(() => desk.edit({ part: "settings", value: { ...written.settings, look: value }, label }, debrief.edit));
  const choose = (index: number) => {
    if (index < 0 || index >= items.length) return;
    setChosenId(items[index]!.id);
    stage.current?.show(index, 0);
  };
  const move = (from: number, to: number) =>
    film !== null && !locked && edit(movedItem(film, from, to), words.labels.move);
  const remove = () => {
    if (film === null || item === undefined || locked) return;
    setChosenId(items[chosen + 1]?.id ?? items[chosen - 1]?.id ?? null);
    edit(withoutItem(film, item.id), words.labels.remove);
  };
  const playOrStop = () => (stage.current?.playing === true ? stage.current.stop() : stage.current?.play());
  const commentOf = (id: string) => debrief.commentAddresses[id] ?? null;
  const comment = (itemId: string, wav: Uint8Array | null) =>
    call(() => desk.setComment(itemId, wav === null ? null : base64Of(wav)));

  const drawing = useDrawing({
    film: film ?? NO_FILM,
    item,
    stage,
    locked,
    onChange: change,
    onLook: (itemS) => stage.current?.show(chosen, itemS),
  });

  useKeys(words.title, [
    { keys: " ", words: words.playKey, run: playOrStop },
    { keys: "ArrowUp", words: words.previous, run: () => choose(chosen - 1) },
    { keys: "ArrowDown", words: words.next, run: () => choose(chosen + 1) },
    { keys: ",", words: playerWords.frameBack, run: () => stage.current?.step(-1) },
    { keys: ".", words: playerWords.frameOn, run: () => stage.current?.step(1) },
    ...(locked
      ? []
      : [
          { keys: "Alt+ArrowUp", words: words.earlier, run: () => move(chosen, chosen - 1) },
          { keys: "Alt+ArrowDown", words: words.later, run: () => move(chosen, chosen + 1) },
          { keys: "Delete", words: words.remove, run: remove },
        ]),
    { keys: "Ctrl+Enter", words: words.handover, run: onNext, inFields: true },
  ]);

  if (film === null || item === undefined)
    return (
      <main className="build-none">
        <h1>{words.title}</h1>
        <p>{words.none}</p>
      </main>
    );
  return (
    <main className="build">
      <section className="part build-film">
        <header>
          <h1>{words.title}</h1>
          <span className="figure">{words.lasts(durationText(lengthS))}</span>
        </header>
        <p className="quiet small">{written.filmSetBy === "coach" ? words.byCoach : words.byProgram}</p>
        {!locked && (
          <div className="row build-wished">
            <NumberField
              label={words.wished}
              unit={words.seconds}
              value={written.settings.lengthS}
              least={WISHED_S.least}
              most={WISHED_S.most}
              onChange={(value) => value !== null && void call(() => desk.pickFilm(value))}
            />
            <Button title={words.pickMore} onClick={() => void call(() => desk.pickFilm(written.settings.lengthS))}>
              {words.pick}
            </Button>
          </div>
        )}
        <PartList film={film} debrief={debrief} chosen={chosen} locked={locked} onChoose={choose} onMove={move} />
        {film.leftOut.length > 0 && (
          <details>
            <summary>{words.leftOut}</summary>
            <ul className="small quiet stack">
              {film.leftOut.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          </details>
        )}
      </section>
      <section
        className="build-picture"
        aria-label={words.preview}
        style={{ "--film-aspect": `${film.widthPx} / ${film.heightPx}` } as CSSProperties}
      >
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
          onPlace={show}
          onPlaying={setPlaying}
          onWantProxy={(clipId) => void call(() => desk.makeProxy(clipId))}
          commentOf={commentOf}
          paintDraft={drawing.paintDraft}
          movedDrawing={drawing.movedDrawing}
        >
          {drawing.layer}
        </FilmStage>
        <div className="row apart">
          <div className="row">
            <Button kind="main" keys=" " onClick={playOrStop}>
              {playing ? words.stop : words.play}
            </Button>
            <span ref={clock} className="figure" />
          </div>
          {item.type === "shot" && (
            <div className="row build-frames">
              <Button kind="bare" keys="," onClick={() => stage.current?.step(-1)}>
                {playerWords.frameBack}
              </Button>
              <Button kind="bare" keys="." onClick={() => stage.current?.step(1)}>
                {playerWords.frameOn}
              </Button>
            </div>
          )}
          <Button kind="main" keys="Ctrl+Enter" onClick={onNext}>
            {words.handover}
          </Button>
        </div>
        {failure !== null && <FailureNote failure={failure} />}
        <details open>
          <summary>{words.why}</summary>
          <p className="small quiet">{item.why}</p>
        </details>
        <details>
          <summary>{words.look}</summary>
          <LookForm
            look={written.settings.look ?? {}}
            planUnits={written.plan.units}
            locked={locked}
            onChange={changeLook}
          />
        </details>
      </section>
      <section className="part build-form scroll" aria-label={item.type === "shot" ? words.shot : words.card}>
        <header>
          <h2>{item.type === "shot" ? words.shot : words.cards[item.card.kind]}</h2>
          {!locked && (
            <div className="row">
              <Button kind="bare" disabled={chosen === 0} onClick={() => move(chosen, chosen - 1)}>
                {words.earlier}
              </Button>
              <Button kind="bare" disabled={chosen === items.length - 1} onClick={() => move(chosen, chosen + 1)}>
                {words.later}
              </Button>
              <Button kind="bare" onClick={remove}>
                {words.remove}
              </Button>
            </div>
          )}
        </header>
        {item.type === "shot" && clip !== undefined && (
          <ShotForm
            key={item.id}
            shot={item}
            clip={clip}
            first={chosen === 0}
            locked={locked}
            onLook={(mediaS) => stage.current?.look(mediaS)}
            mediaNow={() => stage.current?.mediaS ?? null}
            itemNow={() => stage.current?.place.itemS ?? 0}
            onChange={change}
          />
        )}
        {drawing.tools}
        {item.type === "card" && (
          <CardForm key={item.id} item={item} first={chosen === 0} locked={locked} onChange={change} />
        )}
        <CommentForm
          item={item}
          locked={locked}
          listenAddress={commentOf(item.id)}
          onBegin={() => {
            stage.current?.show(chosen, 0);
            stage.current?.play(true);
          }}
          onEnd={() => stage.current?.stop()}
          onComment={comment}
        />
      </section>
    </main>
  );
}
