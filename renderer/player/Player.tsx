import {
  type ReactNode,
  type Ref,
  useEffect,
  useImperativeHandle,
  useLayoutEffect,
  type RefObject,
  useRef,
  useState,
} from "react";
import type { Language, UnitSystem } from "../../main/contract/languageAndUnits.ts";
import type { Fit } from "../../main/contract/presets.ts";
import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { FilmLook } from "../../main/contract/filmLook.ts";
import type { RideClock } from "../../main/contract/lineup.ts";
import { rideTimeAt } from "../../overlay/instant/rideTimeAt.ts";
import { turningPage } from "../../overlay/instant/threadPageAt.ts";
import { themeFor } from "../../overlay/theme.ts";
import type { WindowColumns } from "../../main/contract/columnBytes.ts";
import { player as words } from "../words/player.ts";
import type { PictureState } from "./clipVideo.ts";
import { type PanelsShown, usePanels } from "./usePanels.ts";
import { type ClipVideoHandle, useClipVideo } from "./useClipVideo.ts";
import "./player.css";

/** What stands on the screen: a frame of a clip, or the ride alone where nothing was filmed. */
export interface ShownInstant {
  readonly clipId: string | null;
  /** Frame of the clip, counted from 0; null without a clip. */
  readonly frame: number | null;
  /** Presentation time of that frame, s; null without a clip. */
  readonly mediaS: number | null;
  /** Ride time of that frame, s; null while the clip has no place in the ride. */
  readonly rideS: number | null;
}

/** Drives a player; never through React, since it changes many times a second. */
export interface PlayerHandle {
  /** Shows the frame of a clip at a clip time, s. One seek is under way at a time, the latest wish wins. */
  showClip(clipId: string, mediaS: number): void;
  /** Shows the ride's numbers without a picture. */
  showRide(rideS: number): void;
  /** Moves by whole frames. */
  step(frames: number): void;
  /** 0.25 to 16 times as fast as filmed. */
  play(speed: number): void;
  pause(): void;
  readonly playing: boolean;
  /** What stands on the screen now. */
  readonly shown: ShownInstant;
  /** How much of the picture is seen and heard, 0 to 1, over what lies beneath it. */
  fade(share: number): void;
  /** Paints numbers and drawings anew on the frame that stands there. */
  repaint(): void;
}

interface Props {
  readonly label: string;
  readonly clips: readonly ClipView[];
  /** `DeskAddresses.frames`. */
  readonly framesAddress: string;
  /** The ride's numbers; null: none yet, the picture stands alone. */
  readonly columns: WindowColumns | null;
  /** Where a clip lies in the ride, device delay counted in; null: nowhere yet. A new function repaints the numbers. */
  readonly clockOf: (clipId: string) => RideClock | null;
  readonly units: UnitSystem;
  /** Language of the numbers' labels; missing: English, as the window. */
  readonly language?: Language;
  /** What differs from the plain look of the numbers. */
  readonly look?: Partial<FilmLook> | undefined;
  readonly handle: Ref<PlayerHandle>;
  /** Called for each frame that came on the screen before anything is painted over it, outside React. */
  readonly onShown?: (shown: ShownInstant) => void;
  readonly onPlaying?: (playing: boolean) => void;
  /** Playing went past the last frame of a clip. */
  readonly onEnd?: (clipId: string) => void;
  /** Width over height of what is shown; missing: the clip's own. */
  readonly aspect?: number;
  /** How a clip of another shape goes into that, as in the film; missing: whole. */
  readonly fit?: Fit;
  readonly sound?: boolean;
  /** What the numbers say, where it is not the shown frame's instant alone; null leaves them as they stand. */
  readonly panelsAt?: () => PanelsShown | null;
  /** Paints the picture where it is not shown as filmed: parts hidden, a part close up. Missing: it is as filmed. */
  readonly paintPicture?:
    | ((
        context: CanvasRenderingContext2D,
        video: HTMLVideoElement,
        size: { readonly width: number; readonly height: number },
        shown: ShownInstant,
      ) => void)
    | undefined;
  /** Paints over picture and panels; the origin is the picture's corner, sizes in px of the canvas. */
  readonly paintOver?: (
    context: CanvasRenderingContext2D,
    size: { readonly width: number; readonly height: number },
    shown: ShownInstant,
  ) => void;
  /** Asked for when a clip can't be shown before small pictures of it are made. */
  readonly onWantProxy?: ((clipId: string) => void) | undefined;
  /** Lies over the picture, e.g. what takes a drawing. */
  readonly children?: ReactNode;
}

