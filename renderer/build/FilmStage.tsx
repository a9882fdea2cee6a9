import { type ReactNode, type Ref, type RefObject, useCallback, useImperativeHandle, useMemo, useRef } from "react";
import type { Language, UnitSystem } from "../../main/contract/languageAndUnits.ts";
import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { CardItem, Film, FilmItem, Shot } from "../../main/contract/film.ts";
import type { FilmLook } from "../../main/contract/filmLook.ts";
import { type Fit, fitFor, PRESETS, type PresetName } from "../../main/contract/presets.ts";
import { paintDrawing } from "../../overlay/drawing/paintDrawing.ts";
import { closeUpAt } from "../../overlay/instant/closeUpAt.ts";
import { coversOf } from "../../overlay/instant/coversOf.ts";
import { rideTimeAt } from "../../overlay/instant/rideTimeAt.ts";
import { itemTimeAt } from "../../overlay/instant/shotTime.ts";
import { type Theme, themeFor } from "../../overlay/theme.ts";
import type { WindowColumns } from "../../main/contract/columnBytes.ts";
import { paintFramed } from "../framing/paintFramed.ts";
import { Player, type PlayerHandle } from "../player/Player.tsx";
import type { PanelsShown } from "../player/usePanels.ts";
import { build as words } from "../words/build.ts";
import { CardPicture } from "./CardPicture.tsx";
import { FadingOut, type FadingOutHandle } from "./FadingOut.tsx";
import type { FilmPlace, FilmPlayhead } from "./filmPlayhead.ts";
import { PairPicture } from "./PairPicture.tsx";
import { useFilmPlayhead } from "./useFilmPlayhead.ts";

export interface FilmStageHandle {
  /** Shows a part by itself at a film time since its start. */
  show(index: number, itemS: number): void;
  /** Shows the film at a film time, s. */
  seek(filmS: number): void;
  /** Shows the shot under way at a clip time, which may lie outside its cut. */
  look(mediaS: number): void;
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
  readonly onWantProxy?: ((clipId: string) => void) | undefined;
  /** Paints what the hand is drawing, over all else. */
  readonly paintDraft?: (
    context: CanvasRenderingContext2D,
    size: { readonly width: number; readonly height: number },
    theme: Theme,
  ) => void;
  /** The drawing that the hand is moving, which the draft stands for; null: none. */
  readonly movedDrawing?: () => number | null;
  /** The clip's whole picture without numbers, while a hand chooses what of it is hidden or shown. */
  readonly whole?: boolean;
  /** The shot as the hand is about to make it; null: as it is. */
  readonly draftShot?: () => Shot | null;
  /** Where a part's spoken comment plays from; null: none that can be played here. */
  readonly commentOf?: (itemId: string) => string | null;
  readonly children?: ReactNode;
}

/** Where its clips lie in the ride, each shot says itself. */
const NOWHERE = () => null;
const NO_PAGE = { startS: 0, endS: 0 };

/**
 * The whole film played from the clips themselves, nothing rendered: shots by the player, cards by the painter of the
 * film, crossfades by both.
 */
export function FilmStage(props: Props) {
  const { film, clips, framesAddress, language } = props;
  const player = useRef<PlayerHandle>(null);
  const fadingOut = useRef<FadingOutHandle>(null);
  const card = useRef<HTMLCanvasElement>(null);
  const { playhead, index, beneath } = useFilmPlayhead({ ...props, player, beneath: fadingOut, card });
  const front = film.items[Math.min(index, film.items.length - 1)];
  const out = beneath === null ? undefined : film.items[beneath];
  const theme = themeFor(props.look?.ink ?? "light");
  const fit = fitFor(PRESETS[props.preset], props.look?.shape ?? null, props.look?.fit ?? null);
  const painting = useFilmPainting(props, playhead, player, fadingOut, theme);
  const framedFront = useFramedShot(props, front, fit, theme);
  const framedOut = useFramedShot(props, out, fit, theme);

  useImperativeHandle(props.handle, () => ({
    show: (at, itemS) => playhead.show(at, itemS),
    seek: (filmS) => playhead.seek(filmS),
    look: (mediaS) => playhead.look(mediaS),
    play: (onlyPart = false) => playhead.play(onlyPart),
    stop: () => playhead.stop(),
    step(frames) {
      playhead.follow();
      player.current?.step(frames);
    },
    get playing() {
      return playhead.playing;
    },
    get place() {
      return playhead.place;
    },
    get mediaS() {
      return playhead.shot === null ? null : (player.current?.shown.mediaS ?? null);
    },
    repaint: () => player.current?.repaint(),
  }));

  return (
    <Player
      label={words.preview}
      clips={clips}
      framesAddress={framesAddress}
      columns={props.columns}
      clockOf={NOWHERE}
      units={props.units}
      language={language}
      look={props.look}
      handle={player}
      aspect={film.widthPx / film.heightPx}
      fit={fit}
      onShown={({ clipId, mediaS }) => clipId !== null && mediaS !== null && playhead.shown(clipId, mediaS)}
      onEnd={(clipId) => playhead.ended(clipId)}
      panelsAt={painting.panelsAt}
      paintPicture={
        framedFront &&
        ((context, video, size, { mediaS }) => {
          // The film time that is asked for where the picture stands; else that of the frame.
          const at = playhead.instant;
          const itemS = at?.item.id === front?.id ? at?.itemS : undefined;
          framedFront(context, video, size, mediaS ?? 0, itemS);
        })
      }
      paintOver={painting.paintOver}
      onWantProxy={props.onWantProxy}
    >
      <FadingOut
        clips={clips}
        framesAddress={framesAddress}
        card={out?.type === "card" ? out.card : null}
        theme={theme}
        language={language}
        fit={fit}
        paintPicture={framedOut}
        handle={fadingOut}
        onFrame={() => player.current?.repaint()}
      />
      {front?.type === "card" && (
        <FrontCard key={front.id} item={front} stage={props} theme={theme} playhead={playhead} canvasRef={card} />
      )}
      {props.children}
    </Player>
  );
}

