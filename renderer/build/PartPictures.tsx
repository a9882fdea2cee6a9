import type { ClipView } from "../../main/contract/debriefApi.ts";
import type { Film, FilmItem } from "../../main/contract/film.ts";
import type { Language } from "../../main/contract/languageAndUnits.ts";
import { mediaTimeIn } from "../../overlay/instant/shotTime.ts";
import type { Theme } from "../../overlay/theme.ts";
import { CardPicture } from "./CardPicture.tsx";

/** What the film's cards are painted by. */
export interface PicturesGiven {
  readonly film: Film;
  readonly theme: Theme;
  readonly language: Language;
}

interface Props extends PicturesGiven {
  readonly item: FilmItem;
  readonly clip: ClipView | undefined;
  readonly widthPx: number;
  readonly pxPerS: number;
}

/** Height of the lane's pictures, px of the window's letters at 16; the style sheet has the same in rem. */
const HEIGHT_PX = 54;

/** Small pictures of a part, each of the instant at its left edge. */
export function PartPictures({ film, item, clip, widthPx, pxPerS, theme, language }: Props) {
  if (item.type === "card") {
    const aspect = film.widthPx / film.heightPx;
    return (
      <span className="lane-pictures" style={{ background: theme.ground }} aria-hidden="true">
        <span className="lane-card" style={{ aspectRatio: String(aspect) }}>
          <CardPicture card={item.card} theme={theme} language={language} className="lane-card-picture" hidden />
        </span>
      </span>
    );
  }
  const strip = clip?.filmstrip ?? null;
  if (clip === undefined || strip === null) return <span className="lane-pictures" aria-hidden="true" />;
  const pictureWidthPx = Math.max(24, Math.round(HEIGHT_PX * (clip.widthPx / clip.heightPx)));
  const count = Math.max(1, Math.ceil(widthPx / pictureWidthPx));
  return (
    <span className="lane-pictures" aria-hidden="true">
      {Array.from({ length: count }, (_, k) => {
        const { mediaS } = mediaTimeIn(item, (k * pictureWidthPx) / pxPerS);
        const n = Math.max(0, Math.round(mediaS / strip.everyS));
        // One that is not made yet leaves its place empty: another instant would be shown for it.
        return (
          <span key={k} className="lane-picture" style={{ width: pictureWidthPx }}>
            {n < strip.count && <img src={`${strip.address}/${n}.jpg`} alt="" draggable={false} loading="lazy" />}
          </span>
        );
      })}
    </span>
  );
}
