import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import type { MomentChoice } from "../../main/contract/debrief.ts";
import type { Break, BreakOverride, GivenReason, Moment, Override } from "../../main/contract/reading.ts";
import { clockText } from "../../overlay/words/numbers.ts";
import { fetchRideColumns } from "../desk/columns.ts";
import { desk } from "../desk/desk.ts";
import { useDebrief } from "../desk/useDesk.ts";
import { useFetched } from "../desk/useFetched.ts";
import { Button } from "../look/Button.tsx";
import { FailureNote } from "../look/FailureNote.tsx";
import { useKeys } from "../look/keys.ts";
import { Player, type PlayerHandle, type ShownInstant } from "../player/Player.tsx";
import { clipAt, firstFilmed, placedClips } from "../player/placedClips.ts";
import { Transport, type TransportHandle } from "../player/Transport.tsx";
import { Strip, type StripHandle } from "../strip/Strip.tsx";
import type { StripMoment } from "../strip/paintStrip.ts";
import { player as playerWords } from "../words/player.ts";
import { skim as words } from "../words/skim.ts";
import { AskedList } from "./AskedList.tsx";
import { BreakReasons } from "./BreakReasons.tsx";
import { MomentDetail } from "./MomentDetail.tsx";
import { MomentList } from "./MomentList.tsx";
import { OwnMoment } from "./OwnMoment.tsx";
import { ReadingPanel } from "./ReadingPanel.tsx";
import { type KnownMoment, sameMoment, withChoice, withoutChoice } from "./momentChoices.ts";
import { withOverride, withoutOverride } from "./overrides.ts";
import { useEdits } from "./useEdits.ts";
import "./skim.css";

/** The moment that is open. One of the coach's own goes only because its coach takes it away: nothing needs saying then. */
interface HeldMoment extends KnownMoment {
  readonly own: boolean;
}

/** Footage shown before a moment begins, s: what led to it. */
const LEAD_S = 1;