/** How often the ride's numbers move where there is no picture, ms. */
const ALONE_MS = 100;

const NOTHING: ShownInstant = { clipId: null, frame: null, mediaS: null, rideS: null };

/** The picture with the ride's numbers on it, tied to the frame that is on the screen. */
export function Player(props: Props) {
  const { clips, columns, units, language = "en", look, handle, clockOf, paintOver, panelsAt } = props;
  const box = useRef<HTMLDivElement>(null);
  const video = useRef<HTMLVideoElement>(null);
  const pictureCanvas = useRef<HTMLCanvasElement>(null);
  const panelCanvas = useRef<HTMLCanvasElement>(null);
  const overCanvas = useRef<HTMLCanvasElement>(null);
  const shown = useRef<ShownInstant>(NOTHING);
  const [state, setState] = useState<PictureState | "ride">("ride");
  const [clipId, setClipId] = useState<string | null>(null);
  const clip = clips.find((one) => one.id === clipId) ?? clips.at(0);
  const fitted = useFittedSize(box, props.aspect ?? (clip === undefined ? 16 / 9 : clip.widthPx / clip.heightPx));
  const panels = usePanels(columns, fitted.canvas, look, units, language);

  const repaint = () => {
    shown.current = paintAll(props, shown.current, panels, { box, video, pictureCanvas, panelCanvas, overCanvas });
  };
  const latest = useRef({ props, repaint });
  latest.current = { props, repaint };

  const show = (next: ShownInstant) => {
    shown.current = located(next, latest.current.props.clockOf);
    latest.current.props.onShown?.(shown.current);
    latest.current.repaint();
  };
  const picture = useClipVideo({
    video,
    clips,
    framesAddress: props.framesAddress,
    sound: props.sound ?? true,
    onFrame: (id, frame, mediaS) => show({ clipId: id, frame, mediaS, rideS: null }),
    onState: setState,
    onEnd(id) {
      latest.current.props.onPlaying?.(false);
      latest.current.props.onEnd?.(id);
    },
  });
  const alone = useRideAlone((rideS) => show({ clipId: null, frame: null, mediaS: null, rideS }));
  const seen = useRef(1);
  const fade = (share: number) => {
    seen.current = share;
    video.current!.volume = share;
    fadeTo(video.current!, pictureCanvas.current!, share, latest.current.props.paintPicture !== undefined);
  };
  usePlayerHandle({ handle, fade, picture, alone, shown, show, latest, onClip: setClipId, onState: setState });

  useLayoutEffect(() => {
    for (const canvas of [pictureCanvas.current!, panelCanvas.current!, overCanvas.current!]) {
      canvas.width = Math.max(1, fitted.canvas.width);
      canvas.height = Math.max(1, fitted.canvas.height);
    }
    panels?.reset();
    latest.current.repaint();
  }, [panels, fitted.canvas.width, fitted.canvas.height]);
  useLayoutEffect(() => {
    fade(seen.current);
    latest.current.repaint();
  }, [clockOf, props.paintPicture, paintOver, panelsAt]);

  const pictured = state !== "ride" && state !== "none";
  const { margin } = themeFor(look?.ink ?? "light");
  return (
    <div ref={box} className="player stage" role="group" aria-label={props.label} data-picture={state}>
      <div
        className="player-picture"
        style={{
          width: `${fitted.width}px`,
          height: `${fitted.height}px`,
          ...(pictured && { background: margin }),
        }}
      >
        <FootagePicture {...{ video, pictureCanvas, pictured, margin }} fit={props.fit} />
        {state === "ride" && <p className="player-said">{clips.length === 0 ? words.noFootage : words.notFilmed}</p>}
        {state === "none" && <WantsProxy clip={clip} onWantProxy={props.onWantProxy} />}
        <canvas ref={panelCanvas} className="player-panels" aria-hidden="true" />
        <canvas ref={overCanvas} className="player-over" aria-hidden="true" />
        {props.children}
      </div>
    </div>
  );
}

