import { useCallback, useMemo, useRef, useState } from "react";
import { fetchRideColumns } from "../desk/columns.ts";
import { desk } from "../desk/desk.ts";
import { useDebrief } from "../desk/useDesk.ts";
import { useFetched } from "../desk/useFetched.ts";
import { Button } from "../look/Button.tsx";
import { useKeys } from "../look/keys.ts";
import { useCalls } from "../look/useCalls.ts";
import { Player, type PlayerHandle } from "../player/Player.tsx";
import { Transport, type TransportHandle } from "../player/Transport.tsx";
import { lineup as words } from "../words/lineup.ts";
import { byRideTime } from "./byRideTime.ts";
import { LineUpLane } from "./LineUpLane.tsx";
import { LineUpSide } from "./LineUpSide.tsx";
import type { LaneMark } from "./MotionLane.tsx";
import { useLineUpKeys } from "./useLineUpKeys.ts";
import { useLookedAt, useMovedClip } from "./useLookedAt.ts";
import { usePlacing } from "./usePlacing.ts";
import "./lineup.css";

interface Props {
  readonly onNext: () => void;
}

/** Line up: footage and ride on one clock, seen at once by the picture with its numbers. */
export function LineUp({ onNext }: Props) {
  const { clips } = useDebrief();
  return clips.length === 0 ? <NothingToLineUp onNext={onNext} /> : <LineUpClips onNext={onNext} />;
}

function NothingToLineUp({ onNext }: Props) {
  const { missingMedia } = useDebrief();
  useKeys(words.title, [{ keys: "Ctrl+Enter", words: words.next, run: onNext, inFields: true }]);
  return (
    <main className="lineup-none">
      <h1>{words.title}</h1>
      <p>{missingMedia.length > 0 ? words.clipsAway : words.noClips}</p>
      <div>
        <Button kind="main" keys="Ctrl+Enter" onClick={onNext}>
          {words.next}
        </Button>
      </div>
    </main>
  );
}

/** The picture, the places of the clips beside it, and the lane below. */
function LineUpClips({ onNext }: Props) {
  const debrief = useDebrief();
  const { lineup, addresses } = debrief;
  const clips = useMemo(() => byRideTime(debrief.clips, lineup), [debrief.clips, lineup]);
  const { failure, call } = useCalls();
  const [chosenId, setChosen] = useState(() => lineup?.clips.find((one) => !one.sure)?.clipId ?? clips.at(0)?.id ?? "");
  const [zoom, setZoom] = useState(0);
  const player = useRef<PlayerHandle>(null);
  const transport = useRef<TransportHandle>(null);
  const anchorField = useRef<HTMLInputElement>(null);
  const mark = useRef<LaneMark>(null);
  const columns = useFetched(addresses.columns, fetchRideColumns).value;
  const clip = clips.find((one) => one.id === chosenId) ?? clips[0]!;
  const looked = useLookedAt({ player, transport, mark, clip });
  const placing = usePlacing({ clip, columns, looked, call });
  const { clockOf } = placing;
  useMovedClip(player, transport, clockOf);
  const toClip = (step: number) => {
    const at = clips.findIndex((one) => one.id === clip.id);
    setChosen(clips[(at + step + clips.length) % clips.length]!.id);
  };
  const onZoom = useCallback((by: 1 | -1) => setZoom((now) => Math.max(-1, Math.min(7, now + by))), []);
  const toAnchor = () => anchorField.current?.focus();
  useLineUpKeys({ placing, looked, onClip: toClip, onAnchor: toAnchor, onZoom, onNext });
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
          units={debrief.document.plan.units}
          handle={player}
          onShown={looked.onShown}
          onPlaying={looked.onPlaying}
          onWantProxy={(id) => void call(() => desk.makeProxy(id))}
        />
      </div>
      <LineUpSide
        clips={clips}
        clip={clip}
        placing={placing}
        looked={looked}
        rideLengthS={columns?.seconds ?? null}
        failure={failure}
        call={call}
        anchorField={anchorField}
        onChoose={setChosen}
        onAnchor={toAnchor}
        onNext={onNext}
      />
      <Transport player={player} playing={looked.playing} handle={transport} onMove={looked.lookOn} exact />
      <LineUpLane
        clip={clip}
        placing={placing}
        looked={looked}
        columns={columns}
        mark={mark}
        zoom={zoom}
        onZoom={onZoom}
      />
    </main>
  );
}
