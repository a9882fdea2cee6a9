import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import { type Anchor, type FoundClock, type RideClock, rideClockOf } from "../../main/contract/lineup.ts";
import { clockText, durationText } from "../../overlay/words/numbers.ts";
import { fetchRideColumns, fetchSignals } from "../desk/columns.ts";
import { desk } from "../desk/desk.ts";
import { useDebrief, useDesk } from "../desk/useDesk.ts";
import { useFetched } from "../desk/useFetched.ts";
import { Button } from "../look/Button.tsx";
import { FailureNote } from "../look/FailureNote.tsx";
import { JobLine } from "../look/JobLine.tsx";
import { NumberField } from "../look/NumberField.tsx";
import { useKeys } from "../look/keys.ts";
import { useCalls } from "../look/useCalls.ts";
import { Player, type PlayerHandle, type ShownInstant } from "../player/Player.tsx";
import { Transport, type TransportHandle } from "../player/Transport.tsx";
import { lineup as words } from "../words/lineup.ts";
import { Anchors } from "./Anchors.tsx";
import { ClipPlaces } from "./ClipPlaces.tsx";
import { Glance } from "./Glance.tsx";
import { type LaneMark, MotionLane } from "./MotionLane.tsx";
import { MOVES, Nudge } from "./Nudge.tsx";
import { SET_BY, putFootage } from "./moveFootage.ts";
import { placesToCheck } from "./placesToCheck.ts";
import { useMoves } from "./useMoves.ts";
import "./lineup.css";
import { noticeTexts } from "../../overlay/words/notices/noticeText.ts";
import { WINDOW_LANGUAGE } from "../words/language.ts";

/** The lane begins with the clip and this share of it on either side. */
const ROOM = 0.3;
const LEAST_ROOM_S = 20;
const FRAME_IF_UNKNOWN_S = 1 / 30;