interface FrontCardProps {
  readonly item: CardItem;
  readonly stage: Pick<Props, "film" | "clips" | "framesAddress" | "language" | "onWantProxy">;
  readonly theme: Theme;
  readonly playhead: FilmPlayhead;
  readonly canvasRef: RefObject<HTMLCanvasElement | null>;
}

/** The card under way: one that stands still, or two rides that run. */
function FrontCard({ item, stage, theme, playhead, canvasRef }: FrontCardProps) {
  const { card } = item;
  const { film, clips, framesAddress, language, onWantProxy } = stage;
  if (card.kind !== "pair") return <CardPicture {...{ card, theme, language, canvasRef }} className="build-card" />;
  const place = () => ({ itemS: playhead.place.itemS, playing: playhead.playing });
  return <PairPicture {...{ card, film, clips, framesAddress, theme, language, place, canvasRef, onWantProxy }} />;
}

/** Paints a part's picture as the film frames it, at a clip time; undefined: it is shown as filmed. */
function useFramedShot(props: Props, item: FilmItem | undefined, fit: Fit, theme: Theme) {
  const latest = useRef(props);
  latest.current = props;
  const { film, clips, whole = false } = props;
  return useMemo(() => {
    if (item?.type !== "shot") return undefined;
    const clip = clips.find(({ id }) => id === item.clipId);
    const span = { startS: item.mediaStartS, endS: item.mediaEndS };
    if (clip === undefined) return undefined;
    if (!whole && item.closeUp === undefined && coversOf(film, clip.id, item, span).length === 0) return undefined;
    const { widthPx, heightPx } = clip;
    const frameS = clip.durationS / Math.max(1, clip.frames);
    return (
      context: CanvasRenderingContext2D,
      video: HTMLVideoElement,
      size: { readonly width: number; readonly height: number },
      mediaS: number,
      itemS = itemTimeAt(item, mediaS),
    ): void => {
      const shot = latest.current.draftShot?.() ?? item;
      const shown = shot.id === item.id ? shot : item;
      const covers = coversOf(film, clip.id, shown, span);
      const closeUp = shown.closeUp === undefined ? null : closeUpAt(shown, shown.closeUp, itemS);
      const how = { covers, closeUp, fit, whole, margin: theme.margin, clip: { widthPx, heightPx, frameS } };
      paintFramed(context, video, size, how, mediaS);
    };
  }, [film, clips, item, fit, whole, theme]);
}

/** What is written and drawn over the film's picture where it stands, as the film clock says it. */
function useFilmPainting(
  props: Pick<Props, "film" | "movedDrawing" | "paintDraft" | "whole">,
  playhead: FilmPlayhead,
  player: { readonly current: PlayerHandle | null },
  fadingOut: { readonly current: FadingOutHandle | null },
  theme: Theme,
) {
  const latest = useRef(props);
  latest.current = props;
  /** The numbers are those of the frame on the screen, whichever of the two pictures they stand on. */
  const panelsAt = useCallback((): PanelsShown | null => {
    const at = playhead.instant;
    if (at === null || at.upper.item.type === "card" || at.page === null || latest.current.whole === true)
      return { rideS: null, page: NO_PAGE };
    const own = at.upper.index === at.index;
    // Until the part's own picture has come, the one before and its numbers stand.
    if (own && !playhead.pictured) return null;
    const { item } = at.upper;
    const mediaS = (own ? player.current?.shown.mediaS : fadingOut.current?.mediaS) ?? at.upper.mediaS ?? 0;
    return {
      rideS: rideTimeAt(item.clock, mediaS),
      page: at.page,
      notes: {
        caption: at.caption?.text ?? null,
        speed: item.speed,
        rider: item.riderName,
        beside: item.beside?.name ?? null,
        otherRider: item.beside?.oneRider === false,
      },
      ...(item.beside === undefined ? {} : { beside: item.beside }),
      opacity: at.panelOpacity,
    };
  }, [props.film, props.whole]);
  const paintOver = useCallback(
    (context: CanvasRenderingContext2D, size: { readonly width: number; readonly height: number }) => {
      const at = playhead.instant;
      const moved = latest.current.movedDrawing?.() ?? null;
      const hidden = moved === null || at?.item.type !== "shot" ? undefined : at.item.drawings[moved];
      const drawn = latest.current.whole === true ? [] : (at?.drawings ?? []);
      for (const drawing of drawn) if (drawing !== hidden) paintDrawing(context, drawing, size, theme);
      latest.current.paintDraft?.(context, size, theme);
    },
    [props.film, props.whole, theme],
  );
  return { panelsAt, paintOver };
}
