import { type Ref, type RefObject, useEffect, useMemo, useRef, useState } from "react";
import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { Film } from "../../main/contract/film.ts";
import type { Language } from "../../main/contract/languageAndUnits.ts";
import type { PairCard } from "../../main/contract/pair.ts";
import { coversOf } from "../../overlay/instant/coversOf.ts";
import { rideTimeAt } from "../../overlay/instant/rideTimeAt.ts";
import { paceAt, type PairTimes } from "../../overlay/pair/pairAt.ts";
import type { Theme } from "../../overlay/theme.ts";
import { paintFramed } from "../framing/paintFramed.ts";
import type { PictureState } from "../player/clipVideo.ts";
import { WantsProxy } from "../player/Player.tsx";
import { useClipVideo } from "../player/useClipVideo.ts";
import { createPairCanvas, type PairCanvas } from "./pairCanvas.ts";
import { firstAsFilmed, halfMediaS, halfSpan, pairRun } from "./pairRun.ts";

interface Props {
  readonly card: PairCard;
  readonly film: Film;
  readonly clips: readonly ClipView[];
  readonly framesAddress: string;
  readonly theme: Theme;
  readonly language: Language;
  /** Where the film stands on the card, film time since its start, s, and whether it plays. */
  readonly place: () => { readonly itemS: number; readonly playing: boolean };
  readonly canvasRef: Ref<HTMLCanvasElement>;
  readonly onWantProxy: ((clipId: string) => void) | undefined;
}

/** Two rides side by side as the film shows them, both clips at their pace; the numbers are those of the frames on the screen. */
export function PairPicture(props: Props) {
  const { card, theme, language } = props;
  const own = useRef<HTMLCanvasElement | null>(null);
  const halves = [useHalf(props, 0), useHalf(props, 1)] as const;
  const latest = useRef({ props, halves });
  latest.current = { props, halves };
  useEffect(() => {
    let painting: PairCanvas | null = null;
    let painted = "";
    let frame = requestAnimationFrame(function tick() {
      frame = requestAnimationFrame(tick);
      const canvas = own.current!;
      const { width, height } = canvas.getBoundingClientRect();
      if (width < 1) return;
      const ratio = window.devicePixelRatio;
      const size = { width: Math.round(width * ratio), height: Math.round(height * ratio) };
      if (painting?.size.width !== size.width || painting.size.height !== size.height) {
        Object.assign(canvas, size);
        painting = createPairCanvas(card, size, theme, language);
        painted = "";
      }
      const { props: now, halves: both } = latest.current;
      const { itemS, playing } = now.place();
      const asked = paceAt(card.pace, itemS);
      for (const half of both) half.follow(itemS, playing);
      const times = {
        firstS: both[0].rideS ?? asked.firstS,
        secondS: both[1].rideS ?? asked.secondS,
      } satisfies PairTimes;
      const key = [times.firstS, times.secondS, both[0].shownS, both[1].shownS].join("/");
      if (key === painted) return;
      painted = key;
      painting.paint(canvas.getContext("2d")!, times, (context, which, place) => both[which]!.paint(context, place));
      canvas.dataset.media = both.map(({ shownS }) => (shownS === null ? "" : shownS.toFixed(3))).join(" ");
    });
    return () => cancelAnimationFrame(frame);
  }, [card, theme, language]);
  const wanting = halves.find(({ state }) => state === "none");
  return (
    <>
      {halves.map(({ video }, which) => (
        <video
          key={which}
          ref={video}
          className="build-half"
          playsInline
          preload="auto"
          disablePictureInPicture
          tabIndex={-1}
          aria-hidden="true"
        />
      ))}
      <canvas
        ref={(canvas) => {
          own.current = canvas;
          if (typeof props.canvasRef === "function") props.canvasRef(canvas);
          else if (props.canvasRef) props.canvasRef.current = canvas;
        }}
        className="build-card"
        role="img"
        aria-label={card.title}
      />
      {wanting !== undefined && <WantsProxy clip={wanting.clip} onWantProxy={props.onWantProxy} />}
    </>
  );
}

