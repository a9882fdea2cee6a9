import { useState } from "react";
import type { DebriefView } from "../../main/contract/debriefApi.ts";
import type { Break, Moment } from "../../main/contract/reading.ts";
import { desk } from "../desk/desk.ts";
import { Button } from "../look/Button.tsx";
import { skim as words } from "../words/skim.ts";
import type { SkimEdits } from "./useSkimEdits.ts";
import type { SkimMoments } from "./useSkimMoments.ts";
import type { SkimPlace } from "./useSkimPlace.ts";
import { BreakReasons } from "./BreakReasons.tsx";
import { MomentDetail } from "./MomentDetail.tsx";
import { MomentList } from "./MomentList.tsx";
import { ShowBeside } from "./ShowBeside.tsx";
import { SpeakButton } from "./SpeakButton.tsx";
import type { Spoken } from "./useSpoken.ts";

export interface MomentSideProps {
  readonly debrief: DebriefView;
  readonly listed: SkimMoments;
  readonly place: SkimPlace;
  readonly edits: SkimEdits;
  readonly spoken: Spoken;
  /** Asks what a moment of the coach's own is. */
  readonly onAdd: () => void;
}

/** The list of moments and the one that is open. */
export function MomentSide(props: MomentSideProps) {
  const { debrief, listed, place, spoken, onAdd } = props;
  const { chosen } = listed;
  const locked = debrief.readOnly !== null;
  return (
    <>
      <div className="skim-tools row">
        <Button kind="bare" keys="p" onClick={() => place.hop(-1)}>
          {words.previousShort}
        </Button>
        <Button kind="bare" keys="n" onClick={() => place.hop(1)}>
          {words.nextShort}
        </Button>
        <Button kind="bare" keys="a" disabled={locked} onClick={onAdd}>
          {words.add}
        </Button>
        <SpeakButton spoken={spoken} locked={locked} />
      </div>
      <MomentList
        moments={listed.moments}
        kinds={listed.kinds}
        total={listed.all.length}
        kind={listed.kind}
        selected={listed.selected}
        filmed={listed.filmed}
        onKind={listed.setKind}
        onSelect={place.select}
      />
      {listed.gone && <p className="note skim-gone">{words.gone}</p>}
      {chosen !== undefined && <OpenMoment {...props} key={`${chosen.kind}@${chosen.startS}`} chosen={chosen} />}
    </>
  );
}

/** Breaks of a moment that are shown at first. */
const FIRST_BREAKS = 2;

/** Breaks that count or that the coach judged, and the longest of a moment, in the order of the ride. */
function firstBreaks(breaks: readonly Break[]): readonly Break[] {
  const longest = [...breaks].sort((a, b) => b.endS - b.startS - (a.endS - a.startS)).slice(0, FIRST_BREAKS);
  return breaks.filter((one) => one.lapse || one.setBy === "coach" || longest.includes(one));
}

/** The moment that is open, with the breaks in it. */
function OpenMoment({ debrief, listed, place, edits, chosen }: MomentSideProps & { readonly chosen: Moment }) {
  const { document: doc } = debrief;
  const reading = debrief.reading!;
  const locked = debrief.readOnly !== null;
  const ownIndex = doc.ownMoments.findIndex((one) => one.kind === chosen.kind && one.startS === chosen.startS);
  const [whole, setWhole] = useState(false);
  const inHere = reading.breaks.filter((one) => one.endS > chosen.startS - 1 && one.startS < chosen.endS + 1);
  const breaks = whole ? inHere : firstBreaks(inHere);
  const items = debrief.film?.items ?? [];
  const at = items.findIndex(({ moment }) => moment !== null && moment === listed.selected);
  return (
    <MomentDetail
      moment={chosen}
      sentence={edits.sentence(chosen)}
      choice={edits.said(chosen)}
      span={edits.said(chosen)?.span ?? chosen}
      locked={locked}
      onKeep={(value) => edits.keep(chosen, value)}
      onEdge={(which) => edits.edge(chosen, which)}
      onSpanBack={() => edits.change(chosen, { span: null }, words.labels.span(edits.sentence(chosen)))}
      onName={(name) => edits.change(chosen, { name }, words.labels.name(edits.sentence(chosen)))}
      onNote={(note) => edits.change(chosen, { note }, words.labels.note(edits.sentence(chosen)))}
      part={at < 0 ? null : { at: at + 1, of: items.length }}
      onRemove={ownIndex < 0 ? null : () => void edits.removeOwn(chosen, ownIndex)}
    >
      <ShowBeside
        roads={debrief.roads}
        span={edits.said(chosen)?.span ?? chosen}
        shotId={items[at]?.type === "shot" ? items[at].id : null}
        locked={locked}
        onShow={(ask) => void edits.call(() => desk.showBeside(ask, debrief.edit))}
      />
      {breaks.length > 0 && (
        <div className="stack">
          <h3>{words.breaks}</h3>
          <BreakReasons
            breaks={breaks}
            overrides={reading.overrides}
            locked={locked}
            onGo={place.go}
            onReason={edits.reason}
            onComputed={edits.computedReason}
          />
          {breaks.length < inHere.length && (
            <Button kind="bare" onClick={() => setWhole(true)}>
              {words.allInHere(inHere.length - breaks.length)}
            </Button>
          )}
        </div>
      )}
    </MomentDetail>
  );
}
