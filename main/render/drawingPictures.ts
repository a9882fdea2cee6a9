import type { Film } from "../contract/film.ts";
import { drawingShows } from "../../overlay/drawing/paintDrawing.ts";
import { filmAt, filmTimeline } from "../../overlay/instant/filmAt.ts";
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
  const timeline = filmTimeline(film);
  const pictures: TimedDrawings[] = [];
  let lastKey: string | null = null;
  for (let frame = 0; frame < part.frames; frame += 1) {
    const instant = filmAt(film, part.startFrame + frame, timeline);
    if (instant === null) break;
    const upper = instant.from !== null && instant.share < 0.5 ? instant.from : instant;
    const item = film.items[upper.index];
    const seen = item?.type === "shot" ? item.drawings.filter((drawing) => drawingShows(drawing, upper.itemS)) : [];
    const key = `${upper.index}:${item?.type === "shot" ? seen.map((drawing) => item.drawings.indexOf(drawing)).join(",") : ""}`;
    if (key !== lastKey) pictures.push({ timeUs: pictureTimeUs(frame, film.frameRate), drawings: seen });
    lastKey = key;
  }
  return pictures.some((picture) => picture.drawings.length > 0) ? pictures : [];
}
