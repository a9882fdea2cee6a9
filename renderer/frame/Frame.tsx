import { useState } from "react";
import type { DebriefView } from "../../main/contract/debriefApi.ts";
import { desk } from "../desk/desk.ts";
import { useConnection, useDesk } from "../desk/useDesk.ts";
import { Button } from "../look/Button.tsx";
import { FailureNote } from "../look/FailureNote.tsx";
import { useKeys } from "../look/keys.ts";
import { useCalls } from "../look/useCalls.ts";
import { frame as words } from "../words/frame.ts";
import { AtWork } from "./AtWork.tsx";
import { Screen } from "./Screen.tsx";
import { STEPS, type ScreenName } from "./screenName.ts";
import { readOnlyText } from "../../overlay/words/notices/readOnlyText.ts";
import { WINDOW_LANGUAGE } from "../words/language.ts";

/** What stands around every screen: the steps, undo and redo, whether all is saved, what is at work. */
export function Frame() {
  const connection = useConnection();
  const { debrief, jobs } = useDesk();
  const [wanted, setWanted] = useState<ScreenName>("gather");
  const [sheet, setSheet] = useState<"keys" | "about" | null>(null);
  const { failure, call, forget } = useCalls();

  const ready = debrief !== null && debrief.reading !== null;
  const isStep = STEPS.some((step) => step === wanted);
  const screen = isStep && !ready ? "gather" : wanted;
  const go = (name: ScreenName) => {
    forget();
    setWanted(name);
  };
  const undo = () => debrief !== null && debrief.undo !== null && void call(() => desk.undo());
  const redo = () => debrief !== null && debrief.redo !== null && void call(() => desk.redo());

  useKeys(words.anywhere, [
    { keys: "0", words: words.files, run: () => go("gather") },
    ...(ready
      ? STEPS.map((step, index) => ({ keys: String(index + 1), words: words.steps[step], run: () => go(step) }))
      : []),
    { keys: "Ctrl+z", words: words.undo, run: undo },
    { keys: "Ctrl+Shift+z", words: words.redo, run: redo },
    { keys: "Shift+a", words: words.athletes, run: () => go("athletes") },
    { keys: "?", words: words.keys, run: () => setSheet("keys") },
  ]);

  if (connection === "opening") return <p className="frame-opening">{words.connecting}</p>;
  return (
    <div className="frame">
      <header className="frame-head">
        <nav aria-label={words.stepsLabel}>
          <ol className="frame-steps">
            <li>
              <StepButton name="gather" current={screen} text={words.files} keys="0" onGo={go} />
            </li>
            {STEPS.map((step, index) => (
              <li key={step}>
                <StepButton
                  name={step}
                  current={screen}
                  text={words.steps[step]}
                  keys={String(index + 1)}
                  disabled={!ready}
                  onGo={go}
                />
              </li>
            ))}
          </ol>
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
                onClick={undo}
              >
                {words.undo}
              </Button>
              <Button
                kind="bare"
                disabled={debrief.redo === null}
                title={debrief.redo === null ? words.nothingToRedo : words.redoOf(debrief.redo)}
                onClick={redo}
              >
                {words.redo}
              </Button>
            </>
          )}
          <Button kind="bare" aria-current={screen === "athletes" ? "page" : undefined} onClick={() => go("athletes")}>
            {words.athletes}
          </Button>
          <Button kind="bare" onClick={() => setSheet("keys")}>
            {words.keys}
          </Button>
          <Button kind="bare" onClick={() => setSheet("about")}>
            {words.about}
          </Button>
        </div>
      </header>
      {connection === "lost" && (
        <div className="note wrong frame-note" role="alert">
          <b>{words.lost}.</b> {words.lostMore}
        </div>
      )}
      {failure !== null && (
        <div className="frame-note row">
          <FailureNote failure={failure} />
          <Button kind="bare" onClick={forget}>
            {words.fine}
          </Button>
        </div>
      )}
      {debrief !== null && typeof debrief.saved === "object" && (
        <div className="frame-note">
          <FailureNote failure={debrief.saved} />
        </div>
      )}
      {debrief !== null && debrief.readOnly !== null && (
        <p className="note unsure frame-note">
          <b>{words.readOnly}.</b> {readOnlyText(debrief.readOnly, WINDOW_LANGUAGE)}
        </p>
      )}
      <div className="frame-screen">
        <Screen name={screen} sheet={sheet} onSheet={setSheet} onGo={go} />
      </div>
    </div>
  );
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
      <kbd aria-hidden="true">{keys}</kbd>
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
