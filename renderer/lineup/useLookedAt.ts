import { type RefObject, useCallback, useEffect, useState } from "react";
import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { RideClock } from "../../main/contract/lineup.ts";
import type { PlayerHandle, ShownInstant } from "../player/Player.tsx";
import type { TransportHandle } from "../player/Transport.tsx";
import type { LaneMark } from "./MotionLane.tsx";

const FRAME_IF_UNKNOWN_S = 1 / 30;

interface Given {
  readonly player: RefObject<PlayerHandle | null>;
  readonly transport: RefObject<TransportHandle | null>;
  readonly mark: RefObject<LaneMark | null>;
  readonly clip: ClipView;
}

/** The picture of the clip that is looked at, and where in the clip that is. */
export interface LookedAt {
  /** Clip time of the picture, s, as far as it is said in words: while it plays, that waits. */
  readonly atMediaS: number;
  readonly playing: boolean;
  readonly frameS: number;
  readonly onShown: (shown: ShownInstant) => void;
  readonly onPlaying: (now: boolean) => void;
  /** Clip time on the screen this moment, s. */
  readonly instant: () => number;
  readonly look: (mediaS: number) => void;
  readonly lookOn: (byS: number) => void;
}

export function useLookedAt({ player, transport, mark, clip }: Given): LookedAt {
  const [atMediaS, setAtMediaS] = useState(0);
  const [playing, setPlaying] = useState(false);
  const frameS = clip.frames === 0 ? FRAME_IF_UNKNOWN_S : clip.durationS / clip.frames;
  const onShown = useCallback((shown: ShownInstant) => {
    const { mediaS } = shown;
    mark.current?.show(mediaS);
    transport.current?.show(shown);
    if (mediaS !== null && player.current?.playing !== true) setAtMediaS(mediaS);
  }, []);
  // While it plays, what is said of the instant waits; stopped, it is said of the frame that then stands there.
  const onPlaying = useCallback((now: boolean) => {
    setPlaying(now);
    if (!now) setAtMediaS((before) => player.current?.shown.mediaS ?? before);
  }, []);
  const look = (mediaS: number) => player.current?.showClip(clip.id, mediaS);
  useEffect(() => look(0), [clip.id]);
  const instant = () => player.current?.shown.mediaS ?? atMediaS;
  const lookOn = (byS: number) => look(Math.max(0, Math.min(clip.durationS - frameS, instant() + byS)));
  return { atMediaS, playing, frameS, onShown, onPlaying, instant, look, lookOn };
}

/** A moved clip stands at another ride time though the same frame is shown. */
export function useMovedClip(
  player: RefObject<PlayerHandle | null>,
  transport: RefObject<TransportHandle | null>,
  clockOf: (clipId: string) => RideClock | null,
): void {
  useEffect(() => {
    const shown = player.current?.shown;
    if (shown === undefined || shown.clipId === null || shown.mediaS === null) return;
    const now = clockOf(shown.clipId);
    transport.current?.show({ ...shown, rideS: now === null ? null : now.offsetS + now.rate * shown.mediaS });
  }, [clockOf]);
}