/** Line up: footage and ride on one clock, seen at once by the picture with its numbers. */
export function LineUp({ onNext }: { readonly onNext: () => void }) {
  const { jobs } = useDesk();
  const debrief = useDebrief();
  const { clips, lineup, addresses } = debrief;
  const { anchors, deviceDelayS, plan } = debrief.document;
  const { failure, call } = useCalls();
  const { pendingS: sentS, move } = useMoves(call, debrief.edit);
  const [dragS, setDragS] = useState(0);
  const pendingS = sentS + dragS;
  const [chosenId, setChosen] = useState(() => lineup?.clips.find((one) => !one.sure)?.clipId ?? clips.at(0)?.id ?? "");
  const [atMediaS, setAtMediaS] = useState(0);
  const [glanceAt, setGlanceAt] = useState<number | null>(null);
  const [zoom, setZoom] = useState(0);
  const [playing, setPlaying] = useState(false);
  const player = useRef<PlayerHandle>(null);
  const transport = useRef<TransportHandle>(null);
  const anchorField = useRef<HTMLInputElement>(null);
  const mark = useRef<LaneMark>(null);
  const locked = debrief.readOnly !== null;

  const columns = useFetched(addresses.columns, fetchRideColumns).value;
  const clip = clips.find((one) => one.id === chosenId) ?? clips.at(0);
  const signals = useFetched(clip?.hasSignals === true ? `${addresses.signals}/${clip.id}` : null, (address) =>
    fetchSignals(address, clip!.id),
  ).value;
  const placement = lineup?.clips.find((one) => one.clipId === clip?.id);
  const found = placement?.found ?? null;
  const clock = useMemo<FoundClock>(
    () => ({ offsetS: (found?.offsetS ?? 0) + pendingS, rate: found?.rate ?? 1 }),
    [found, pendingS],
  );
  const speed = columns?.speed?.value ?? null;
  const frameS = clip === undefined || clip.frames === 0 ? FRAME_IF_UNKNOWN_S : clip.durationS / clip.frames;
  const places = useMemo(() => {
    const shown = lineup === null || clip === undefined ? null : rideClockOf(lineup, clip.id);
    return speed === null || shown === null || clip === undefined ? [] : placesToCheck(speed, shown, clip.durationS);
  }, [speed, lineup, clip]);
  const job = jobs.find(
    (one) => (one.what === "lineup" || one.what === "signals") && (one.state === "running" || one.state === "waiting"),
  );
  const unsure = lineup === null || lineup.clips.some((one) => !one.sure);

  // Moves still on their way are drawn at once; a new function repaints the numbers.
  const clockOf = useCallback(
    (clipId: string): RideClock | null => {
      const own = lineup === null ? null : rideClockOf(lineup, clipId);
      return own === null ? null : { offsetS: own.offsetS + pendingS, rate: own.rate };
    },
    [lineup, pendingS],
  );
  const onShown = useCallback((shown: ShownInstant) => {
    const { mediaS } = shown;
    mark.current?.show(mediaS);
    transport.current?.show(shown);
    if (mediaS !== null && player.current?.playing !== true) setAtMediaS(mediaS);
  }, []);
  // A moved clip stands at another ride time though the same frame is shown.
  useEffect(() => {
    const shown = player.current?.shown;
    if (shown === undefined || shown.clipId === null || shown.mediaS === null) return;
    const now = clockOf(shown.clipId);
    transport.current?.show({ ...shown, rideS: now === null ? null : now.offsetS + now.rate * shown.mediaS });
  }, [clockOf]);
  // While it plays, what is said of the instant waits; stopped, it is said of the frame that then stands there.
  const onPlaying = useCallback((now: boolean) => {
    setPlaying(now);
    if (!now) setAtMediaS((before) => player.current?.shown.mediaS ?? before);
  }, []);
  const look = (mediaS: number) => clip !== undefined && player.current?.showClip(clip.id, mediaS);
  const clipId = clip?.id;
  useEffect(() => {
    setGlanceAt(null);
    if (clipId !== undefined) player.current?.showClip(clipId, 0);
  }, [clipId]);

  const setAnchors = (value: readonly Anchor[], label: string) =>
    void call(() => desk.edit({ part: "anchors", value, label }, debrief.edit));
  const instant = () => player.current?.shown.mediaS ?? atMediaS;
  const add = (mediaS: number, rideS: number, sigmaS: number, label: string) =>
    clip !== undefined && setAnchors([...anchors, { clipId: clip.id, mediaS, rideS, sigmaS }], label);
  const moveBy = (byS: number, how: keyof typeof SET_BY) => {
    if (clip !== undefined && !locked) move(clip.id, byS, SET_BY[how], instant());
  };
  const agree = () => {
    if (clip === undefined || found === null || locked) return;
    const mediaS = (glanceAt === null ? undefined : places[glanceAt])?.mediaS ?? instant();
    add(mediaS, found.offsetS + found.rate * mediaS, SET_BY.eye, words.agreedLabel(clip.name));
  };
  const goTo = (index: number) => {
    const place = places[index];
    if (place === undefined) return;
    setGlanceAt(index);
    look(place.mediaS);
  };
  const toClip = (step: number) => {
    const at = clips.findIndex((one) => one.id === clip?.id);
    const next = clips[(at + step + clips.length) % clips.length];
    if (next !== undefined) setChosen(next.id);
  };
  const lookOn = (byS: number) =>
    clip !== undefined && look(Math.max(0, Math.min(clip.durationS - frameS, instant() + byS)));

  useKeys(
    words.title,
    clip === undefined
      ? [{ keys: "Ctrl+Enter", words: words.next, run: onNext, inFields: true }]
      : [
          { keys: "n", words: words.keys.nextClip, run: () => toClip(1) },
          { keys: "p", words: words.keys.previousClip, run: () => toClip(-1) },
          ...MOVES.flatMap(({ how, byS, less, more }) => [
            { keys: less, words: words.earlier[how], run: () => moveBy(-(byS ?? frameS), how) },
            { keys: more, words: words.later[how], run: () => moveBy(byS ?? frameS, how) },
          ]),
          { keys: "a", words: words.keys.anchor, run: () => anchorField.current?.focus() },
          ...(places.length === 0
            ? []
            : [{ keys: "g", words: words.keys.nextPlace, run: () => goTo(((glanceAt ?? -1) + 1) % places.length) }]),
          { keys: "y", words: words.keys.agree, run: agree },
          { keys: "+", words: words.zoomIn, run: () => setZoom((now) => Math.min(7, now + 1)) },
          { keys: "-", words: words.zoomOut, run: () => setZoom((now) => Math.max(-1, now - 1)) },
          { keys: "Ctrl+Enter", words: words.next, run: onNext, inFields: true },
        ],
  );

  if (clip === undefined)
    return (
      <main className="lineup-none">
        <h1>{words.title}</h1>
        <p>{words.noClips}</p>
        <div>
          <Button kind="main" keys="Ctrl+Enter" onClick={onNext}>
            {words.next}
          </Button>
        </div>
      </main>
    );
  const span = laneSpan(
    clock,
    clip.durationS,
    columns?.seconds ?? clip.durationS,
    zoom,
    clock.offsetS + clock.rate * atMediaS,
  );
  return (
    <main className="lineup">
      <h1 className="unseen">{words.title}</h1>
      <div className="lineup-picture stage">
        <Player
          label={words.picture}
          clips={clips}
          framesAddress={addresses.frames}
          columns={columns}
          clockOf={clockOf}
          units={plan.units}
          handle={player}
          onShown={onShown}
          onPlaying={onPlaying}
          onWantProxy={(id) => void call(() => desk.makeProxy(id))}
        />
      </div>
      <div className="lineup-side scroll" tabIndex={-1}>
        {failure !== null && <FailureNote failure={failure} />}
        {job !== undefined && <JobLine job={job} title={words.searching} />}
        <section className="part" aria-labelledby="places-title">
          <header>
            <h2 id="places-title">{words.clips}</h2>
            <Button kind="main" keys="Ctrl+Enter" onClick={onNext}>
              {words.next}
            </Button>
          </header>
          <ClipPlaces
            clips={clips}
            lineup={lineup}
            rideLengthS={columns?.seconds ?? null}
            chosenId={clip.id}
            locked={locked}
            onChoose={setChosen}
            onTry={(id, rideS) =>
              setAnchors(
                putFootage(anchors, lineup?.clips ?? [], { clipId: id, mediaS: 0, rideS, sigmaS: SET_BY.drag }),
                words.triedLabel(clip.name, clockText(rideS)),
              )
            }
          />
          {!locked && unsure && job === undefined && (
            <div className="stack">
              <div className="row">
                <Button onClick={() => void call(() => desk.lineUp(true))}>{words.search}</Button>
              </div>
              <p className="quiet small">
                {clips.every((one) => one.hasSignals) ? words.searchOpen : words.searchMore}
              </p>
              <p className="quiet small">{words.unsureNext}</p>
            </div>
          )}
          {noticeTexts(lineup?.warnings ?? [], WINDOW_LANGUAGE, "window").map((warning) => (
            <p key={warning} className="note unsure">
              {warning}
            </p>
          ))}
        </section>
        {found !== null && placement !== undefined && placement.method !== "anchor" && (
          <Glance
            places={places}
            units={plan.units}
            at={glanceAt}
            locked={locked}
            onGo={goTo}
            onAgree={agree}
            onDisagree={() => anchorField.current?.focus()}
          />
        )}
        <Anchors
          clips={clips}
          anchors={anchors}
          lineup={lineup}
          atMediaS={atMediaS}
          locked={locked}
          field={anchorField}
          onSet={(rideS) => add(instant(), rideS, SET_BY.typed, words.anchorSet(clip.name))}
          onRemove={(index) =>
            setAnchors(
              anchors.filter((_, at) => at !== index),
              words.anchorRemoved(clip.name),
            )
          }
        />
        <NumberField
          label={words.delay}
          hint={words.delayHint}
          unit="s"
          value={deviceDelayS}
          least={-10}
          most={10}
          disabled={locked}
          onChange={(value) =>
            void call(() =>
              desk.edit(
                { part: "deviceDelayS", value: value ?? 0, label: words.delayLabel(String(value ?? 0)) },
                debrief.edit,
              ),
            )
          }
        />
        {lineup !== null && lineup.rides.length > 1 && (
          <section className="part" aria-labelledby="rides-title">
            <header>
              <h2 id="rides-title">{words.rides}</h2>
            </header>
            <ul className="rows">
              {lineup.rides
                .filter((ride) => !ride.shown)
                .map((ride) => (
                  <li key={ride.file} className={ride.uncertaintyS === null ? "unsure" : "firm"}>
                    {words.rideAt(ride.file, offsetText(ride.offsetS))}
                  </li>
                ))}
            </ul>
          </section>
        )}
      </div>
      <Transport player={player} playing={playing} handle={transport} onMove={lookOn} exact />
      <section className="lineup-lane" aria-label={words.motionTitle}>
        <div className="row apart lineup-said">
          <p className="small quiet grow">{words.motionTitle}</p>
          <div className="row">
            <Button kind="bare" keys="-" onClick={() => setZoom((now) => Math.max(-1, now - 1))}>
              {words.zoomOut}
            </Button>
            <Button kind="bare" keys="+" onClick={() => setZoom((now) => Math.min(7, now + 1))}>
              {words.zoomIn}
            </Button>
          </div>
        </div>
        <MotionLane
          clipName={clip.name}
          speedMps={speed}
          motion={signals?.motion ?? null}
          stepS={signals?.stepS ?? 1}
          clock={clock}
          durationS={clip.durationS}
          frameS={frameS}
          sure={placement?.sure === true}
          anchors={anchors.filter((anchor) => anchor.clipId === clip.id)}
          fromS={span.fromS}
          toS={span.toS}
          locked={locked}
          mark={mark}
          onDrag={setDragS}
          onMove={moveBy}
          onLook={look}
        />
        {!locked && <Nudge frameS={frameS} onMove={moveBy} />}
      </section>
    </main>
  );
}

/** What the lane shows: the clip with room on either side; wider: the whole ride; closer: around the picture that is shown. */
function laneSpan(
  clock: FoundClock,
  durationS: number,
  rideLengthS: number,
  zoom: number,
  centreS: number,
): { readonly fromS: number; readonly toS: number } {
  if (zoom < 0)
    return { fromS: Math.min(0, clock.offsetS), toS: Math.max(rideLengthS, clock.offsetS + clock.rate * durationS) };
  const room = Math.max(LEAST_ROOM_S, clock.rate * durationS * ROOM);
  const wide = clock.rate * durationS + 2 * room;
  if (zoom === 0) return { fromS: clock.offsetS - room, toS: clock.offsetS - room + wide };
  const half = wide / 2 ** zoom / 2;
  return { fromS: centreS - half, toS: centreS + half };
}

function offsetText(offsetS: number): string {
  if (Math.abs(offsetS) < 0.5) return words.same;
  return offsetS > 0 ? words.after(durationText(offsetS)) : words.before(durationText(-offsetS));
}
