import type { Language, UnitSystem } from "../../main/contract/languageAndUnits.ts";
import type { Fit } from "../../main/contract/presets.ts";
import {
  type ReactNode,
  type Ref,
  useEffect,
  useImperativeHandle,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
} from "react";
import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { FilmLook } from "../../main/contract/filmLook.ts";
import type { RideClock } from "../../main/contract/lineup.ts";
import { panelValuesAt } from "../../overlay/instant/panelValuesAt.ts";
import { rideTimeAt } from "../../overlay/instant/rideTimeAt.ts";
import { routePath } from "../../overlay/instant/routePath.ts";
import { type PageSpan, threadPageAt, turningPage } from "../../overlay/instant/threadPageAt.ts";
import { availableIn } from "../../overlay/layout/availableIn.ts";
import { defaultLayoutOptions, layoutFor } from "../../overlay/layout/layout.ts";
import { createPanelPainter, type PanelNotes } from "../../overlay/panels/paintPanels.ts";
import { themeFor } from "../../overlay/theme.ts";
import type { FrameStarts, WindowColumns } from "../../main/contract/columnBytes.ts";
import { fetchFrameStarts } from "../desk/columns.ts";
import { player as words } from "../words/player.ts";
import { ClipVideo, type PictureState } from "./clipVideo.ts";
import { frameAt } from "./frameTimes.ts";
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
  readonly look?: Partial<FilmLook>;
  readonly handle: Ref<PlayerHandle>;
  /** Called for each frame that came on the screen, outside React. */
  readonly onShown?: (shown: ShownInstant) => void;
  readonly onPlaying?: (playing: boolean) => void;
  /** Playing went past the last frame of a clip. */
  readonly onEnd?: (clipId: string) => void;
  /** Width over height of what is shown; missing: the clip's own. */
  readonly aspect?: number;
  /** How a clip of another shape goes into that, as in the film; missing: whole. */
  readonly fit?: Fit;
  readonly sound?: boolean;
  /** What else stands on the picture, and the span of the thread's page. */
  readonly notesAt?: (shown: ShownInstant) => PanelNotes;
  readonly pageAt?: (shown: ShownInstant) => PageSpan | null;
  /** Paints over picture and panels; the origin is the picture's corner, sizes in px of the canvas. */
  readonly paintOver?: (
    context: CanvasRenderingContext2D,
    size: { readonly width: number; readonly height: number },
    shown: ShownInstant,
  ) => void;
  /** Asked for when a clip can't be shown before small pictures of it are made. */
  readonly onWantProxy?: (clipId: string) => void;
  /** Lies over the picture, e.g. what takes a drawing. */
  readonly children?: ReactNode;
}

/** How often the ride's numbers move where there is no picture, ms. */
const ALONE_MS = 100;

const NOTHING: ShownInstant = { clipId: null, frame: null, mediaS: null, rideS: null };

const starts = new Map<string, Promise<FrameStarts>>();

/** Frame times are fetched once a clip. */
function startsOf(address: string): Promise<FrameStarts> {
  const known = starts.get(address);
  if (known !== undefined) return known;
  const coming = fetchFrameStarts(address);
  starts.set(address, coming);
  coming.catch(() => starts.delete(address));
  return coming;
}

