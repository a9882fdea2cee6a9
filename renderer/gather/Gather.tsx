import { useCallback, useState } from "react";
import { type DebriefView, type PathId } from "../../main/contract/debriefApi.ts";
import { desk } from "../desk/desk.ts";
import { useDesk } from "../desk/useDesk.ts";
import { Button } from "../look/Button.tsx";
import { FailureNote } from "../look/FailureNote.tsx";
import { JobLine } from "../look/JobLine.tsx";
import { useKeys } from "../look/keys.ts";
import { useCalls } from "../look/useCalls.ts";
import { Picker } from "../picker/Picker.tsx";
import type { PickerWants } from "../picker/pickerWants.ts";
import { jobTitle } from "../words/jobTitle.ts";
import { gather as words } from "../words/gather.ts";
import { BatchHop } from "./BatchHop.tsx";
import { DeskFiles } from "./DeskFiles.tsx";
import { useBatchRides } from "./useBatchRides.ts";
import { setBatch } from "./batch.ts";
import { BatchList } from "./BatchList.tsx";
import { Start } from "./Start.tsx";
import "./gather.css";

interface Props {
  /** Goes to the next step. */
  readonly onNext: () => void;
  /** Files are held over the window. */
  readonly over: boolean;
  readonly onAthletes: () => void;
}

interface Picking {
  readonly wants: PickerWants;
  readonly take: (ids: readonly PathId[]) => Promise<unknown>;
}

const addFiles = (ids: readonly PathId[]) => desk.addFiles(ids);

/** Gather: what the debrief is made of, and what was asked of the ride. */
export function Gather({ over, onNext, onAthletes }: Props) {
  const state = useDesk();
  const [picking, setPicking] = useState<Picking | null>(null);
  const { failure, busy, call } = useCalls();
  const [opened, setOpened] = useState<PathId | null>(null);
  const { debrief } = state;
  const job = state.jobs.find((one) => one.what === "gather" && (one.state === "running" || one.state === "waiting"));

  const choose = useCallback(() => setPicking({ wants: "files", take: addFiles }), []);
  /** Made elsewhere and not trusted yet, it is asked for here, not in the picker. */
  const openIt = useCallback(
    (id: PathId, trusted = false) => {
      setOpened(id);
      return call(() => desk.openDebrief(id, trusted));
    },
    [call],
  );
  const chooseOne = (wants: PickerWants, take: (id: PathId) => Promise<unknown>) =>
    setPicking({ wants, take: ([id]) => (id === undefined ? Promise.resolve() : take(id)) });
  // What the picker can't say is said here: neither waits for the other.
  const chooseDebrief = () => chooseOne("debrief", (id) => Promise.resolve(void openIt(id)));
  const { batch, next, before, listBatch, openRide } = useBatchRides(call, openIt);
  const chooseBatch = () => chooseOne("folder", (id) => Promise.resolve(void listBatch(id)));

  const onExample = job === undefined && !busy ? () => void call(() => desk.openExample()) : null;
  useGatherKeys({ debrief, onChoose: choose, onDebrief: chooseDebrief, onBatch: chooseBatch, onExample, onNext });

  return (
    <main className="gather">
      {failure !== null && <FailureNote failure={failure} />}
      {failure?.code === "debrief-not-trusted" && opened !== null && (
        <div className="row gather-trust">
          <Button onClick={() => void openIt(opened, true)}>{words.trust}</Button>
        </div>
      )}
      {job !== undefined && (
        <JobLine job={job} title={job.title.of === "files" ? words.reading : jobTitle(job.title)} />
      )}
      {batch !== null && debrief !== null && (
        <BatchHop batch={batch} next={next} before={before} busy={busy} onOpen={(index) => openRide(batch, index)} />
      )}
      {batch !== null && debrief === null && (
        <BatchList batch={batch} onOpen={(index) => openRide(batch, index)} onClose={() => setBatch(null)} />
      )}
      {debrief === null ? (
        <Start
          over={over}
          onChoose={choose}
          onOpen={(id) => void openIt(id)}
          onOpenOther={chooseDebrief}
          onOpenBatch={chooseBatch}
          onExample={onExample}
          onAthlete={(id) => void call(() => desk.beginDebrief(id))}
          onAthletes={onAthletes}
        />
      ) : (
        <DeskFiles
          debrief={debrief}
          over={over}
          reading={job !== undefined || busy}
          busy={busy}
          onChoose={choose}
          onNext={onNext}
          onCall={call}
        />
      )}
      {picking !== null && (
        <Picker
          wants={picking.wants}
          onClose={() => setPicking(null)}
          onPick={(ids) => {
            setPicking(null);
            void call(() => picking.take(ids));
          }}
        />
      )}
    </main>
  );
}

interface KeysGiven {
  readonly debrief: DebriefView | null;
  readonly onChoose: () => void;
  readonly onDebrief: () => void;
  readonly onBatch: () => void;
  readonly onExample: (() => void) | null;
  readonly onNext: () => void;
}

function useGatherKeys({ debrief, onChoose, onDebrief, onBatch, onExample, onNext }: KeysGiven): void {
  const locked = debrief !== null && debrief.readOnly !== null;
  useKeys(words.title, [
    ...(locked ? [] : [{ keys: "f", words: debrief === null ? words.choose : words.chooseMore, run: onChoose }]),
    ...(debrief === null
      ? [
          { keys: "d", words: words.openDebrief, run: onDebrief },
          { keys: "b", words: words.openBatch, run: onBatch },
          ...(onExample === null ? [] : [{ keys: "e", words: words.example, run: onExample }]),
        ]
      : [{ keys: "Ctrl+Enter", words: words.next, run: onNext, inFields: true }]),
  ]);
}
