import { useEffect, useState } from "react";
import { desk } from "../desk/desk.ts";
import { useConnection, useDesk } from "../desk/useDesk.ts";
import { keepIn, keptIn } from "../desk/useKept.ts";
import { useKeys } from "../look/keys.ts";
import { useCalls } from "../look/useCalls.ts";
import { frame as words } from "../words/frame.ts";
import { Picker } from "../picker/Picker.tsx";
import { FrameHead } from "./FrameHead.tsx";
import { FrameNotes } from "./FrameNotes.tsx";
import { MissingMedia } from "./MissingMedia.tsx";
import { TakenNote } from "./TakenNote.tsx";
import { useDroppedFiles } from "./useDroppedFiles.ts";
import { Screen } from "./Screen.tsx";
import { STEPS, type ScreenName } from "./screenName.ts";

/** Where the focus went away with a step, it is on that step's name in the head: never nowhere. */
function useFocusKept(screen: ScreenName): void {
  useEffect(() => {
    const { activeElement } = document;
    if (activeElement !== null && activeElement !== document.body) return;
    document.querySelector<HTMLElement>(".frame-head [aria-current]")?.focus({ preventScroll: true });
  }, [screen]);
}

/** What stands around every screen: the steps, undo and redo, whether all is saved, what is at work. */
export function Frame() {
  const connection = useConnection();
  const { debrief, jobs } = useDesk();
  const [wanted, setWanted] = useState<ScreenName>("gather");
  const [folder, setFolder] = useState("");
  const [sheet, setSheet] = useState<"keys" | "about" | null>(null);
  const { failure, call, forget } = useCalls();

  // A debrief that comes onto the desk is shown where it was left.
  const comes = debrief?.folder ?? "";
  if (comes !== folder) {
    setFolder(comes);
    const left = debrief === null ? null : keptIn(debrief, "step");
    const step = [...STEPS, "gather" as const].find((one) => one === left);
    if (step !== undefined) setWanted(step);
  }
  const ready = debrief !== null && debrief.reading !== null;
  const screen = wanted !== "athletes" && !ready ? "gather" : wanted;
  const dropped = useDroppedFiles(call);
  const go = (name: ScreenName) => {
    forget();
    dropped.forget();
    if (debrief !== null && name !== "athletes") keepIn(debrief, "step", name);
    setWanted(name);
  };
  useFocusKept(screen);
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
      <FrameHead
        screen={screen}
        ready={ready}
        debrief={debrief}
        jobs={jobs}
        onGo={go}
        onUndo={undo}
        onRedo={redo}
        onSheet={setSheet}
      />
      <FrameNotes connection={connection} debrief={debrief} failure={failure} onForget={forget} />
      {debrief !== null && screen !== "athletes" && <MissingMedia debrief={debrief} onCall={call} />}
      {dropped.taken !== null && screen !== "gather" && (
        <TakenNote taken={dropped.taken} onFiles={() => go("gather")} onFine={dropped.forget} />
      )}
      <div className="frame-screen">
        <Screen name={screen} sheet={sheet} over={dropped.over} onSheet={setSheet} onGo={go} />
      </div>
      {dropped.over && screen !== "gather" && <p className="frame-over">{words.dropNow}</p>}
      {dropped.asked !== null && (
        <Picker wants="files" dropped={dropped.asked} onClose={dropped.forget} onPick={dropped.take} />
      )}
    </div>
  );
}