/** The picture with the ride's numbers on it, tied to the frame that is on the screen. */
export function Player(props: Props) {
  const { clips, columns, units, language = "en", look, handle, clockOf, paintOver, notesAt } = props;
  const latest = useRef(props);
  latest.current = props;
  const box = useRef<HTMLDivElement>(null);
  const video = useRef<HTMLVideoElement>(null);
  const panels = useRef<HTMLCanvasElement>(null);
  const over = useRef<HTMLCanvasElement>(null);
  const core = useRef<ClipVideo | null>(null);
  const current = useRef<{ clipId: string; starts: FrameStarts } | null>(null);
  const asked = useRef(0);
  const alone = useRef<ReturnType<typeof setInterval> | undefined>(undefined);
  const shown = useRef<ShownInstant>(NOTHING);
  const [state, setState] = useState<PictureState | "ride">("ride");
  const [clipId, setClipId] = useState<string | null>(null);
  const [room, setRoom] = useState({ width: 0, height: 0 });

  const clip = clips.find((one) => one.id === clipId) ?? clips.at(0);
  const aspect = props.aspect ?? (clip === undefined ? 16 / 9 : clip.widthPx / clip.heightPx);
  const width = Math.max(0, Math.floor(Math.min(room.width, room.height * aspect)));
  const height = Math.max(0, Math.round(width / aspect));
  const ratio = typeof window === "undefined" ? 1 : window.devicePixelRatio;

  const painting = useMemo(() => {
    if (columns === null || width < 64) return null;
    const usual = defaultLayoutOptions(Math.round(width * ratio), Math.round(height * ratio), availableIn(columns));
    const { panels, units: own, shape: _shape, fit: _fit, ...rest } = look ?? {};
    const options = { ...usual, language, ...rest, panels: panels ?? usual.panels, units: own ?? units };
    const layout = layoutFor(options);
    return { layout, painter: createPanelPainter(layout, { route: routePath(columns), bandW: columns.bandW }) };
  }, [columns, width, height, ratio, units, language, look]);

  const repaint = () => {
    const { clockOf: place, columns: ride, notesAt: notes, pageAt, paintOver: paint } = latest.current;
    const at = shown.current;
    const clock = at.clipId === null ? null : place(at.clipId);
    const now =
      at.clipId === null || at.mediaS === null
        ? at
        : { ...at, rideS: clock === null ? null : rideTimeAt(clock, at.mediaS) };
    shown.current = now;
    const under = panels.current?.getContext("2d");
    if (under !== null && under !== undefined && painting !== null && ride !== null) {
      if (now.rideS === null) {
        painting.painter.reset();
        under.setTransform(1, 0, 0, 1, 0, 0);
        under.clearRect(0, 0, under.canvas.width, under.canvas.height);
      } else {
        under.setTransform(1, 0, 0, 1, painting.layout.band.x, painting.layout.band.y);
        const page = pageAt?.(now) ?? turningPage(clock?.offsetS ?? 0, now.rideS);
        painting.painter.paint(
          under,
          panelValuesAt(ride, now.rideS),
          threadPageAt(ride, page, now.rideS),
          notes?.(now),
        );
      }
    }
    const top = over.current?.getContext("2d");
    if (top !== null && top !== undefined) {
      top.clearRect(0, 0, top.canvas.width, top.canvas.height);
      paint?.(top, { width: top.canvas.width, height: top.canvas.height }, now);
    }
    if (box.current !== null) box.current.dataset.frame = now.frame === null ? "" : String(now.frame);
  };
  const painter = useRef(repaint);
  painter.current = repaint;

  useEffect(() => {
    const one = new ClipVideo(video.current!, {
      onFrame(frame) {
        if (current.current === null) return;
        shown.current = { clipId: current.current.clipId, frame, mediaS: current.current.starts[frame], rideS: null };
        painter.current();
        latest.current.onShown?.(shown.current);
      },
      onState: setState,
      onEnd() {
        latest.current.onPlaying?.(false);
        if (current.current !== null) latest.current.onEnd?.(current.current.clipId);
      },
    });
    core.current = one;
    const sizes = new ResizeObserver(() =>
      setRoom({ width: box.current!.clientWidth, height: box.current!.clientHeight }),
    );
    sizes.observe(box.current!);
    return () => {
      clearInterval(alone.current);
      one.dispose();
      sizes.disconnect();
    };
  }, []);

  const standStill = () => {
    clearInterval(alone.current);
    alone.current = undefined;
    core.current?.pause();
  };
  const rideAlone = (rideS: number) => {
    shown.current = { clipId: null, frame: null, mediaS: null, rideS };
    painter.current();
    latest.current.onShown?.(shown.current);
  };

  useImperativeHandle(handle, () => ({
    showClip(id, mediaS) {
      const wish = ++asked.current;
      clearInterval(alone.current);
      alone.current = undefined;
      setClipId(id);
      const { clips: all, framesAddress } = latest.current;
      const view = all.find((one) => one.id === id);
      if (view === undefined) return;
      const go = (times: FrameStarts) => {
        if (current.current?.clipId !== id || current.current.starts !== times) {
          current.current = { clipId: id, starts: times };
          core.current!.setClip(view, times);
        }
        core.current!.seek(frameAt(times, mediaS));
      };
      if (current.current?.clipId === id) return go(current.current.starts);
      void startsOf(`${framesAddress}/${id}`).then(
        (times) => wish === asked.current && core.current !== null && go(times),
      );
    },
    showRide(rideS) {
      asked.current++;
      standStill();
      current.current = null;
      setState("ride");
      rideAlone(rideS);
    },
    step(frames) {
      standStill();
      latest.current.onPlaying?.(false);
      if (current.current !== null) core.current!.seek(core.current!.frame + frames);
      else if (shown.current.rideS !== null) rideAlone(Math.max(0, shown.current.rideS + frames));
    },
    play(speed) {
      if (current.current !== null) core.current!.play(speed);
      else {
        clearInterval(alone.current);
        const began = { atMs: performance.now(), rideS: shown.current.rideS ?? 0 };
        alone.current = setInterval(
          () => rideAlone(began.rideS + ((performance.now() - began.atMs) / 1000) * speed),
          ALONE_MS,
        );
      }
      latest.current.onPlaying?.(true);
    },
    pause() {
      standStill();
      latest.current.onPlaying?.(false);
    },
    get playing() {
      return alone.current !== undefined || (core.current?.playing ?? false);
    },
    get shown() {
      return shown.current;
    },
    repaint: () => painter.current(),
  }));

  // Proxies come while one looks.
  useEffect(() => {
    const view = clips.find((one) => one.id === current.current?.clipId);
    if (view !== undefined && current.current !== null) core.current?.setClip(view, current.current.starts);
  }, [clips]);
  useEffect(() => core.current?.setSound(props.sound ?? true), [props.sound]);
  useLayoutEffect(() => {
    for (const canvas of [panels.current!, over.current!]) {
      canvas.width = Math.max(1, Math.round(width * ratio));
      canvas.height = Math.max(1, Math.round(height * ratio));
    }
    painting?.painter.reset();
    painter.current();
  }, [painting, width, height, ratio]);
  useLayoutEffect(() => painter.current(), [clockOf, paintOver, notesAt]);

  const pictured = state !== "ride" && state !== "none";
  const fitted = {
    width: `${width}px`,
    height: `${height}px`,
    ...(pictured && { background: themeFor(look?.ink ?? "light").margin }),
  };
  return (
    <div ref={box} className="player stage" role="group" aria-label={props.label} data-picture={state}>
      <div className="player-picture" style={fitted}>
        <video
          ref={video}
          playsInline
          preload="auto"
          disablePictureInPicture
          tabIndex={-1}
          aria-hidden="true"
          hidden={!pictured}
          style={{ objectFit: props.fit === "crop" ? "cover" : "contain" }}
        />
        {state === "ride" && <p className="player-said">{clips.length === 0 ? words.noFootage : words.notFilmed}</p>}
        {state === "none" && (
          <div className="player-said" role="status">
            <p>{words.needsProxy}</p>
            {props.onWantProxy !== undefined && clip !== undefined && (
              <button type="button" className="button" onClick={() => props.onWantProxy!(clip.id)}>
                {words.makeProxy}
              </button>
            )}
          </div>
        )}
        <canvas ref={panels} className="player-panels" aria-hidden="true" />
        <canvas ref={over} className="player-over" aria-hidden="true" />
        {props.children}
      </div>
    </div>
  );
}
