import { type ReactNode, useRef } from "react";
import type { MomentChoice } from "../../main/contract/debrief.ts";
import type { Moment } from "../../main/contract/reading.ts";
import { keepUnits } from "../../overlay/words/keepUnits.ts";
import { clockText, durationText } from "../../overlay/words/numbers.ts";
import { Button } from "../look/Button.tsx";
import { TextField } from "../look/TextField.tsx";
import { useKeys } from "../look/keys.ts";
import { skim as words } from "../words/skim.ts";
import { focusMoments } from "./MomentList.tsx";

interface Props {
  readonly moment: Moment;
  readonly sentence: string;
  readonly choice: MomentChoice | null;
  readonly span: { readonly startS: number; readonly endS: number };
  readonly locked: boolean;
  readonly onKeep: (keep: boolean | null) => void;
  readonly onEdge: (edge: "startS" | "endS") => void;
  readonly onSpanBack: () => void;
  readonly onName: (name: string | null) => void;
  readonly onNote: (note: string | null) => void;
  /** Number of the part that shows it, counted from 1, and how many there are; null: none does. */
  readonly part: { readonly at: number; readonly of: number } | null;
  /** Only for a moment of the coach's own. */
  readonly onRemove: (() => void) | null;
  /** The breaks in it. */
  readonly children: ReactNode;
}

/** One moment: what it is, whether it is kept, its times, name and note. */
export function MomentDetail(props: Props) {
  const { moment, sentence, choice, span, locked, onKeep, onEdge, onSpanBack, onName, onNote, part, onRemove } = props;
  const box = useRef<HTMLElement>(null);
  const focus = (which: "name" | "note") =>
    box.current?.querySelector<HTMLElement>(which === "name" ? "input" : "textarea")?.focus();
  const keep = choice?.keep ?? null;
  const kept = keep === true && part !== null;
  const keepIt = () => onKeep(kept ? null : true);
  const unlocked = (run: () => void) => () => !locked && run();
  useKeys(words.views.moments, [
    { keys: "k", words: words.keep, run: unlocked(keepIt) },
    { keys: "x", words: words.drop, run: unlocked(() => onKeep(keep === false ? null : false)) },
    ...["i", "["].map((keys) => ({ keys, words: words.startHere, run: unlocked(() => onEdge("startS")) })),
    ...["o", "]"].map((keys) => ({ keys, words: words.endHere, run: unlocked(() => onEdge("endS")) })),
    { keys: "e", words: words.name, run: () => focus("name") },
    { keys: "t", words: words.note, run: () => focus("note") },
    ...(onRemove === null ? [] : [{ keys: "Delete", words: words.remove, run: unlocked(onRemove) }]),
  ]);
  return (
    <section ref={box} className="skim-detail stack" aria-label={sentence}>
      <h2>{choice?.name ?? keepUnits(sentence)}</h2>
      {choice?.name !== null && choice !== null && <p className="quiet">{sentence}</p>}
      {moment.coachOnly && keep !== true && part === null && <p className="note unsure small">{words.coachOnly}</p>}
      <p className="small" role="status">
        {filmText(keep, part)}
      </p>
      <div className="row skim-doings has-skip">
        <Button keys="k" aria-pressed={kept} disabled={locked} onClick={keepIt}>
          {words.keep}
        </Button>
        <Button
          keys="x"
          aria-pressed={keep === false}
          disabled={locked}
          onClick={() => onKeep(keep === false ? null : false)}
        >
          {words.drop}
        </Button>
        {onRemove !== null && (
          <Button kind="bare" keys="Delete" disabled={locked} onClick={onRemove}>
            {words.remove}
          </Button>
        )}
        <MomentEdges {...{ moment, choice, span, locked, onEdge, onSpanBack }} />
        <Button kind="bare" keys="Escape" className="skip" onClick={focusMoments}>
          {words.backToList}
        </Button>
      </div>
      {props.children}
      <div className="skim-own-words">
        <TextField label={words.note} value={choice?.note ?? null} lines disabled={locked} onChange={onNote} />
        <TextField label={words.name} value={choice?.name ?? null} disabled={locked} onChange={onName} />
      </div>
    </section>
  );
}

type EdgesProps = Pick<Props, "moment" | "choice" | "span" | "locked" | "onEdge" | "onSpanBack">;

/** Where it starts and ends, each beside what sets it, and how long it lasts. */
function MomentEdges({ moment, choice, span, locked, onEdge, onSpanBack }: EdgesProps) {
  const trimmed = choice !== null && choice.span !== null;
  return (
    <div className="row skim-edges">
      <Button kind="bare" keys="i" disabled={locked} onClick={() => onEdge("startS")}>
        {words.startHere}
      </Button>
      <span className="figure small">{clockText(span.startS)}</span>
      <Button kind="bare" keys="o" disabled={locked} onClick={() => onEdge("endS")}>
        {words.endHere}
      </Button>
      <span className="figure small">{clockText(span.endS)}</span>
      <span className="small quiet">{words.lasts(durationText(span.endS - span.startS))}</span>
      {trimmed && (
        <>
          <span className="small quiet">{words.computedSpan(clockText(moment.startS), clockText(moment.endS))}</span>
          <Button kind="bare" disabled={locked} onClick={onSpanBack}>
            {words.spanBack}
          </Button>
        </>
      )}
    </div>
  );
}

/** Whether the film shows it, read off the film. */
function filmText(keep: boolean | null, part: Props["part"]): string {
  if (part !== null) return (keep === true ? words.inFilmAt : words.inFilmByStory)(part.at, part.of);
  if (keep === null) return words.notInFilm;
  return keep ? words.keptNotInFilm : words.droppedFromFilm;
}
