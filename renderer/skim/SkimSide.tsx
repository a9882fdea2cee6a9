import type { WindowColumns } from "../../main/contract/columnBytes.ts";
import { desk } from "../desk/desk.ts";
import { Button } from "../look/Button.tsx";
import { FailureNote } from "../look/FailureNote.tsx";
import { skim as words } from "../words/skim.ts";
import { MomentSide, type MomentSideProps } from "./MomentSide.tsx";
import { AskedList } from "./AskedList.tsx";
import { ReadingPanel } from "./ReadingPanel.tsx";

interface Props extends MomentSideProps {
  /** Null: on their way. */
  readonly columns: WindowColumns | null;
  readonly view: "moments" | "reading";
  readonly onView: (view: "moments" | "reading") => void;
  readonly onNext: () => void;
}

/** Beside the picture: the moments, or the reading. */
export function SkimSide(props: Props) {
  const { debrief, columns, listed, place, edits, view, onView, onNext } = props;
  const { momentWords } = debrief;
  const reading = debrief.reading!;
  const locked = debrief.readOnly !== null;
  return (
    <div className={view === "moments" ? "side of-moments" : "side"}>
      <div className="skim-head">
        <div className="skim-views" role="group" aria-label={words.viewsLabel}>
          {(["moments", "reading"] as const).map((one) => (
            <button
              key={one}
              type="button"
              className="skim-view"
              aria-pressed={view === one}
              onClick={() => onView(one)}
            >
              {words.views[one]} <kbd aria-hidden="true">{one === "moments" ? "M" : "R"}</kbd>
            </button>
          ))}
        </div>
        <Button kind="main" keys="Ctrl+Enter" onClick={onNext}>
          {words.toBuild}
        </Button>
      </div>
      {edits.failure !== null && <FailureNote failure={edits.failure} />}
      <AskedList
        asked={debrief.asked}
        reading={reading}
        momentWords={momentWords}
        selected={listed.selected}
        locked={locked}
        onSettle={(index, to) => void edits.call(() => desk.settleAsked(index, to, debrief.edit))}
      />
      {view === "moments" ? (
        <MomentSide {...props} />
      ) : (
        <ReadingPanel
          reading={reading}
          debrief={debrief}
          columns={columns}
          locked={locked}
          here={place.here}
          onGo={place.go}
          onSet={edits.overrule}
          onBack={(what, label) => edits.back({ what }, label)}
          onWhy={(override) => edits.overrule(override, words.why)}
          onReason={edits.reason}
          onComputed={edits.computedReason}
          skills={debrief.document.plan.skills ?? []}
          onPractised={edits.practised}
        />
      )}
    </div>
  );
}
