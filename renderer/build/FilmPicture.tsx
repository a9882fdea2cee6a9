import type { ReactNode, RefObject } from "react";
import type { WindowColumns } from "../../main/contract/columnBytes.ts";
import type { Film } from "../../main/contract/film.ts";
import type { Framing } from "../framing/useFraming.tsx";
import { desk } from "../desk/desk.ts";
import { useDebrief } from "../desk/useDesk.ts";
import type { Calls } from "../look/useCalls.ts";
import type { FilmPlace } from "./filmPlayhead.ts";
import { FilmStage, type FilmStageHandle } from "./FilmStage.tsx";
import type { useDrawing } from "./useDrawing.tsx";

interface Props {
  readonly film: Film;
  readonly columns: WindowColumns | null;
  readonly stage: RefObject<FilmStageHandle | null>;
  /** What is drawn on it by hand; missing: it is only looked at. */
  readonly drawing?: ReturnType<typeof useDrawing>;
  /** What of it is hidden and shown by hand; missing: it is only looked at. */
  readonly framing?: Framing;
  readonly onPlace: (place: FilmPlace) => void;
  readonly onPlaying: (playing: boolean) => void;
  readonly onCall: Calls["call"];
  readonly children?: ReactNode;
}

/** The film's picture, with what is drawn on it. */
export function FilmPicture({ film, columns, stage, drawing, framing, onPlace, onPlaying, onCall, children }: Props) {
  const { clips, addresses, document: written, commentAddresses } = useDebrief();
  return (
    <FilmStage
      film={film}
      clips={clips}
      framesAddress={addresses.frames}
      columns={columns}
      units={written.plan.units}
      language={written.settings.language}
      look={written.settings.look}
      preset={written.settings.preset}
      handle={stage}
      onPlace={onPlace}
      onPlaying={onPlaying}
      onWantProxy={(clipId) => void onCall(() => desk.makeProxy(clipId))}
      commentOf={(id) => commentAddresses[id] ?? null}
      {...(drawing === undefined ? {} : { movedDrawing: drawing.movedDrawing })}
      {...(framing === undefined ? {} : { whole: framing.whole, draftShot: framing.draftShot })}
      paintDraft={(...on) => {
        drawing?.paintDraft(...on);
        framing?.paintOver(...on);
      }}
    >
      {drawing?.layer}
      {framing?.layer}
      {children}
    </FilmStage>
  );
}
