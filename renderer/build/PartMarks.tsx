import type { FilmItem } from "../../main/contract/film.ts";
import { durationText } from "../../overlay/words/numbers.ts";
import { build as words } from "../words/build.ts";
import { draw as drawWords } from "../words/draw.ts";

interface Props {
  readonly item: FilmItem;
  readonly pxPerS: number;
  readonly widthPx: number;
  /** Opens a caption, by its number from 0. */
  readonly onCaption: (caption: number) => void;
}

/** What a part says, where it says it: captions as lines of text, a spoken comment as a bar, drawings and holds as signs. */
export function PartMarks({ item, pxPerS, widthPx, onCaption }: Props) {
  const at = (startS: number, endS: number) => {
    const left = Math.min(startS * pxPerS, widthPx - 6);
    return { left, width: Math.max(6, Math.min(endS * pxPerS, widthPx) - left - 1) };
  };
  return (
    <div className="lane-marks">
      {item.type === "shot" &&
        item.captions.map(({ startS, endS, text }, index) => (
          <button
            key={index}
            type="button"
            className="lane-caption"
            // Of two that stand at once the first is seen, here as in the film.
            style={{ ...at(startS, endS), zIndex: item.captions.length - index }}
            title={text}
            aria-label={words.captionMark(text)}
            onClick={() => onCaption(index)}
          >
            {text}
          </button>
        ))}
      {item.type === "shot" &&
        item.drawings.map(({ shape, startS, endS }, index) => (
          <span
            key={index}
            className="lane-drawing"
            style={at(startS, endS)}
            title={drawWords.shapes[shape]}
            aria-hidden="true"
          />
        ))}
      {item.commentPath !== null && (
        <span
          className="lane-comment"
          style={at(0, item.commentS ?? widthPx / pxPerS)}
          title={item.commentS === undefined ? words.commentHasUnknown : words.commentHas(durationText(item.commentS))}
        >
          {words.commentMark}
        </span>
      )}
    </div>
  );
}
