import { type RefObject, useCallback, useEffect, useRef } from "react";
import type { WindowColumns } from "../../main/contract/columnBytes.ts";
import { type PlacedClip, clipAt, firstFilmed } from "../player/placedClips.ts";
import type { PlayerHandle, ShownInstant } from "../player/Player.tsx";
import type { TransportHandle } from "../player/Transport.tsx";
import type { StripHandle } from "../strip/useStripCursor.ts";
import type { SkimMoments } from "./useSkimMoments.ts";

/** Footage shown before a moment begins, s: what led to it. */
const LEAD_S = 1;

interface Given {
  readonly placed: readonly PlacedClip[];
  readonly columns: WindowColumns | null;
  readonly listed: SkimMoments;
  readonly player: RefObject<PlayerHandle | null>;
  readonly strip: RefObject<StripHandle | null>;
  readonly map: RefObject<StripHandle | null>;
  readonly transport: RefObject<TransportHandle | null>;
}

export type SkimPlace = ReturnType<typeof useSkimPlace>;

/** Where in the ride one is, and the ways to another place. */
export function useSkimPlace({ placed, columns, listed, player, strip, map, transport }: Given) {
  const { all, moments, selected } = listed;
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
    listed.open(index);
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
    map.current?.show(shown.rideS);
    transport.current?.show(shown);
  }, []);
  const onEnd = useCallback(
    (clipId: string) => {
      const ended = placed.find((one) => one.clip.id === clipId);
      if (ended !== undefined) go(ended.endS + 0.01);
    },
    [placed, go],
  );

  return { go, here, select, hop, onShown, onEnd };
}
