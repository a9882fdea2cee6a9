import { type RefObject, useCallback, useMemo, useRef, useState } from "react";
import type { WindowColumns } from "../../main/contract/columnBytes.ts";
import type { DebriefView } from "../../main/contract/debriefApi.ts";
import { fetchRideColumns } from "../desk/columns.ts";
import { desk } from "../desk/desk.ts";
import { useDebrief } from "../desk/useDesk.ts";
import { useKept } from "../desk/useKept.ts";
import { useFetched } from "../desk/useFetched.ts";
import { useKeys } from "../look/keys.ts";
import { Player, type PlayerHandle } from "../player/Player.tsx";
import { placedClips } from "../player/placedClips.ts";
import { Transport, type TransportHandle } from "../player/Transport.tsx";
import { askedOnStrip } from "../strip/askedOnStrip.ts";
import { RideMap } from "../strip/RideMap.tsx";
import { Strip } from "../strip/Strip.tsx";
import type { StripHandle } from "../strip/useStripCursor.ts";
import { player as playerWords } from "../words/player.ts";
import { skim as words } from "../words/skim.ts";
import { focusMoments } from "./MomentList.tsx";
import { SkimSide } from "./SkimSide.tsx";
import { type SkimEdits, useSkimEdits } from "./useSkimEdits.ts";
import { type SkimMoments, useSkimMoments } from "./useSkimMoments.ts";
import { type SkimPlace, useSkimPlace } from "./useSkimPlace.ts";
import { OwnMoment } from "./OwnMoment.tsx";
import { SPEAK_KEY, type Spoken, useSpoken } from "./useSpoken.ts";
import "./skim.css";

/** Skim: picture, strip and moments; what is kept, dropped, named, or set otherwise than computed. */
export function Skim({ onNext }: { readonly onNext: () => void }) {
  const debrief = useDebrief();
  const { document: doc, clips, lineup, addresses } = debrief;
  const locked = debrief.readOnly !== null;
  const columns = useFetched(addresses.columns, fetchRideColumns).value;
  const player = useRef<PlayerHandle>(null);
  const strip = useRef<StripHandle>(null);
  const map = useRef<StripHandle>(null);
  const transport = useRef<TransportHandle>(null);
  const [playing, setPlaying] = useState(false);
  const [view, setView] = useState<"moments" | "reading">("moments");
  const [adding, setAdding] = useState<number | null>(null);
  const { placed, clockOf, coverage } = usePlaced(clips, lineup);
  const listed = useSkimMoments(debrief, placed);
  const place = useSkimPlace({ placed, columns, listed, player, strip, map, transport });
  const edits = useSkimEdits(debrief, place.here, listed.hold);
  const startAdding = () => !locked && setAdding(place.here() ?? 0);
  const spoken = useSpoken(place.here, locked, edits.call);
  useSkimKeys({ place, listed, spoken, onAdd: startAdding, onView: setView, onNext });

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
          onShown={place.onShown}
          onPlaying={setPlaying}
          onEnd={place.onEnd}
          onWantProxy={(clipId) => void edits.call(() => desk.makeProxy(clipId))}
        />
      </div>
      <Transport
        player={player}
        playing={playing}
        handle={transport}
        onMove={(byS) => place.go(Math.max(0, (place.here() ?? 0) + byS))}
      />
      <SkimSide
        debrief={debrief}
        columns={columns}
        listed={listed}
        place={place}
        edits={edits}
        spoken={spoken}
        view={view}
        onView={setView}
        onAdd={startAdding}
        onNext={onNext}
      />
      <SkimBelow
        debrief={debrief}
        columns={columns}
        coverage={coverage}
        listed={listed}
        place={place}
        edits={edits}
        strip={strip}
        map={map}
      />
      {adding !== null && <AddOwn atS={adding} edits={edits} onClose={() => setAdding(null)} />}
    </main>
  );
}

interface BelowProps {
  readonly debrief: DebriefView;
  readonly columns: WindowColumns | null;
  readonly coverage: ReturnType<typeof usePlaced>["coverage"];
  readonly listed: SkimMoments;
  readonly place: SkimPlace;
  readonly edits: SkimEdits;
  readonly strip: RefObject<StripHandle | null>;
  readonly map: RefObject<StripHandle | null>;
}

/** The whole ride as one strip, and its shape beside it on wish. */
function SkimBelow({ debrief, columns, coverage, listed, place, edits, strip, map }: BelowProps) {
  const asked = useAsked(debrief);
  const { roads, other } = useOtherRide(debrief);
  const [mapShown, toggleMap] = useMapShown();
  if (columns === null) return <div className="below" />;
  const { moments, selected } = listed;
  return (
    <div className={mapShown ? "below with-map" : "below"}>
      <Strip
        handle={strip}
        columns={columns}
        reading={debrief.reading!}
        asked={asked}
        units={debrief.document.plan.units}
        coverage={coverage}
        roads={roads}
        moments={moments}
        selected={selected}
        locked={debrief.readOnly !== null}
        onGo={place.go}
        onSelect={place.select}
        map={columns.latDeg === null ? null : mapShown}
        onMap={toggleMap}
        other={other}
        onOverrule={(override) => edits.overrule(override, words.labels.override(words[override.what]))}
      />
      {mapShown && (
        <RideMap
          handle={map}
          here={place.here}
          columns={columns}
          moments={moments}
          selected={selected}
          onGo={place.go}
        />
      )}
    </div>
  );
}