interface Half {
  readonly video: RefObject<HTMLVideoElement | null>;
  /** Undefined: numbers and road alone. */
  readonly clip: ClipView | undefined;
  readonly state: PictureState;
  /** Clip and ride time of the frame on the screen, s; null: none yet. */
  readonly shownS: number | null;
  readonly rideS: number | null;
  follow(itemS: number, playing: boolean): void;
  paint(context: CanvasRenderingContext2D, size: { readonly width: number; readonly height: number }): void;
}

/** What stands on a half and what was asked for it. */
interface HalfNow {
  readonly clipId: string | null;
  shownS: number | null;
  askedS: number | null;
  /** A picture is on its way. */
  coming: boolean;
  /** Null: it stands. */
  speed: number | null;
}

function useHalf({ card, film, clips, framesAddress, theme }: Props, which: number): Half {
  const { footage } = card.sides[which]!;
  const clip = footage === null ? undefined : clips.find(({ id }) => id === footage.clipId);
  const video = useRef<HTMLVideoElement>(null);
  const [state, setState] = useState<PictureState>("loading");
  const at = useRef<HalfNow>({ clipId: null, shownS: null, askedS: null, coming: false, speed: null });
  // Another clip was chosen for the half: nothing of it stands there yet.
  if (at.current.clipId !== (clip?.id ?? null))
    at.current = { clipId: clip?.id ?? null, shownS: null, askedS: null, coming: false, speed: null };
  const asFilmed = useMemo(() => which === 0 && firstAsFilmed(card.pace), [card, which]);
  const picture = useClipVideo({
    video,
    clips,
    framesAddress,
    sound: asFilmed,
    onFrame(clipId, _frame, mediaS) {
      if (clipId === at.current.clipId) Object.assign(at.current, { shownS: mediaS, coming: false });
    },
    onState: setState,
  });
  const stand = (mediaS: number) => {
    const now = at.current;
    picture.pause();
    now.speed = null;
    if (now.coming || now.askedS === mediaS) return;
    now.askedS = mediaS;
    now.coming = true;
    picture.showClip(clip!.id, mediaS);
  };
  const span = footage === null ? null : halfSpan(card.pace, footage.clock, which);
  const covers = clip === undefined || span === null ? [] : coversOf(film, clip.id, null, span);
  return {
    video,
    clip,
    state,
    get shownS() {
      return at.current.shownS;
    },
    get rideS() {
      return footage === null || at.current.shownS === null ? null : rideTimeAt(footage.clock, at.current.shownS);
    },
    follow(itemS, playing) {
      if (clip === undefined || footage === null) return;
      const mediaSAt = (filmS: number) => halfMediaS(card.pace, footage.clock, which, filmS);
      if (!playing) return stand(mediaSAt(itemS));
      const now = at.current;
      if (now.coming) return;
      const run = pairRun(mediaSAt, itemS, now.shownS);
      if (run.how === "stand") return stand(run.mediaS);
      now.askedS = null;
      if (now.speed !== null && Math.abs(run.speed / now.speed - 1) < SAME_SPEED && picture.playing) return;
      now.speed = run.speed;
      picture.play(run.speed);
    },
    paint(context, size) {
      const { shownS } = at.current;
      if (clip === undefined || shownS === null || video.current === null) return;
      if (video.current.readyState < HTMLMediaElement.HAVE_CURRENT_DATA) return;
      const frameS = clip.durationS / Math.max(1, clip.frames);
      const { widthPx, heightPx } = clip;
      const how = { covers, closeUp: null, fit: "crop", whole: false, margin: theme.margin } as const;
      paintFramed(context, video.current, size, { ...how, clip: { widthPx, heightPx, frameS } }, shownS);
    },
  };
}

/** Speeds nearer than this are not told apart, a share. */
const SAME_SPEED = 0.03;
