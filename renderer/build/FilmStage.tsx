import type { Language, UnitSystem } from "../../main/contract/languageAndUnits.ts";
import {
  type ReactNode,
  type Ref,
  useCallback,
  useEffect,
  useImperativeHandle,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
} from "react";
import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { Film, Shot } from "../../main/contract/film.ts";
import type { FilmLook } from "../../main/contract/filmLook.ts";
import { fitFor, PRESETS, type PresetName } from "../../main/contract/presets.ts";
import { paintCard } from "../../overlay/cards/paintCard.ts";
import { drawingShows } from "../../main/contract/drawing.ts";
import { paintDrawing } from "../../overlay/drawing/paintDrawing.ts";
import { filmClock, itemLengthS } from "../../overlay/instant/filmClock.ts";
import { itemTimeAt, mediaTimeIn } from "../../overlay/instant/shotTime.ts";
import { type Theme, themeFor } from "../../overlay/theme.ts";
import type { WindowColumns } from "../../main/contract/columnBytes.ts";
import { Player, type PlayerHandle, type ShownInstant } from "../player/Player.tsx";
import { build as words } from "../words/build.ts";
import { cardForPainting } from "./cardForPainting.ts";

/** Where the film stands. */
export interface FilmPlace {
  readonly index: number;
  /** Film time since the part's start, s. */
  readonly itemS: number;
}

export interface FilmStageHandle {
  /** Shows a part at a film time since its start. */
  show(index: number, itemS: number): void;
  /** With `onlyPart` the part alone, without its comment: at its end the last picture stays until `stop`. */
  play(onlyPart?: boolean): void;
  stop(): void;
  step(frames: number): void;
  readonly playing: boolean;
  readonly place: FilmPlace;
  /** Clip time on the screen, s; null on a card. */
  readonly mediaS: number | null;
  repaint(): void;
}

interface Props {
  readonly film: Film;
  readonly clips: readonly ClipView[];
  readonly framesAddress: string;
  readonly columns: WindowColumns | null;
  readonly units: UnitSystem;
  readonly language: Language;
  readonly look: Partial<FilmLook> | undefined;
  readonly preset: PresetName;
  readonly handle: Ref<FilmStageHandle>;
  /** Called at each change of place, outside React. */
  readonly onPlace?: (place: FilmPlace) => void;
  readonly onPlaying?: (playing: boolean) => void;
  readonly onWantProxy?: (clipId: string) => void;
  /** Paints what the hand is drawing, over all else. */
  readonly paintDraft?: (
    context: CanvasRenderingContext2D,
    size: { readonly width: number; readonly height: number },
    theme: Theme,
  ) => void;
  /** The drawing that the hand is moving, which the draft stands for; null: none. */
  readonly movedDrawing?: () => number | null;
  /** Where a part's spoken comment plays from; null: none that can be played here. */
  readonly commentOf?: (itemId: string) => string | null;
  readonly children?: ReactNode;
}

/** A browser plays no faster than this; a faster shot takes longer here than in the film. */
const FASTEST = 16;