/** The name under which it is kept, as long as the window is open, whether the map is shown. */
const MAP = "followcar-map";

/** Whether the map stands beside the strip, as it was left. */
function useMapShown(): [boolean, () => void] {
  const [shown, setShown] = useState(() => sessionStorage.getItem(MAP) !== null);
  const toggle = () => {
    if (shown) sessionStorage.removeItem(MAP);
    else sessionStorage.setItem(MAP, "shown");
    setShown(!shown);
  };
  return [shown, toggle];
}

/** What the plan asks for besides the band of power, as the strip draws it: the same as long as that is. */
function useAsked({ document: { plan }, plannedBlocks: blocks }: DebriefView) {
  const asked = askedOnStrip(plan, blocks);
  return useMemo(() => asked, [JSON.stringify(asked)]);
}

/** Kept where no other ride is to be drawn. */
const NO_RIDE = "none";

/** Which other ride is drawn below this one, the newest until the coach says, and its roads as long as they are the same. */
function useOtherRide(debrief: DebriefView) {
  const { roads } = debrief;
  // By its number among them: no name is kept outside the debrief.
  const [wished, wish] = useKept("otherRide", debrief);
  const names = [...new Set(roads.map(({ name }) => name))];
  const chosen = wished === NO_RIDE ? null : (names[Number(wished ?? 0)] ?? names[0] ?? null);
  const own = roads.filter(({ name }) => name === chosen);
  const onChoose = (name: string | null) => wish(name === null ? NO_RIDE : String(names.indexOf(name)));
  return { roads: useMemo(() => own, [JSON.stringify(own)]), other: { names, chosen, onChoose } };
}

/** The clips in the ride: their clocks, and what of the ride they show. */
function usePlaced(clips: DebriefView["clips"], lineup: DebriefView["lineup"]) {
  const placed = useMemo(() => placedClips({ clips, lineup }), [clips, lineup]);
  const clockOf = useCallback(
    (clipId: string) => placed.find((one) => one.clip.id === clipId)?.clock ?? null,
    [placed],
  );
  const coverage = useMemo(
    () => placed.map(({ clip, startS, endS, sure }) => ({ clipId: clip.id, name: clip.name, startS, endS, sure })),
    [placed],
  );

  return { placed, clockOf, coverage };
}

interface KeysGiven {
  readonly place: SkimPlace;
  readonly listed: SkimMoments;
  readonly spoken: Spoken;
  readonly onAdd: () => void;
  readonly onView: (view: "moments" | "reading") => void;
  readonly onNext: () => void;
}

function useSkimKeys({ place, listed, spoken, onAdd, onView, onNext }: KeysGiven): void {
  useKeys(words.title, [
    { keys: "n", words: words.next, run: () => place.hop(1) },
    { keys: "p", words: words.previous, run: () => place.hop(-1) },
    { keys: "ArrowDown", words: words.next, run: () => place.hop(1) },
    { keys: "ArrowUp", words: words.previous, run: () => place.hop(-1) },
    { keys: "a", words: words.add, run: onAdd },
    { keys: SPEAK_KEY, words: words.speak, run: (event) => !event.repeat && spoken.begin() },
    { keys: "g", words: words.nextKind, run: listed.nextKind },
    {
      keys: "m",
      words: words.views.moments,
      run() {
        onView("moments");
        // Once they stand there.
        requestAnimationFrame(focusMoments);
      },
    },
    // From the details of a moment as from everywhere else; what is typed is handed on where its field is left.
    { keys: "Escape", words: words.backToList, run: focusMoments, inFields: true },
    { keys: "r", words: words.views.reading, run: () => onView("reading") },
    { keys: "Ctrl+Enter", words: words.toBuild, run: onNext, inFields: true },
  ]);
}

interface AddProps {
  readonly atS: number;
  readonly edits: SkimEdits;
  readonly onClose: () => void;
}

/** Asks what a moment of the coach's own is, and adds it. */
function AddOwn({ atS, edits, onClose }: AddProps) {
  const { ownMoments } = useDebrief().document;
  return (
    <OwnMoment
      atS={atS}
      kinds={[...new Set(ownMoments.map((one) => one.kind))]}
      onClose={onClose}
      onAdd={(own) => {
        onClose();
        edits.addOwn(own, atS);
      }}
    />
  );
}
