import { type Ref, useImperativeHandle, useLayoutEffect, useRef } from "react";
import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { CardItem } from "../../main/contract/film.ts";
import type { Fit } from "../../main/contract/presets.ts";
import type { Theme } from "../../overlay/theme.ts";
import type { Language } from "../../main/contract/languageAndUnits.ts";
import { fadeTo } from "../player/Player.tsx";
import { useClipVideo } from "../player/useClipVideo.ts";
import { CardPicture } from "./CardPicture.tsx";
import type { ClipPicture } from "./filmPlayhead.ts";

/** Drives the picture that goes out. */
export interface FadingOutHandle extends ClipPicture {
  /** Its share of the picture, 0 to 1, as it is heard; null: it is not seen. */
  lay(share: number | null): void;
  /** Clip time of the frame that stands there, s; null before the first. */
  readonly mediaS: number | null;
}

interface Size {
  readonly width: number;
  readonly height: number;
}

interface Props {
  readonly clips: readonly ClipView[];
  readonly framesAddress: string;
  /** The card that goes out; null: footage does, or nothing. */
  readonly card: CardItem["card"] | null;
  readonly theme: Theme;
  readonly language: Language;
  readonly fit: Fit;
  /** As of the player. */
  readonly paintPicture:
    ((context: CanvasRenderingContext2D, video: HTMLVideoElement, size: Size, mediaS: number) => void) | undefined;
  readonly handle: Ref<FadingOutHandle>;
  readonly onFrame: () => void;
}

/** During a crossfade: what goes out beneath the picture that comes in. */
export function FadingOut(props: Props) {
  const { clips, framesAddress, card, theme, language, fit, paintPicture, handle, onFrame } = props;
  const box = useRef<HTMLDivElement>(null);
  const framed = useRef<HTMLCanvasElement>(null);
  const video = useRef<HTMLVideoElement>(null);
  const shownS = useRef<number | null>(null);
  const picture = useClipVideo({
    video,
    clips,
    framesAddress,
    sound: true,
    onFrame(_clipId, _frame, mediaS) {
      shownS.current = mediaS;
      paint();
      onFrame();
    },
  });
  const paint = () => {
    const [canvas, { current: mediaS }] = [framed.current!, shownS];
    if (paintPicture === undefined || mediaS === null) return;
    const { width, height } = canvas.getBoundingClientRect();
    canvas.width = Math.max(1, Math.round(width * window.devicePixelRatio));
    canvas.height = Math.max(1, Math.round(height * window.devicePixelRatio));
    paintPicture(canvas.getContext("2d")!, video.current!, canvas, mediaS);
  };
  useLayoutEffect(() => {
    fadeTo(video.current!, framed.current!, 1, paintPicture !== undefined);
    paint();
  }, [paintPicture]);
  useImperativeHandle(handle, () => ({
    showClip: (clipId, mediaS) => {
      shownS.current = null;
      picture.showClip(clipId, mediaS);
    },
    play: (speed) => void picture.play(speed),
    pause: () => picture.pause(),
    get playing() {
      return picture.playing;
    },
    lay(share) {
      box.current!.style.opacity = share === null ? "0" : "1";
      video.current!.volume = share ?? 0;
    },
    get mediaS() {
      return shownS.current;
    },
  }));
  return (
    <div ref={box} className="build-beneath" aria-hidden="true" style={{ opacity: 0 }}>
      <video
        ref={video}
        playsInline
        preload="auto"
        disablePictureInPicture
        tabIndex={-1}
        style={{ objectFit: fit === "crop" ? "cover" : "contain", background: theme.margin }}
      />
      <canvas ref={framed} />
      {card !== null && <CardPicture card={card} theme={theme} language={language} className="build-card-out" hidden />}
    </div>
  );
}
