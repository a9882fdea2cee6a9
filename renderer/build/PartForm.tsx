import type { ReactNode, RefObject } from "react";
import type { BesideAsk, ClipView, DebriefView, ExcusedPart } from "../../main/contract/debriefApi.ts";
import type { FilmItem } from "../../main/contract/film.ts";
import { clockText, durationText } from "../../overlay/words/numbers.ts";
import type { PanelName } from "../../main/contract/filmLook.ts";
import type { Framing } from "../framing/useFraming.tsx";
import { Button } from "../look/Button.tsx";
import { reasonWords } from "../words/reasonWords.ts";
import { build as words } from "../words/build.ts";
import { draw as drawWords } from "../words/draw.ts";
import { framing as framingWords } from "../words/framing.ts";
import { BesideForm } from "./BesideForm.tsx";
import { CardForm } from "./CardForm.tsx";
import { CommentForm } from "./CommentForm.tsx";
import type { FilmStageHandle } from "./FilmStage.tsx";
import { Fold } from "./Fold.tsx";
import { PairForm } from "./PairForm.tsx";
import { ShotForm } from "./ShotForm.tsx";
import type { FoldOf } from "./useFolds.ts";

interface Props {
  readonly item: FilmItem;
  /** What it is called. */
  readonly title: string;
  /** The clip of a shot. */
  readonly clip: ClipView | undefined;
  readonly chosen: number;
  readonly parts: number;
  readonly locked: boolean;
  readonly fold: FoldOf;
  /** Its break has been given a reason since; null: it has not, or it teaches none. */
  readonly excused: ExcusedPart | null;
  /** What the film still teaches a rider whose note comes first, and a way to leave it out. */
  readonly taught: ReactNode;
  readonly stage: RefObject<FilmStageHandle | null>;
  readonly listenAddress: string | null;
  /** The drawings on the part, and when each shows. */
  readonly drawings: ReactNode;
  readonly framing: Framing;
  /** What concerns the film as a whole. */
  readonly wholeFilm: ReactNode;
  readonly onMove: (from: number, to: number) => void;
  readonly onRemove: () => void;
  readonly onChange: (item: FilmItem, label: string) => void;
  /** Numbers that the film shows. */
  readonly panels: readonly PanelName[];
  /** Other rides along this one's roads, and a shot of two made anew. */
  readonly roads: DebriefView["roads"];
  readonly clips: readonly ClipView[];
  readonly onBeside: (ask: BesideAsk) => void;
  readonly onCaption: () => void;
  readonly onComment: (itemId: string, wav: Uint8Array | null) => Promise<boolean>;
}

/** The part that is open: its place, its cut or its words, drawings and the spoken comment; and the film as a whole. */
export function PartForm(props: Props) {
  const { item, clip, chosen, locked, fold, stage, onChange } = props;
  const first = chosen === 0;
  return (
    <section className="build-form scroll" aria-label={item.type === "shot" ? words.shot : words.card}>
      {props.taught}
      <PartHead {...props} />
      {item.type === "shot" && clip !== undefined && (
        <ShotForm
          key={item.id}
          shot={item}
          clip={clip}
          first={first}
          locked={locked}
          fold={fold}
          onLook={(mediaS) => stage.current?.look(mediaS)}
          mediaNow={() => stage.current?.mediaS ?? null}
          onChange={onChange}
          onCaption={props.onCaption}
        />
      )}
      {item.type === "shot" && (
        <Fold title={drawWords.drawings} said={words.count(item.drawings.length)} state={fold("drawings")}>
          {props.drawings}
        </Fold>
      )}
      {item.type === "shot" && (
        <Fold title={framingWords.covers.title} said={words.count(item.covers?.length ?? 0)} state={fold("covers")}>
          {props.framing.covers}
        </Fold>
      )}
      {item.type === "shot" && (
        <Fold title={framingWords.closeUp.title} said={words.count(item.closeUp?.length ?? 0)} state={fold("closeUp")}>
          {props.framing.closeUp}
        </Fold>
      )}
      {item.type === "shot" && item.beside !== undefined && (
        <Fold title={words.beside.title} said={item.beside.name} state={fold("beside")}>
          <BesideForm shot={item} beside={item.beside} shown={props.panels} locked={locked} onChange={onChange} />
        </Fold>
      )}
      {item.type === "card" && item.card.kind === "pair" && (
        <Fold title={words.pair.title} said={words.lastsPart(durationText(item.durationS))} state={fold("text")}>
          <PairForm
            {...{ item, locked }}
            card={item.card}
            roads={props.roads}
            clips={props.clips}
            onShow={props.onBeside}
          />
        </Fold>
      )}
      {item.type === "card" && item.card.kind !== "pair" && (
        <Fold title={words.text} said={words.lastsPart(durationText(item.durationS))} state={fold("text")}>
          <CardForm key={item.id} item={item} first={first} locked={locked} onChange={onChange} />
        </Fold>
      )}
      <PartComment {...props} />
      {props.wholeFilm}
    </section>
  );
}

/** What the part is, why it is in the film, and its place. */
function PartHead({ item, title, chosen, parts, locked, excused, onMove, onRemove }: Props) {
  return (
    <header className="build-head stack">
      <h2>{item.type === "shot" ? words.shot : words.cards[item.card.kind]}</h2>
      <p>{title}</p>
      <p className="small quiet">{words.because(item.why)}</p>
      {excused !== null && (
        <div className="note unsure stack" role="status">
          <p>{words.excused(clockText(excused.breakStartS), reasonWords(excused.reason))}</p>
          {!locked && (
            <div>
              <Button onClick={onRemove}>{words.takeOut}</Button>
            </div>
          )}
        </div>
      )}
      {!locked && (
        <div className="row build-place">
          <Button kind="bare" disabled={chosen === 0} onClick={() => onMove(chosen, chosen - 1)}>
            {words.earlier}
          </Button>
          <Button kind="bare" disabled={chosen === parts - 1} onClick={() => onMove(chosen, chosen + 1)}>
            {words.later}
          </Button>
          <Button kind="bare" onClick={onRemove}>
            {words.remove}
          </Button>
        </div>
      )}
    </header>
  );
}

function PartComment({ item, chosen, locked, fold, stage, listenAddress, onComment }: Props) {
  const { commentPath, commentS } = item;
  const said = commentPath === null ? words.none0 : commentS === undefined ? words.there : durationText(commentS);
  return (
    <Fold title={words.comment} said={said} state={fold("comment")}>
      <CommentForm
        item={item}
        locked={locked}
        fold={fold("comment")}
        listenAddress={listenAddress}
        onBegin={() => {
          stage.current?.show(chosen, 0);
          stage.current?.play(true);
        }}
        onEnd={() => stage.current?.stop()}
        onComment={onComment}
      />
    </Fold>
  );
}
