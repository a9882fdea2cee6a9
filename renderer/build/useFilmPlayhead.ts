import { type RefObject, useEffect, useLayoutEffect, useMemo, useRef, useState } from "react";
import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { Film } from "../../main/contract/film.ts";
import type { PlayerHandle } from "../player/Player.tsx";
import type { FadingOutHandle } from "./FadingOut.tsx";
import { type ClipPicture, FilmPlayhead, type FilmPlace } from "./filmPlayhead.ts";

/** No tick is longer, s: a window that slept does not skip. */
const LONGEST_TICK_S = 0.25;
const FRAME_IF_UNKNOWN_S = 1 / 30;

interface Given {
  readonly film: Film;
  readonly clips: readonly ClipView[];
  readonly player: RefObject<PlayerHandle | null>;
  readonly beneath: RefObject<FadingOutHandle | null>;
  readonly card: RefObject<HTMLCanvasElement | null>;
  readonly commentOf?: (itemId: string) => string | null;
  readonly onPlace?: (place: FilmPlace) => void;
  readonly onPlaying?: (playing: boolean) => void;
}

/** A playhead on the stage's pictures, and which parts those show. */
export function useFilmPlayhead(given: Given): {
  readonly playhead: FilmPlayhead;
  readonly index: number;
  readonly beneath: number | null;
} {
  const latest = useRef(given);
  latest.current = given;
  const [laid, setLaid] = useState<{ readonly index: number; readonly beneath: number | null }>({
    index: 0,
    beneath: null,
  });
  const share = useRef(1);
  const voice = useRef<HTMLAudioElement | null>(null);

  const fade = () => {
    const { player, card } = latest.current;
    const pictures = { front: player.current, card: card.current };
    pictures.front?.fade(pictures.card === null ? share.current : 0);
    if (pictures.card !== null) pictures.card.style.opacity = String(share.current);
  };
  const playhead = useMemo(
    () =>
      new FilmPlayhead(given.film, {
        front: onPicture(() => latest.current.player.current),
        beneath: onPicture(() => latest.current.beneath.current),
        lay(index, beneath, seen) {
          share.current = seen;
          setLaid((now) => (now.index === index && now.beneath === beneath ? now : { index, beneath }));
          latest.current.beneath.current?.lay(beneath === null ? null : 1 - seen);
          fade();
        },
        repaint: () => latest.current.player.current?.repaint(),
        speak(index, fromS) {
          const item = latest.current.film.items[index];
          const address = item === undefined ? null : (latest.current.commentOf?.(item.id) ?? null);
          if (address === null) return;
          voice.current = new Audio(address);
          voice.current.currentTime = fromS;
          void voice.current.play().catch(() => undefined);
        },
        hush() {
          voice.current?.pause();
          voice.current = null;
        },
        frameS(clipId) {
          const clip = latest.current.clips.find(({ id }) => id === clipId);
          return clip === undefined || clip.frames === 0 ? FRAME_IF_UNKNOWN_S : clip.durationS / clip.frames;
        },
        onPlace: (place) => latest.current.onPlace?.(place),
        onPlaying: (on) => latest.current.onPlaying?.(on),
      }),
    [],
  );
  useLayoutEffect(() => playhead.setFilm(given.film), [given.film]);
  // A card that has just come, or gone.
  useLayoutEffect(fade, [laid]);
  useEffect(() => {
    let last = performance.now();
    let frame = requestAnimationFrame(function tick(now) {
      playhead.tick(Math.min(LONGEST_TICK_S, (now - last) / 1000));
      last = now;
      frame = requestAnimationFrame(tick);
    });
    return () => {
      cancelAnimationFrame(frame);
      voice.current?.pause();
    };
  }, []);
  return { playhead, ...laid };
}

/** A picture that is there once React has laid it. */
function onPicture(picture: () => ClipPicture | null): ClipPicture {
  return {
    showClip: (clipId, mediaS) => picture()?.showClip(clipId, mediaS),
    play: (speed) => picture()?.play(speed),
    pause: () => picture()?.pause(),
    get playing() {
      return picture()?.playing ?? false;
    },
  };
}