interface FootagePictureProps {
  readonly video: RefObject<HTMLVideoElement | null>;
  readonly pictureCanvas: RefObject<HTMLCanvasElement | null>;
  readonly pictured: boolean;
  readonly margin: string;
  readonly fit: Fit | undefined;
}

/** The clip as it plays, and over it the picture painted from it where it is not shown as filmed. */
function FootagePicture({ video, pictureCanvas, pictured, margin, fit }: FootagePictureProps) {
  return (
    <>
      <video
        ref={video}
        playsInline
        preload="auto"
        disablePictureInPicture
        tabIndex={-1}
        aria-hidden="true"
        hidden={!pictured}
        style={{ objectFit: fit === "crop" ? "cover" : "contain", background: margin }}
      />
      <canvas ref={pictureCanvas} className="player-framed" aria-hidden="true" hidden={!pictured} />
    </>
  );
}

interface Canvases {
  readonly box: RefObject<HTMLDivElement | null>;
  readonly video: RefObject<HTMLVideoElement | null>;
  readonly pictureCanvas: RefObject<HTMLCanvasElement | null>;
  readonly panelCanvas: RefObject<HTMLCanvasElement | null>;
  readonly overCanvas: RefObject<HTMLCanvasElement | null>;
}

/** Paints numbers and drawings on what stands there; gives it with its ride time as the clocks are now. */
function paintAll(
  { clockOf, paintPicture, paintOver, panelsAt }: Props,
  before: ShownInstant,
  panels: ReturnType<typeof usePanels>,
  { box, video, pictureCanvas, panelCanvas, overCanvas }: Canvases,
): ShownInstant {
  const now = located(before, clockOf);
  paintFrame(video.current, pictureCanvas.current, paintPicture, now);
  const said: PanelsShown | null =
    panelsAt === undefined
      ? { rideS: now.rideS, page: turningPage(clipStartS(now.clipId, clockOf), now.rideS ?? 0) }
      : panelsAt();
  if (panelCanvas.current !== null && panels !== null && said !== null) panels.paint(panelCanvas.current, said);
  const top = overCanvas.current?.getContext("2d");
  if (top !== null && top !== undefined) {
    top.clearRect(0, 0, top.canvas.width, top.canvas.height);
    paintOver?.(top, { width: top.canvas.width, height: top.canvas.height }, now);
  }
  if (box.current !== null) box.current.dataset.frame = now.frame === null ? "" : String(now.frame);
  return now;
}

/** The frame that stands on a video, painted; where none is decoded yet, the one before stays. */
function paintFrame(
  video: HTMLVideoElement | null,
  canvas: HTMLCanvasElement | null,
  paintPicture: Props["paintPicture"],
  now: ShownInstant,
): void {
  const context = paintPicture === undefined ? null : canvas?.getContext("2d");
  if (context === null || context === undefined || video === null || now.mediaS === null) return;
  if (video.readyState >= HTMLMediaElement.HAVE_CURRENT_DATA)
    paintPicture?.(context, video, { width: canvas!.width, height: canvas!.height }, now);
}

/** Beneath a painted picture the video is as good as unseen, yet goes on: what is hidden never shows through. */
const UNSEEN = 0.004;

/** @param painted the picture is painted from the video, which itself is not to be seen */
export function fadeTo(video: HTMLVideoElement, canvas: HTMLCanvasElement, share: number, painted: boolean): void {
  video.style.opacity = String(painted ? Math.min(UNSEEN, share) : share);
  canvas.style.opacity = painted ? String(share) : "0";
}

interface HandleParts {
  readonly handle: Ref<PlayerHandle>;
  readonly fade: (share: number) => void;
  readonly picture: ClipVideoHandle;
  readonly alone: ReturnType<typeof useRideAlone>;
  readonly shown: RefObject<ShownInstant>;
  readonly show: (next: ShownInstant) => void;
  readonly latest: RefObject<{ readonly props: Props; readonly repaint: () => void }>;
  readonly onClip: (clipId: string) => void;
  readonly onState: (state: "ride") => void;
}

