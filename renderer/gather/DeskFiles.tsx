import type { DebriefView } from "../../main/contract/debriefApi.ts";
import type { Plan } from "../../main/contract/plan.ts";
import { noticeTexts } from "../../overlay/words/notices/noticeText.ts";
import type { Calls } from "../look/useCalls.ts";
import { desk } from "../desk/desk.ts";
import { fetchRideColumns } from "../desk/columns.ts";
import { useFetched } from "../desk/useFetched.ts";
import { Button } from "../look/Button.tsx";
import { ToldReading } from "../told/ToldReading.tsx";
import { gather as words } from "../words/gather.ts";
import { WINDOW_LANGUAGE } from "../words/language.ts";
import { AthleteChoice } from "./AthleteChoice.tsx";
import { FilesOnDesk } from "./FilesOnDesk.tsx";
import { PlanForm } from "./PlanForm.tsx";

interface Props {
  readonly debrief: DebriefView;
  /** Files are held over the window. */
  readonly over: boolean;
  /** Files are on their way. */
  readonly reading: boolean;
  readonly busy: boolean;
  readonly onChoose: () => void;
  readonly onNext: () => void;
  readonly onCall: Calls["call"];
}

/** The window with a debrief: its files, its athlete, what was asked of the ride, what the ride says. */
export function DeskFiles({ debrief, over, reading, busy, onChoose, onNext, onCall }: Props) {
  const locked = debrief.readOnly !== null;
  const columns = useFetched(debrief.reading === null ? null : debrief.addresses.columns, fetchRideColumns).value;
  return (
    <>
      <div className="gather-left stack wide">
        <section className="part" aria-labelledby="files-title">
          <header>
            <h1 id="files-title">{over ? words.dropNow : words.title}</h1>
            <div className="row">
              {!locked && (
                <Button keys="f" onClick={onChoose}>
                  {words.chooseMore}
                </Button>
              )}
              <Button kind="bare" onClick={() => void onCall(() => desk.closeDebrief())}>
                {words.close}
              </Button>
            </div>
          </header>
          <FilesOnDesk
            debrief={debrief}
            reading={reading}
            onRemove={(id) => void onCall(() => desk.removeFile(id))}
            onShow={(id) => void onCall(() => desk.showRide(id))}
          />
          <Warnings texts={noticeTexts(debrief.warnings, WINDOW_LANGUAGE, "window")} />
        </section>
        <ToldReading debrief={debrief} columns={columns} />
      </div>
      <div className="stack wide">
        <AthleteChoice debrief={debrief} onUse={(id) => void onCall(() => desk.useAthlete(id))} />
        <PlanForm
          debrief={debrief}
          onTake={(id) => void onCall(() => desk.takePlan(id))}
          onPlan={(plan: Plan, label) =>
            void onCall(() => desk.edit({ part: "plan", value: plan, label }, debrief.edit))
          }
        />
      </div>
      <footer className="gather-next">
        <Button kind="main" keys="Ctrl+Enter" disabled={debrief.reading === null || busy} onClick={onNext}>
          {debrief.clips.length === 0 ? words.nextNoClips : words.next}
        </Button>
      </footer>
    </>
  );
}

/** What is odd about ride and footage, as one note: the rest of a long list on wish. */
function Warnings({ texts }: { readonly texts: readonly string[] }) {
  if (texts.length === 0) return null;
  const [first, ...rest] = texts;
  const list = (
    <ul className="stack">
      {rest.map((text) => (
        <li key={text}>{text}</li>
      ))}
    </ul>
  );
  return (
    <div className="note unsure stack">
      <p>{first}</p>
      {rest.length > 2 ? (
        <details>
          <summary>{words.moreWarnings(rest.length)}</summary>
          {list}
        </details>
      ) : (
        rest.length > 0 && list
      )}
    </div>
  );
}
