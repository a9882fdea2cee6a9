import type { DebriefView, JobView } from "../../main/contract/debriefApi.ts";
import { Button } from "../look/Button.tsx";
import { frame as words } from "../words/frame.ts";
import { AtWork } from "./AtWork.tsx";
import { STEPS, type ScreenName } from "./screenName.ts";

interface Props {
  readonly screen: ScreenName;
  /** The ride was read: the steps are open. */
  readonly ready: boolean;
  readonly debrief: DebriefView | null;
  readonly jobs: readonly JobView[];
  readonly onGo: (name: ScreenName) => void;
  readonly onUndo: () => void;
  readonly onRedo: () => void;
  readonly onSheet: (sheet: "keys" | "about") => void;
}

/** The steps, what is at work, whether all is saved, undo and redo. */
export function FrameHead({ screen, ready, debrief, jobs, onGo, onUndo, onRedo, onSheet }: Props) {
  return (
    <header className="frame-head">
      <nav aria-label={words.stepsLabel} className="has-skip">
        <ol className="frame-steps">
          <li>
            <StepButton name="gather" current={screen} text={words.files} keys="0" onGo={onGo} />
          </li>
          {STEPS.map((step, index) => (
            <li key={step}>
              <StepButton
                name={step}
                current={screen}
                text={words.steps[step]}
                keys={String(index + 1)}
                disabled={!ready}
                onGo={onGo}
              />
            </li>
          ))}
        </ol>
        {debrief !== null && <SkipButton key={screen} screen={screen} />}
      </nav>
      <AtWork jobs={jobs} />
      <div className="frame-tools">
        {debrief !== null && (
          <>
            <Saved debrief={debrief} />
            <Button
              kind="bare"
              disabled={debrief.undo === null}
              title={debrief.undo === null ? words.nothingToUndo : words.undoOf(debrief.undo)}
              onClick={onUndo}
            >
              {words.undo}
            </Button>
            <Button
              kind="bare"
              disabled={debrief.redo === null}
              title={debrief.redo === null ? words.nothingToRedo : words.redoOf(debrief.redo)}
              onClick={onRedo}
            >
              {words.redo}
            </Button>
          </>
        )}
        <Button kind="bare" aria-current={screen === "athletes" ? "page" : undefined} onClick={() => onGo("athletes")}>
          {words.athletes}
        </Button>
        <Button kind="bare" onClick={() => onSheet("keys")}>
          {words.keys}
        </Button>
        <Button kind="bare" onClick={() => onSheet("about")}>
          {words.about}
        </Button>
      </div>
    </header>
  );
}

/** What a step is most about, where it is gone to by keys: what is chosen there, else its first. */
const MAIN_OF: Readonly<Record<keyof typeof words.skipTo, string>> = {
  lineup: ".lineup-list [aria-pressed=true], .lineup-list button",
  skim: '.skim-list [tabindex="0"], .skim-view',
  build: ".build-part[aria-current=true], .build-part",
};

/** For who works by Tab: past the tools and the picture to what the step is most about. Seen while it has the focus. */
function SkipButton({ screen }: { readonly screen: ScreenName }) {
  if (!(screen in MAIN_OF)) return null;
  const to = screen as keyof typeof MAIN_OF;
  return (
    <Button className="skip" onClick={() => focusFirst(MAIN_OF[to])}>
      {words.skipTo[to]}
    </Button>
  );
}

/** @param selectors the first of them that is there gets the focus */
function focusFirst(selectors: string): void {
  for (const selector of selectors.split(", ")) {
    const found = document.querySelector<HTMLElement>(selector);
    if (found !== null) return found.focus();
  }
}

interface StepButtonProps {
  readonly name: ScreenName;
  readonly current: ScreenName;
  readonly text: string;
  readonly keys: string;
  readonly disabled?: boolean;
  readonly onGo: (name: ScreenName) => void;
}

function StepButton({ name, current, text, keys, disabled = false, onGo }: StepButtonProps) {
  return (
    <button
      type="button"
      className="frame-step"
      aria-current={current === name ? "step" : undefined}
      disabled={disabled}
      title={disabled ? words.closed : undefined}
      onClick={() => onGo(name)}
    >
      {text}
      <kbd className="keycap" aria-hidden="true">
        {keys}
      </kbd>
    </button>
  );
}

function Saved({ debrief }: { readonly debrief: DebriefView }) {
  if (debrief.readOnly !== null) return null;
  const text = debrief.saved === "saved" ? words.saved : debrief.saved === "saving" ? words.saving : words.notSaved;
  return (
    <span className="frame-saved small" role="status">
      {text}
    </span>
  );
}