/** What others drive the player by. */
function usePlayerHandle({ handle, fade, picture, alone, shown, show, latest, onClip, onState }: HandleParts): void {
  const standStill = () => {
    alone.stop();
    picture.pause();
  };
  const tellPlaying = (on: boolean) => latest.current.props.onPlaying?.(on);

  useImperativeHandle(handle, () => ({
    showClip(id, mediaS) {
      alone.stop();
      onClip(id);
      picture.showClip(id, mediaS);
    },
    showRide(rideS) {
      standStill();
      picture.leave();
      onState("ride");
      show({ clipId: null, frame: null, mediaS: null, rideS });
    },
    step(frames) {
      standStill();
      tellPlaying(false);
      const { rideS } = shown.current;
      if (!picture.step(frames) && rideS !== null)
        show({ clipId: null, frame: null, mediaS: null, rideS: Math.max(0, rideS + frames) });
    },
    play(speed) {
      if (!picture.play(speed)) alone.run(shown.current.rideS ?? 0, speed);
      tellPlaying(true);
    },
    pause() {
      standStill();
      tellPlaying(false);
    },
    get playing() {
      return alone.running || picture.playing;
    },
    get shown() {
      return shown.current;
    },
    fade,
    repaint: () => latest.current.repaint(),
  }));
}

/** Said where a clip can't be shown before small pictures of it are made. */
export function WantsProxy({
  clip,
  onWantProxy,
}: Pick<Props, "onWantProxy"> & { readonly clip: ClipView | undefined }) {
  return (
    <div className="player-said" role="status">
      <p>{words.needsProxy}</p>
      {onWantProxy !== undefined && clip !== undefined && (
        <button type="button" className="button" onClick={() => onWantProxy(clip.id)}>
          {words.makeProxy}
        </button>
      )}
    </div>
  );
}

/** The frame with its ride time by the clock of its clip; the ride alone has its own. */
function located(at: ShownInstant, clockOf: Props["clockOf"]): ShownInstant {
  if (at.clipId === null || at.mediaS === null) return at;
  const clock = clockOf(at.clipId);
  return { ...at, rideS: clock === null ? null : rideTimeAt(clock, at.mediaS) };
}

function clipStartS(clipId: string | null, clockOf: Props["clockOf"]): number {
  return (clipId === null ? null : clockOf(clipId))?.offsetS ?? 0;
}

/** The largest picture of a shape in a box: its size on the page, and in px of a canvas. */
function useFittedSize(box: RefObject<HTMLDivElement | null>, aspect: number) {
  const [room, setRoom] = useState({ width: 0, height: 0 });
  useEffect(() => {
    const sizes = new ResizeObserver(() =>
      setRoom({ width: box.current!.clientWidth, height: box.current!.clientHeight }),
    );
    sizes.observe(box.current!);
    return () => sizes.disconnect();
  }, []);
  const width = Math.max(0, Math.floor(Math.min(room.width, room.height * aspect)));
  const height = Math.max(0, Math.round(width / aspect));
  const ratio = typeof window === "undefined" ? 1 : window.devicePixelRatio;
  return { width, height, canvas: { width: Math.round(width * ratio), height: Math.round(height * ratio) } };
}

/** The ride going on where there is no picture. */
function useRideAlone(onRide: (rideS: number) => void): {
  run(fromS: number, speed: number): void;
  stop(): void;
  readonly running: boolean;
} {
  const timer = useRef<ReturnType<typeof setInterval> | undefined>(undefined);
  const stop = () => {
    clearInterval(timer.current);
    timer.current = undefined;
  };
  useEffect(() => stop, []);
  return {
    run(fromS, speed) {
      stop();
      const beganMs = performance.now();
      timer.current = setInterval(() => onRide(fromS + ((performance.now() - beganMs) / 1000) * speed), ALONE_MS);
    },
    stop,
    get running() {
      return timer.current !== undefined;
    },
  };
}
