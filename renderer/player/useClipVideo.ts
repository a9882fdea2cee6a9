import { type RefObject, useEffect, useMemo, useRef } from "react";
import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { FrameStarts } from "../../main/contract/columnBytes.ts";
import { fetchFrameStarts } from "../desk/columns.ts";
import { fetchOnce } from "../desk/useFetched.ts";
import { ClipVideo, type PictureState } from "./clipVideo.ts";
import { frameAt } from "./frameTimes.ts";

interface Wishes {
  readonly video: RefObject<HTMLVideoElement | null>;
  readonly clips: readonly ClipView[];
  /** `DeskAddresses.frames`. */
  readonly framesAddress: string;
  readonly sound: boolean;
  /** A frame of a clip came on the screen, at its presentation time, s. */
  readonly onFrame: (clipId: string, frame: number, mediaS: number) => void;
  readonly onState?: (state: PictureState) => void;
  /** Playing went past the last frame of a clip. */
  readonly onEnd?: (clipId: string) => void;
}

/** Drives a video element that shows clips by their frames. */
export interface ClipVideoHandle {
  /** Shows the frame of a clip at a clip time, s. One seek is under way at a time, the latest wish wins. */
  showClip(clipId: string, mediaS: number): void;
  /** Moves by whole frames; false where no clip is shown. */
  step(frames: number): boolean;
  /** False where no clip is shown. */
  play(speed: number): boolean;
  pause(): void;
  /** Lets go of the clip. */
  leave(): void;
  readonly playing: boolean;
}

/** Frame times that could not be fetched are asked for again after so long, then after twice as long, at most so long, ms. */
const AGAIN_MS = 250;
const MOST_AGAIN_MS = 4000;

/** Clips on a video element of the caller's; driven outside React, since it changes many times a second. */
export function useClipVideo(wishes: Wishes): ClipVideoHandle {
  const latest = useRef(wishes);
  latest.current = wishes;
  const core = useRef<ClipVideo | null>(null);
  const current = useRef<{ clipId: string; starts: FrameStarts } | null>(null);
  const asked = useRef(0);
  useEffect(() => {
    const one = new ClipVideo(latest.current.video.current!, {
      onFrame(frame) {
        if (current.current !== null)
          latest.current.onFrame(current.current.clipId, frame, current.current.starts[frame]!);
      },
      onState: (state) => latest.current.onState?.(state),
      onEnd: () => current.current !== null && latest.current.onEnd?.(current.current.clipId),
    });
    core.current = one;
    return () => {
      one.dispose();
      core.current = null;
    };
  }, []);
  // Proxies come while one looks.
  useEffect(() => {
    const view = wishes.clips.find((one) => one.id === current.current?.clipId);
    if (view !== undefined && current.current !== null) core.current?.setClip(view, current.current.starts);
  }, [wishes.clips]);
  useEffect(() => core.current?.setSound(wishes.sound), [wishes.sound]);
  return useMemo(
    () => ({
      showClip(id, mediaS) {
        const wish = ++asked.current;
        const { clips, framesAddress } = latest.current;
        const view = clips.find((one) => one.id === id);
        if (view === undefined) return;
        const go = (times: FrameStarts) => {
          if (current.current?.clipId !== id || current.current.starts !== times) {
            current.current = { clipId: id, starts: times };
            core.current?.setClip(view, times);
          }
          core.current?.seek(frameAt(times, mediaS));
        };
        if (current.current?.clipId === id) return go(current.current.starts);
        const isWished = (): boolean => wish === asked.current && core.current !== null;
        const fetchAndGo = (againMs: number): void =>
          void fetchOnce(`${framesAddress}/${id}`, fetchFrameStarts).then(
            (times) => isWished() && go(times),
            // Said by no one else, and else the picture would never come: as long as it is wished for, once more.
            () =>
              isWished() && setTimeout(() => isWished() && fetchAndGo(Math.min(2 * againMs, MOST_AGAIN_MS)), againMs),
          );
        fetchAndGo(AGAIN_MS);
      },
      step(frames) {
        if (current.current !== null) core.current?.seek(core.current.frame + frames);
        return current.current !== null;
      },
      play(speed) {
        if (current.current !== null) core.current?.play(speed);
        return current.current !== null;
      },
      pause: () => core.current?.pause(),
      leave() {
        asked.current++;
        current.current = null;
      },
      get playing() {
        return core.current?.playing ?? false;
      },
    }),
    [],
  );
}
