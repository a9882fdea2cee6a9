import { useCallback, useEffect, useMemo, useState } from "react";
import type { WindowColumns } from "../../main/contract/columnBytes.ts";
import type { ClipView } from "../../main/contract/debriefApi.ts";
import {
  type Anchor,
  type FoundClock,
  type RideClock,
  type RideInstant,
  rideClockOf,
} from "../../main/contract/lineup.ts";
import { clockText } from "../../overlay/words/numbers.ts";
import { desk } from "../desk/desk.ts";
import { useDebrief } from "../desk/useDesk.ts";
import type { Calls } from "../look/useCalls.ts";
import { lineup as words } from "../words/lineup.ts";
import { SET_BY, confirmed, putFootage } from "./moveFootage.ts";
import { placesToCheck } from "./placesToCheck.ts";
import type { LookedAt } from "./useLookedAt.ts";
import { useMoves } from "./useMoves.ts";

interface Given {
  readonly clip: ClipView;
  readonly columns: WindowColumns | null;
  readonly looked: LookedAt;
  readonly call: Calls["call"];
}

export type Placing = ReturnType<typeof usePlacing>;

/** Where the clip that is looked at lies in the ride, what would show that, and all that places it otherwise. */
export function usePlacing({ clip, columns, looked, call }: Given) {
  const debrief = useDebrief();
  const { lineup } = debrief;
  const { anchors } = debrief.document;
  const locked = debrief.readOnly !== null;
  const { pendingS: sentS, move } = useMoves(call, debrief.edit);
  const [dragS, setDragS] = useState(0);
  const pendingS = sentS + dragS;
  const placement = lineup?.clips.find((one) => one.clipId === clip.id);
  const found = placement?.found ?? null;
  const clock = useMemo<FoundClock>(
    () => ({ offsetS: (found?.offsetS ?? 0) + pendingS, rate: found?.rate ?? 1 }),
    [found, pendingS],
  );
  // Moves still on their way are drawn at once; a new function repaints the numbers.
  const clockOf = useCallback(
    (clipId: string): RideClock | null => {
      const own = lineup === null ? null : rideClockOf(lineup, clipId);
      return own === null ? null : { offsetS: own.offsetS + pendingS, rate: own.rate };
    },
    [lineup, pendingS],
  );
  const setAnchors = (value: readonly Anchor[], label: string) =>
    void call(() => desk.edit({ part: "anchors", value, label }, debrief.edit));
  const add = (mediaS: number, rideS: number, sigmaS: number, label: string) =>
    setAnchors([...anchors, { clipId: clip.id, mediaS, rideS, sigmaS }], label);
  const moveBy = (byS: number, how: keyof typeof SET_BY) => {
    if (!locked) move(clip.id, byS, SET_BY[how], looked.instant());
  };
  const tryAt = (clipId: string, rideS: number) =>
    setAnchors(
      putFootage(anchors, lineup?.clips ?? [], { clipId, mediaS: 0, rideS, sigmaS: SET_BY.drag }),
      words.triedLabel(clip.name, clockText(rideS)),
    );
  const setAt = ({ rideS, sigmaS }: RideInstant) => add(looked.instant(), rideS, sigmaS, words.anchorSet(clip.name));
  const removeAt = (index: number) =>
    setAnchors(
      anchors.filter((_, at) => at !== index),
      words.anchorRemoved(clip.name),
    );
  const glance = useGlance({ clip, columns, lineup, looked });
  const agree = () => {
    if (placement === undefined || found === null || locked || pendingS !== 0) return;
    const mediaS = glance.place?.mediaS ?? looked.instant();
    setAnchors(confirmed(anchors, lineup?.clips ?? [], placement, mediaS), words.agreedLabel(clip.name));
  };
  return { placement, clock, clockOf, locked, onDrag: setDragS, moveBy, tryAt, setAt, removeAt, agree, glance };
}

/** The instants that show at once whether the place is right, and the one that is looked at. */
function useGlance({
  clip,
  columns,
  lineup,
  looked,
}: Omit<Given, "call"> & Pick<ReturnType<typeof useDebrief>, "lineup">) {
  const [at, setAt] = useState<number | null>(null);
  const speed = columns?.speed?.value ?? null;
  const places = useMemo(() => {
    const shown = lineup === null ? null : rideClockOf(lineup, clip.id);
    return speed === null || shown === null ? [] : placesToCheck(speed, shown, clip.durationS);
  }, [speed, lineup, clip]);
  useEffect(() => setAt(null), [clip.id]);
  const goTo = (index: number) => {
    const place = places[index];
    if (place === undefined) return;
    setAt(index);
    looked.look(place.mediaS);
  };
  const goToNext = () => goTo(((at ?? -1) + 1) % places.length);
  return { places, at, place: at === null ? undefined : places[at], goTo, goToNext };
}
