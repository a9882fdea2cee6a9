import { useCallback, useEffect, useState } from "react";
import type { AthleteEntry, DebriefView, PathId } from "../../main/contract/debriefApi.ts";
import type { Plan } from "../../main/contract/plan.ts";
import { keepUnits } from "../../overlay/words/keepUnits.ts";
import { desk, dropTokens, seesDroppedPaths } from "../desk/desk.ts";
import { useDesk } from "../desk/useDesk.ts";
import { Button } from "../look/Button.tsx";
import { Field } from "../look/Field.tsx";
import { FailureNote } from "../look/FailureNote.tsx";
import { JobLine } from "../look/JobLine.tsx";
import { useKeys } from "../look/keys.ts";
import { useCalls } from "../look/useCalls.ts";
import type { DroppedFile } from "../picker/droppedMatches.ts";
import { Picker, type PickerWants } from "../picker/Picker.tsx";
import { gather as words } from "../words/gather.ts";
import { type Batch, rideFrom, setBatch, useBatch } from "./batch.ts";
import { BatchList } from "./BatchList.tsx";
import { FilesOnDesk } from "./FilesOnDesk.tsx";
import { PlanForm } from "./PlanForm.tsx";
import { Start } from "./Start.tsx";
import { useDrop } from "./useDrop.ts";
import "./gather.css";
import { noticeTexts } from "../../overlay/words/notices/noticeText.ts";
import { WINDOW_LANGUAGE } from "../words/language.ts";

interface Props {
  /** Goes to the next step. */
  readonly onNext: () => void;
  readonly onAthletes: () => void;
}

interface Picking {
  readonly wants: PickerWants;
  readonly dropped: readonly DroppedFile[];
  readonly take: (ids: readonly PathId[]) => Promise<unknown>;
}

const NOTHING_DROPPED: readonly DroppedFile[] = [];
const addFiles = (ids: readonly PathId[]) => desk.addFiles(ids);

