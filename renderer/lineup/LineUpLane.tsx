import type { Ref } from "react";
import type { WindowColumns } from "../../main/contract/columnBytes.ts";
import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { FoundClock } from "../../main/contract/lineup.ts";
import { fetchSignals } from "../desk/columns.ts";
import { useDebrief } from "../desk/useDesk.ts";
import { useFetched } from "../desk/useFetched.ts";
import { Button } from "../look/Button.tsx";
import { lineup as words } from "../words/lineup.ts";
import type { LookedAt } from "./useLookedAt.ts";
import type { Placing } from "./usePlacing.ts";
import { movesAlong } from "./moveFootage.ts";
import { type LaneMark, MotionLane } from "./MotionLane.tsx";
import { Nudge } from "./Nudge.tsx";

/** The lane begins with the clip and this share of it on either side. */
const ROOM = 0.3;
const LEAST_ROOM_S = 20;

interface Props {
  readonly clip: ClipView;
  readonly placing: Placing;
  readonly looked: LookedAt;
  readonly columns: WindowColumns | null;
  readonly mark: Ref<LaneMark>;
  readonly zoom: number;
  readonly onZoom: (by: 1 | -1) => void;
}

/** Below the picture: the ride's speed over the footage's motion, and the tools that move the footage. */
export function LineUpLane({ clip, placing, looked, columns, mark, zoom, onZoom }: Props) {
  const debrief = useDebrief();
  const { anchors } = debrief.document;
  const { clock, placement, locked } = placing;
  const { along, stay } = movesAlong(anchors, debrief.lineup?.clips ?? [], clip.id);
  const signals = useFetched(clip.hasSignals ? `${debrief.addresses.signals}/${clip.id}` : null, (address) =>
    fetchSignals(address, clip.id),
  ).value;
  const speed = columns?.speed?.value ?? null;
  const span = laneSpan(
    clock,
    clip.durationS,
    columns?.seconds ?? clip.durationS,
    zoom,
    clock.offsetS + clock.rate * looked.atMediaS,
  );
  return (
    <section className="lineup-lane" aria-label={words.motionTitle}>
      <div className="row apart lineup-said">
        <p className="small quiet grow">{words.motionTitle}</p>
        <div className="row">
          <Button kind="bare" keys="-" onClick={() => onZoom(-1)}>
            {words.zoomOut}
          </Button>
          <Button kind="bare" keys="+" onClick={() => onZoom(1)}>
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
        frameS={looked.frameS}
        sure={placement?.sure === true}
        anchors={anchors.filter((anchor) => anchor.clipId === clip.id)}
        fromS={span.fromS}
        toS={span.toS}
        locked={locked}
        mark={mark}
        onDrag={placing.onDrag}
        onMove={placing.moveBy}
        onLook={looked.look}
      />
      {!locked && <Nudge frameS={looked.frameS} onMove={placing.moveBy} />}
      {!locked && along + stay > 0 && (
        <p className="quiet small">
          {[along > 0 ? [words.together(along)] : [], stay > 0 ? [words.apart(stay)] : []].flat().join("; ")}.
        </p>
      )}
    </section>
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