/** Skim: picture, strip and moments; what is kept, dropped, named, or set otherwise than computed. */
export function Skim({ onNext }: { readonly onNext: () => void }) {
  const debrief = useDebrief();
  const { document: doc, clips, lineup, addresses, momentWords, momentChoices } = debrief;
  const reading = debrief.reading!;
  const locked = debrief.readOnly !== null;
  const { edit, call, failure } = useEdits();
  const columns = useFetched(addresses.columns, fetchRideColumns).value;
  const player = useRef<PlayerHandle>(null);
  const strip = useRef<StripHandle>(null);
  const transport = useRef<TransportHandle>(null);
  const [playing, setPlaying] = useState(false);
  const [view, setView] = useState<"moments" | "reading">("moments");
  const [kind, setKind] = useState<string | null>(null);
  const [adding, setAdding] = useState<number | null>(null);
  const placed = useMemo(() => placedClips({ clips, lineup }), [clips, lineup]);
  const clockOf = useCallback(
    (clipId: string) => placed.find((one) => one.clip.id === clipId)?.clock ?? null,
    [placed],
  );
  const coverage = useMemo(
    () => placed.map(({ clip, startS, endS, sure }) => ({ clipId: clip.id, name: clip.name, startS, endS, sure })),
    [placed],
  );

  const all = useMemo(
    () =>
      reading.moments
        .map((moment, index): StripMoment & { readonly kind: string } => {
          const choice = momentChoices[index];
          const { startS, endS } = choice?.span ?? moment;
          return {
            index,
            kind: moment.kind,
            startS,
            endS,
            keep: choice?.keep ?? null,
            words: choice?.name ?? momentWords[index]!,
          };
        })
        .sort((a, b) => a.startS - b.startS),
    [reading.moments, momentChoices, momentWords],
  );
  const kinds = useMemo(() => {
    const counts = new Map<string, number>();
    for (const one of all) counts.set(one.kind, (counts.get(one.kind) ?? 0) + 1);
    // The kind that is shown stays to be chosen from, also once its last moment is gone.
    if (kind !== null && !counts.has(kind)) counts.set(kind, 0);
    return [...counts].map(([name, count]) => ({ kind: name, count }));
  }, [all, kind]);
  const moments = useMemo(() => (kind === null ? all : all.filter((one) => one.kind === kind)), [all, kind]);
  const filmed = ({ startS, endS }: { readonly startS: number; readonly endS: number }) =>
    firstFilmed(placed, startS, endS) !== null;
  // What was filmed is seen first.
  const firstRanked = () => {
    const ranked = [...reading.moments.keys()].sort((a, b) => reading.moments[a]!.rank - reading.moments[b]!.rank);
    return ranked.find((index) => filmed(reading.moments[index]!)) ?? ranked.at(0) ?? null;
  };
  const asHeld = (moment: Moment): HeldMoment => ({
    kind: moment.kind,
    startS: moment.startS,
    own: doc.ownMoments.some((one) => sameMoment(one, moment)),
  });
  // The moment itself, not its place in the reading: an overruled break takes moments away, and another must not stand in.
  const [held, hold] = useState<HeldMoment | null>(() => {
    const first = reading.moments.at(firstRanked() ?? Infinity);
    return first === undefined ? null : asHeld(first);
  });
  const heldAt = held === null ? -1 : reading.moments.findIndex((moment) => sameMoment(held, moment));
  const selected = heldAt < 0 ? null : heldAt;
  const chosen = reading.moments.at(selected ?? Infinity);

  const go = useCallback(
    (rideS: number) => {
      const there = clipAt(placed, rideS);
      if (there === null) player.current?.showRide(rideS);
      else player.current?.showClip(there.clip.id, (rideS - there.clock.offsetS) / there.clock.rate);
    },
    [placed],
  );
  /** To a moment, with what led to it as far as that was filmed; where its start was not, to its first picture. */
  const goTo = useCallback(
    ({ startS, endS }: { readonly startS: number; readonly endS: number }) => {
      const fromS = firstFilmed(placed, startS, endS) ?? startS;
      go(Math.max(0, fromS - LEAD_S, clipAt(placed, fromS)?.startS ?? 0));
    },
    [go, placed],
  );
  const here = () => player.current?.shown.rideS ?? null;
  const select = (index: number) => {
    hold(asHeld(reading.moments[index]!));
    const one = all.find((moment) => moment.index === index);
    if (one !== undefined) goTo(one);
  };
  const hop = (by: 1 | -1) => {
    if (moments.length === 0) return;
    const at = moments.findIndex((one) => one.index === selected);
    const rideS = here() ?? 0;
    const before = moments.findLastIndex((one) => one.startS <= rideS);
    const from = at >= 0 ? at : by > 0 ? before : before + 1;
    select(moments[Math.max(0, Math.min(moments.length - 1, from + by))]!.index);
  };

  // Where one begins: at the first moment to see, else where footage begins.
  const begun = useRef(false);
  useEffect(() => {
    if (begun.current || columns === null) return;
    begun.current = true;
    const one = all.find((moment) => moment.index === selected);
    if (one !== undefined) goTo(one);
    else go(placed.at(0)?.startS ?? 0);
  }, [columns, all, selected, placed, go, goTo]);

  const onShown = useCallback((shown: ShownInstant) => {
    strip.current?.show(shown.rideS);
    transport.current?.show(shown);
  }, []);
  const onEnd = useCallback(
    (clipId: string) => {
      const ended = placed.find((one) => one.clip.id === clipId);
      if (ended !== undefined) go(ended.endS + 0.01);
    },
    [placed, go],
  );

  const sentence = (moment: Moment) => momentWords[reading.moments.indexOf(moment)] ?? moment.kind;
  const said = (moment: Moment) => momentChoices[reading.moments.indexOf(moment)] ?? null;
  const change = (moment: Moment, next: Partial<MomentChoice>, label: string) =>
    void edit("choices", withChoice(doc.choices, moment, said(moment), next), label);
  const keep = (moment: Moment, value: boolean | null) =>
    change(moment, { keep: value }, words.labels[value === null ? "open" : value ? "keep" : "drop"](sentence(moment)));
  const edge = (moment: Moment, which: "startS" | "endS") => {
    const atS = here();
    if (atS === null) return;
    const span = {
      ...(said(moment)?.span ?? { startS: moment.startS, endS: moment.endS }),
      [which]: Math.round(atS * 10) / 10,
    };
    if (span.endS > span.startS) change(moment, { span }, words.labels.span(sentence(moment)));
  };
  const overrule = (override: Override, label: string) =>
    void edit("overrides", withOverride(doc.overrides, override), label);
  const back = (gone: Parameters<typeof withoutOverride>[1], label: string) =>
    void edit("overrides", withoutOverride(doc.overrides, gone), label);
  const reason = ({ startS, endS }: Break, set: GivenReason) =>
    overrule({ what: "break", startS, endS, set, reason: null }, words.labels.break(clockText(startS)));
  const computedReason = (override: BreakOverride) => back(override, words.labels.break(clockText(override.startS)));
  const removeOwn = async (moment: Moment, ownIndex: number) => {
    // What was said about it goes with it, or it would be asked about.
    const choice = said(moment);
    const label = words.labels.removed(moment.kind);
    if (choice !== null && !(await edit("choices", withoutChoice(doc.choices, choice), label))) return;
    await edit(
      "ownMoments",
      doc.ownMoments.filter((_, index) => index !== ownIndex),
      label,
    );
  };
  const addOwn = (own: { readonly kind: string; readonly words: string; readonly lengthS: number }) => {
    const startS = Math.round((adding ?? 0) * 10) / 10;
    const moment: Moment = {
      kind: own.kind,
      startS,
      endS: startS + own.lengthS,
      reason: own.words,
      excused: null,
      rank: reading.moments.length + 1,
      numbers: {},
      setBy: "coach",
      coachOnly: false,
    };
    setAdding(null);
    void edit("ownMoments", [...doc.ownMoments, moment], words.labels.own(own.kind)).then(
      (done) => done && hold({ kind: moment.kind, startS, own: true }),
    );
  };
  const startAdding = () => !locked && setAdding(here() ?? 0);
  const nextKind = () => {
    const at = kinds.findIndex((one) => one.kind === kind);
    setKind(at + 1 < kinds.length ? kinds[at + 1]!.kind : null);
  };

  useKeys(words.title, [
    { keys: "n", words: words.next, run: () => hop(1) },
    { keys: "p", words: words.previous, run: () => hop(-1) },
    { keys: "ArrowDown", words: words.next, run: () => hop(1) },
    { keys: "ArrowUp", words: words.previous, run: () => hop(-1) },
    { keys: "a", words: words.add, run: startAdding },
    { keys: "g", words: words.nextKind, run: nextKind },
    { keys: "m", words: words.views.moments, run: () => setView("moments") },
    { keys: "r", words: words.views.reading, run: () => setView("reading") },
  ]);

  const ownIndex =
    chosen === undefined
      ? -1
      : doc.ownMoments.findIndex((one) => one.kind === chosen.kind && one.startS === chosen.startS);
  const breaksIn = (moment: Moment) =>
    reading.breaks.filter((one) => one.endS > moment.startS - 1 && one.startS < moment.endS + 1).slice(0, 8);
  return (
    <main className="fills skim">
      <h1 className="unseen">{words.title}</h1>
      <div className="stage-cell stage">
        <Player
          label={playerWords.picture}
          clips={clips}
          framesAddress={addresses.frames}
          columns={columns}
          clockOf={clockOf}
          units={doc.plan.units}
          handle={player}
          onShown={onShown}
          onPlaying={setPlaying}
          onEnd={onEnd}
          onWantProxy={(clipId) => void call(() => desk.makeProxy(clipId))}
        />
      </div>
      <Transport
        player={player}
        playing={playing}
        handle={transport}
        onMove={(byS) => go(Math.max(0, (here() ?? 0) + byS))}
      />
      <div className="side">
        <div className="skim-head">
          <div className="skim-views" role="group" aria-label={words.viewsLabel}>
            {(["moments", "reading"] as const).map((one) => (
              <button
                key={one}
                type="button"
                className="skim-view"
                aria-pressed={view === one}
                onClick={() => setView(one)}
              >
                {words.views[one]} <kbd aria-hidden="true">{one === "moments" ? "M" : "R"}</kbd>
              </button>
            ))}
          </div>
          <Button kind="main" onClick={onNext}>
            {words.toBuild}
          </Button>
        </div>
        {failure !== null && <FailureNote failure={failure} />}
        <AskedList
          asked={debrief.asked}
          reading={reading}
          momentWords={momentWords}
          selected={selected}
          locked={locked}
          onSettle={(index, to) => void call(() => desk.settleAsked(index, to, debrief.edit))}
        />
        {view === "moments" ? (
          <>
            <div className="skim-tools row">
              <Button kind="bare" keys="p" onClick={() => hop(-1)}>
                {words.previousShort}
              </Button>
              <Button kind="bare" keys="n" onClick={() => hop(1)}>
                {words.nextShort}
              </Button>
              <Button kind="bare" keys="a" disabled={locked} onClick={startAdding}>
                {words.add}
              </Button>
            </div>
            <MomentList
              moments={moments}
              kinds={kinds}
              total={all.length}
              kind={kind}
              selected={selected}
              filmed={filmed}
              onKind={setKind}
              onSelect={select}
            />
            {held !== null && !held.own && chosen === undefined && <p className="note skim-gone">{words.gone}</p>}
            {chosen !== undefined && (
              <MomentDetail
                key={`${chosen.kind}@${chosen.startS}`}
                moment={chosen}
                sentence={sentence(chosen)}
                choice={said(chosen)}
                span={said(chosen)?.span ?? chosen}
                locked={locked}
                onKeep={(value) => keep(chosen, value)}
                onEdge={(which) => edge(chosen, which)}
                onSpanBack={() => change(chosen, { span: null }, words.labels.span(sentence(chosen)))}
                onName={(name) => change(chosen, { name }, words.labels.name(sentence(chosen)))}
                onNote={(note) => change(chosen, { note }, words.labels.note(sentence(chosen)))}
                onToFilm={() => void call(() => desk.addMomentToFilm(selected!))}
                onRemove={ownIndex < 0 ? null : () => void removeOwn(chosen, ownIndex)}
              >
                {breaksIn(chosen).length > 0 && (
                  <div className="stack">
                    <h3>{words.breaks}</h3>
                    <BreakReasons
                      breaks={breaksIn(chosen)}
                      overrides={reading.overrides}
                      locked={locked}
                      onGo={go}
                      onReason={reason}
                      onComputed={computedReason}
                    />
                  </div>
                )}
              </MomentDetail>
            )}
          </>
        ) : (
          <ReadingPanel
            reading={reading}
            lines={debrief.readingLines}
            units={doc.plan.units}
            locked={locked}
            here={here}
            onGo={go}
            onSet={overrule}
            onBack={(what, label) => back({ what }, label)}
            onWhy={(override) => overrule(override, words.why)}
            onReason={reason}
            onComputed={computedReason}
          />
        )}
      </div>
      <div className="below">
        {columns !== null && (
          <Strip
            handle={strip}
            columns={columns}
            reading={reading}
            coverage={coverage}
            moments={moments}
            selected={selected}
            locked={locked}
            onGo={go}
            onSelect={select}
            onOverrule={(override) => overrule(override, words.labels.override(words[override.what]))}
          />
        )}
      </div>
      {adding !== null && (
        <OwnMoment
          atS={adding}
          kinds={[...new Set(doc.ownMoments.map((one) => one.kind))]}
          onClose={() => setAdding(null)}
          onAdd={addOwn}
        />
      )}
    </main>
  );
}