/** Gather: what the debrief is made of, and what was asked of the ride. */
export function Gather({ onNext, onAthletes }: Props) {
  const state = useDesk();
  const [picking, setPicking] = useState<Picking | null>(null);
  const { failure, busy, call } = useCalls();
  const [opened, setOpened] = useState<PathId | null>(null);
  const { debrief } = state;
  const job = state.jobs.find((one) => one.what === "gather" && (one.state === "running" || one.state === "waiting"));
  const locked = debrief !== null && debrief.readOnly !== null;

  const choose = useCallback(() => setPicking({ wants: "files", dropped: NOTHING_DROPPED, take: addFiles }), []);
  /** Made elsewhere and not trusted yet, it is asked for here, not in the picker. */
  const openIt = useCallback(
    (id: PathId, trusted = false) => {
      setOpened(id);
      return call(() => desk.openDebrief(id, trusted));
    },
    [call],
  );
  const chooseDebrief = useCallback(
    () =>
      setPicking({
        wants: "debrief",
        dropped: NOTHING_DROPPED,
        take: ([id]) => Promise.resolve(void (id !== undefined && openIt(id))),
      }),
    [openIt],
  );
  const batch = useBatch();
  /** Asked for anew each time: what was opened is seen. */
  const listBatch = useCallback(
    (folder: PathId) => call(async () => setBatch({ folder, rides: await desk.batch(folder), at: null })),
    [call],
  );
  const chooseBatch = useCallback(
    () =>
      setPicking({
        wants: "folder",
        dropped: NOTHING_DROPPED,
        take: ([id]) => Promise.resolve(void (id !== undefined && listBatch(id))),
      }),
    [listBatch],
  );
  const openRide = useCallback(
    (of: Batch, index: number | null) => {
      const id = index === null ? null : (of.rides[index]?.id ?? null);
      if (id === null) return;
      void openIt(id).then((opened) => {
        if (!opened) return;
        setBatch({
          ...of,
          rides: of.rides.map((ride, at) => (at === index ? { ...ride, seen: true } : ride)),
          at: index,
        });
      });
    },
    [openIt],
  );
  const next = batch === null ? null : rideFrom(batch, 1);
  const before = batch === null ? null : rideFrom(batch, -1);
  const lookFor = useCallback(
    () =>
      setPicking({
        wants: "folder",
        dropped: NOTHING_DROPPED,
        take: async ([id]) => id !== undefined && desk.lookForMedia(id),
      }),
    [],
  );

  const onFiles = useCallback(
    (files: readonly File[]) => {
      if (locked) return;
      if (!seesDroppedPaths())
        setPicking({ wants: "files", dropped: files.map(({ name, size }) => ({ name, bytes: size })), take: addFiles });
      else void call(async () => addFiles(await desk.idsOfDropped(dropTokens(files))));
    },
    [call, locked],
  );
  const over = useDrop(onFiles);

  useKeys(words.title, [
    ...(locked ? [] : [{ keys: "f", words: debrief === null ? words.choose : words.chooseMore, run: choose }]),
    ...(debrief === null
      ? [
          { keys: "d", words: words.openDebrief, run: chooseDebrief },
          { keys: "b", words: words.openBatch, run: chooseBatch },
        ]
      : [{ keys: "Ctrl+Enter", words: words.next, run: onNext, inFields: true }]),
    ...(batch === null
      ? []
      : [
          { keys: "n", words: words.batchNext, run: () => openRide(batch, next) },
          { keys: "p", words: words.batchBefore, run: () => openRide(batch, before) },
        ]),
  ]);

  return (
    <main className="gather">
      {failure !== null && <FailureNote failure={failure} />}
      {failure?.code === "debrief-not-trusted" && opened !== null && (
        <div className="row gather-trust">
          <Button onClick={() => void openIt(opened, true)}>{words.trust}</Button>
        </div>
      )}
      {job !== undefined && <JobLine job={job} title={words.reading} />}
      {batch !== null && debrief !== null && (
        <div className="row gather-hop">
          {batch.at !== null && <span className="quiet">{words.batchAt(batch.at + 1, batch.rides.length)}</span>}
          <Button keys="p" disabled={before === null || busy} onClick={() => openRide(batch, before)}>
            {words.batchBefore}
          </Button>
          <Button keys="n" disabled={next === null || busy} onClick={() => openRide(batch, next)}>
            {words.batchNext}
          </Button>
        </div>
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
          onAthlete={(id) => void call(() => desk.useAthlete(id))}
          onAthletes={onAthletes}
        />
      ) : (
        <>
          <section className="part" aria-labelledby="files-title">
            <header>
              <h1 id="files-title">{over ? words.dropNow : words.title}</h1>
              <div className="row">
                {!locked && (
                  <Button keys="f" onClick={choose}>
                    {words.chooseMore}
                  </Button>
                )}
                <Button kind="bare" onClick={() => void call(() => desk.closeDebrief())}>
                  {words.close}
                </Button>
              </div>
            </header>
            {debrief.missingMedia.length > 0 && (
              <div className="note wrong stack">
                <p>
                  <b>{words.missing(debrief.missingMedia.map((media) => media.name).join(", "))}</b> {words.missingMore}
                </p>
                <div>
                  <Button kind="main" onClick={lookFor}>
                    {words.look}
                  </Button>
                </div>
              </div>
            )}
            <FilesOnDesk
              debrief={debrief}
              reading={job !== undefined || busy}
              onRemove={(id) => void call(() => desk.removeFile(id))}
              onShow={(id) => void call(() => desk.showRide(id))}
            />
            {noticeTexts(debrief.warnings, WINDOW_LANGUAGE, "window").map((warning) => (
              <p key={warning} className="note unsure">
                {warning}
              </p>
            ))}
          </section>
          <div className="stack wide">
            <AthleteChoice debrief={debrief} onUse={(id) => void call(() => desk.useAthlete(id))} />
            <PlanForm
              debrief={debrief}
              onPlan={(plan: Plan, label) =>
                void call(() => desk.edit({ part: "plan", value: plan, label }, debrief.edit))
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
      )}
      {picking !== null && (
        <Picker
          wants={picking.wants}
          dropped={picking.dropped}
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

function AthleteChoice({
  debrief,
  onUse,
}: {
  readonly debrief: DebriefView;
  readonly onUse: (id: PathId | null) => void;
}) {
  const [athletes, setAthletes] = useState<readonly AthleteEntry[]>([]);
  useEffect(() => {
    let here = true;
    desk.athletes().then(
      (found) => here && setAthletes(found),
      () => undefined,
    );
    return () => {
      here = false;
    };
  }, [debrief.athleteId]);
  const chosen = athletes.find((athlete) => athlete.id === debrief.athleteId);
  return (
    <Field label={words.athlete} hint={chosen?.lines.join("; ")}>
      {(props) => (
        <select
          {...props}
          disabled={debrief.readOnly !== null}
          value={debrief.athleteId ?? ""}
          onChange={(event) => onUse(event.target.value === "" ? null : event.target.value)}
        >
          <option value="">{words.noAthlete}</option>
          {athletes.map((athlete) => (
            <option key={athlete.id} value={athlete.id}>
              {athlete.name}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
}
