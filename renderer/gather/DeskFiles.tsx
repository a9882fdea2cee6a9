import type { DebriefView } from "../../main/contract/debriefApi.ts";
import type { Plan } from "../../main/contract/plan.ts";
import { keepUnits } from "../../overlay/words/keepUnits.ts";
import { noticeTexts } from "../../overlay/words/notices/noticeText.ts";
import type { Calls } from "../look/useCalls.ts";
import { desk } from "../desk/desk.ts";
import { Button } from "../look/Button.tsx";
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
  return (
    <>
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
      <div className="stack wide">
        <AthleteChoice debrief={debrief} onUse={(id) => void onCall(() => desk.useAthlete(id))} />
        <PlanForm
          debrief={debrief}
          onPlan={(plan: Plan, label) =>
            void onCall(() => desk.edit({ part: "plan", value: plan, label }, debrief.edit))
          }
        />
        {debrief.readingLines.length > 0 && (
          <section className="part" aria-labelledby="saying-title">
            <header>
              <h2 id="saying-title">{words.saying}</h2>
            </header>
            <ul className="gather-lines">
              {debrief.readingLines.map((line) => (
                <li key={line}>{keepUnits(line)}</li>
              ))}
            </ul>
          </section>
        )}
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