/** The whole film played from the clips themselves, nothing rendered: shots by the player, cards by the painter of the film. */
export function FilmStage(props: Props) {
  const { film, clips, columns, handle, language } = props;
  const latest = useRef(props);
  latest.current = props;
  const player = useRef<PlayerHandle>(null);
  const card = useRef<HTMLCanvasElement>(null);
  const place = useRef<FilmPlace>({ index: 0, itemS: 0 });
  const placeId = useRef<string | null>(null);
  const playing = useRef(false);
  const heldUntil = useRef<{ leftS: number } | null>(null);
  const done = useRef<ReadonlySet<number>>(new Set());
  const alone = useRef(false);
  const waiting = useRef(false);
  const voice = useRef<HTMLAudioElement | null>(null);
  const [shownIndex, setShownIndex] = useState(0);
  const shown = film.items[Math.min(shownIndex, film.items.length - 1)];
  const aspect = film.widthPx / film.heightPx;
  const theme = themeFor(props.look?.ink ?? "light");

  const shotNow = (): Shot | null => {
    const item = latest.current.film.items[place.current.index];
    return item?.type === "shot" ? item : null;
  };
  const at = (index: number, itemS: number) => {
    place.current = { index, itemS };
    placeId.current = latest.current.film.items[index]?.id ?? null;
    setShownIndex(index);
    latest.current.onPlace?.(place.current);
  };
  const speak = (index: number) => {
    voice.current?.pause();
    voice.current = null;
    const item = latest.current.film.items[index];
    const address = item === undefined ? null : (latest.current.commentOf?.(item.id) ?? null);
    if (address === null) return;
    voice.current = new Audio(address);
    void voice.current.play().catch(() => undefined);
  };
  const enter = (index: number, itemS: number) => {
    const item = latest.current.film.items[index];
    if (item === undefined) return;
    heldUntil.current = null;
    done.current = new Set();
    at(index, itemS);
    if (item.type === "card") {
      player.current?.pause();
      return;
    }
    const { mediaS } = mediaTimeIn(item, itemS);
    done.current = new Set(item.freezes.flatMap((freeze, k) => (freeze.atMediaS < mediaS ? [k] : [])));
    player.current?.showClip(item.clipId, mediaS);
    if (playing.current) player.current?.play(Math.min(FASTEST, item.speed));
  };
  const stop = () => {
    if (!playing.current) return;
    playing.current = false;
    alone.current = false;
    waiting.current = false;
    player.current?.pause();
    voice.current?.pause();
    latest.current.onPlaying?.(false);
  };
  const next = () => {
    if (alone.current) return waitAtEnd();
    const index = place.current.index + 1;
    if (index >= latest.current.film.items.length) {
      stop();
      enter(0, 0);
      return;
    }
    enter(index, 0);
    if (playing.current) speak(index);
  };
  /** Its last picture stays on the screen until it is stopped. */
  const waitAtEnd = () => {
    player.current?.pause();
    waiting.current = true;
  };
  const advance = useRef<(dtS: number) => void>(() => undefined);
  advance.current = (dtS) => {
    const item = latest.current.film.items[place.current.index];
    if (item === undefined) return stop();
    if (waiting.current) return;
    if (item.type === "card") {
      const itemS = place.current.itemS + dtS;
      if (itemS >= item.durationS) next();
      else at(place.current.index, itemS);
      return;
    }
    if (heldUntil.current !== null) {
      heldUntil.current.leftS -= dtS;
      at(place.current.index, place.current.itemS + dtS);
      player.current?.repaint();
      if (heldUntil.current.leftS > 0) return;
      heldUntil.current = null;
    }
    // Also once a clip's frame times have come, or after a seek.
    if (player.current !== null && !player.current.playing && player.current.shown.clipId === item.clipId)
      player.current.play(Math.min(FASTEST, item.speed));
  };

  // The parts in another order: the one on the screen stays there; where it is gone, the one in its place comes.
  useLayoutEffect(() => {
    const { index, itemS } = place.current;
    if (placeId.current === null || film.items[index]?.id === placeId.current) return;
    const now = film.items.findIndex(({ id }) => id === placeId.current);
    if (now >= 0) {
      at(now, itemS);
      // What is written over the picture was asked for by the old place.
      player.current?.repaint();
      return;
    }
    stop();
    enter(Math.min(index, film.items.length - 1), 0);
  }, [film]);

  // A clock of its own for cards and holds; shots go by the frames that come on the screen.
  useEffect(() => {
    let last = performance.now();
    let frame = requestAnimationFrame(function tick(now) {
      const dtS = Math.min(0.25, (now - last) / 1000);
      last = now;
      if (playing.current) advance.current(dtS);
      frame = requestAnimationFrame(tick);
    });
    return () => {
      cancelAnimationFrame(frame);
      voice.current?.pause();
    };
  }, []);

  const onShown = useCallback(({ clipId, mediaS }: ShownInstant) => {
    const shot = shotNow();
    if (shot === null || clipId !== shot.clipId || mediaS === null || heldUntil.current !== null) return;
    at(place.current.index, Math.max(0, itemTimeAt(shot, mediaS)));
    if (!playing.current || waiting.current) return;
    const index = shot.freezes.findIndex(
      (freeze, k) => !done.current.has(k) && mediaS >= freeze.atMediaS && freeze.atMediaS >= shot.mediaStartS,
    );
    if (index >= 0) {
      done.current = new Set([...done.current, index]);
      heldUntil.current = { leftS: shot.freezes[index].durationS };
      player.current?.pause();
      return;
    }
    const clip = latest.current.clips.find(({ id }) => id === shot.clipId);
    const frameS = clip === undefined || clip.frames === 0 ? 1 / 30 : clip.durationS / clip.frames;
    if (mediaS >= shot.mediaEndS - frameS * 0.75) next();
  }, []);

  // A fast shot up to the last picture of its clip need not show that picture: the clip's end is the shot's.
  const onEnd = useCallback((clipId: string) => {
    if (playing.current && !waiting.current && heldUntil.current === null && shotNow()?.clipId === clipId) next();
  }, []);

  useImperativeHandle(handle, () => ({
    show(index, itemS) {
      stop();
      enter(index, itemS);
    },
    play(onlyPart = false) {
      if (playing.current || latest.current.film.items.length === 0) return;
      playing.current = true;
      alone.current = onlyPart;
      latest.current.onPlaying?.(true);
      enter(place.current.index, place.current.itemS);
      if (!onlyPart) speak(place.current.index);
    },
    stop,
    step(frames) {
      stop();
      player.current?.step(frames);
    },
    get playing() {
      return playing.current;
    },
    get place() {
      return place.current;
    },
    get mediaS() {
      return shotNow() === null ? null : (player.current?.shown.mediaS ?? null);
    },
    repaint: () => player.current?.repaint(),
  }));

  const clockOf = useCallback(
    (clipId: string) =>
      latest.current.film.items.find((item): item is Shot => item.type === "shot" && item.clipId === clipId)?.clock ??
      null,
    [film],
  );
  const notesAt = useCallback(() => {
    const shot = shotNow();
    if (shot === null) return {};
    const caption = shot.captions.find(
      ({ startS, endS }) => place.current.itemS >= startS && place.current.itemS < endS,
    );
    return { caption: caption?.text ?? null, speed: shot.speed, rider: shot.riderName };
  }, [film]);
  const pageAt = useCallback(() => {
    const shot = shotNow();
    return shot === null ? null : { startS: shot.pageStartS, endS: shot.pageEndS };
  }, [film]);
  const paintOver = useCallback(
    (context: CanvasRenderingContext2D, size: { readonly width: number; readonly height: number }) => {
      const moved = latest.current.movedDrawing?.() ?? null;
      for (const [index, drawing] of (shotNow()?.drawings ?? []).entries())
        if (index !== moved && drawingShows(drawing, place.current.itemS)) paintDrawing(context, drawing, size, theme);
      latest.current.paintDraft?.(context, size, theme);
    },
    [film, theme],
  );

  const painted = useMemo(() => (shown?.type === "card" ? cardForPainting(shown.card) : null), [shown]);
  useEffect(() => {
    const canvas = card.current;
    if (canvas === null || painted === null) return;
    const draw = () => {
      const { width, height } = canvas.getBoundingClientRect();
      if (width < 1) return;
      canvas.width = Math.round(width * window.devicePixelRatio);
      canvas.height = Math.round(height * window.devicePixelRatio);
      paintCard(canvas.getContext("2d")!, painted, { width: canvas.width, height: canvas.height }, theme, language);
    };
    const sizes = new ResizeObserver(draw);
    sizes.observe(canvas);
    draw();
    return () => sizes.disconnect();
  }, [painted, language, theme]);

  return (
    <Player
      label={words.preview}
      clips={clips}
      framesAddress={props.framesAddress}
      columns={columns}
      clockOf={clockOf}
      units={props.units}
      language={language}
      look={props.look}
      handle={player}
      aspect={aspect}
      fit={fitFor(PRESETS[props.preset], props.look?.shape ?? null, props.look?.fit ?? null)}
      onShown={onShown}
      onEnd={onEnd}
      notesAt={notesAt}
      pageAt={pageAt}
      paintOver={paintOver}
      onWantProxy={props.onWantProxy}
    >
      {painted !== null && (
        <canvas
          ref={card}
          className="build-card"
          role="img"
          aria-label={[painted.title, ...("lines" in painted ? painted.lines : [])].join(". ")}
        />
      )}
      {props.children}
    </Player>
  );
}

/** Film time at which a place stands, s. */
export function filmTimeS(film: Film, place: FilmPlace): number {
  const clock = filmClock(film);
  const span = clock.spans[place.index];
  const item = film.items[place.index];
  if (span === undefined || item === undefined) return 0;
  return clock.timeOf(span.startFrame) + Math.min(place.itemS, itemLengthS(item));
}
