import type { ReactNode, RefObject } from "react";
import type { ClipView, ExcusedPart } from "../../main/contract/debriefApi.ts";
import type { FilmItem } from "../../main/contract/film.ts";
import { clockText } from "../../overlay/words/numbers.ts";
import { Button } from "../look/Button.tsx";
import { reasonWords } from "../words/reasonWords.ts";
import { build as words } from "../words/build.ts";
import { CardForm } from "./CardForm.tsx";
import { CommentForm } from "./CommentForm.tsx";
import type { FilmStageHandle } from "./FilmStage.tsx";
import { ShotForm } from "./ShotForm.tsx";

interface Props {
  readonly item: FilmItem;
  /** The clip of a shot. */
  readonly clip: ClipView | undefined;
  readonly chosen: number;
  readonly parts: number;
  readonly locked: boolean;
  /** Its break has been given a reason since; null: it has not, or it teaches none. */
  readonly excused: ExcusedPart | null;
  readonly stage: RefObject<FilmStageHandle | null>;
  readonly listenAddress: string | null;
  /** To draw on the picture with. */
  readonly tools: ReactNode;
  readonly onMove: (from: number, to: number) => void;
  readonly onRemove: () => void;
  readonly onChange: (item: FilmItem, label: string) => void;
  readonly onComment: (itemId: string, wav: Uint8Array | null) => Promise<boolean>;
}

/** The part that is open: its place, its cut or its words, drawings and the spoken comment. */
export function PartForm(props: Props) {
  const {
    item,
    clip,
    chosen,
    parts,
    locked,
    excused,
    stage,
    listenAddress,
    tools,
    onMove,
    onRemove,
    onChange,
    onComment,
  } = props;
  return (
    <section className="part build-form scroll" aria-label={item.type === "shot" ? words.shot : words.card}>
      <header>
        <h2>{item.type === "shot" ? words.shot : words.cards[item.card.kind]}</h2>
        {!locked && (
          <div className="row">
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
          onChange={onChange}
        />
      )}
      {tools}
      {item.type === "card" && (
        <CardForm key={item.id} item={item} first={chosen === 0} locked={locked} onChange={onChange} />
      )}
      <CommentForm
        item={item}
        locked={locked}
        listenAddress={listenAddress}
        onBegin={() => {
          stage.current?.show(chosen, 0);
          stage.current?.play(true);
        }}
        onEnd={() => stage.current?.stop()}
        onComment={onComment}
      />
    </section>
  );
}
