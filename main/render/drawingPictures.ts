import type { Film } from "../contract/film.ts";
import { filmClock } from "../../overlay/instant/filmClock.ts";
import type { TimedDrawings } from "./paintMessages.ts";
import { pictureTimeUs } from "./panelPictures.ts";
import type { Part } from "./planParts.ts";

/** The coach's drawings over a part, one entry for each change; empty where the part has none. */
export function drawingPictures(film: Film, part: Part): TimedDrawings[] {
  const drawn = part.pieces.some(({ item }) => {
    const shot = film.items[item];
    return shot?.type === "shot" && shot.drawings.length > 0;
  });
  if (!drawn) return [];
  const clock = filmClock(film);
  const pictures: TimedDrawings[] = [];
  let lastKey: string | null = null;
  for (let frame = 0; frame < part.frames; frame += 1) {
    const instant = clock.at(part.startFrame + frame);
    if (instant === null) break;
    const { upper, drawings } = instant;
    const { item } = upper;
    const key = `${upper.index}:${item.type === "shot" ? drawings.map((one) => item.drawings.indexOf(one)).join(",") : ""}`;
    if (key !== lastKey) pictures.push({ timeUs: pictureTimeUs(frame, film.frameRate), drawings });
    lastKey = key;
  }
  return pictures.some((picture) => picture.drawings.length > 0) ? pictures : [];
}
