import type { Edit } from "../../contract/debrief.ts";
import { Failure } from "../../contract/failure.ts";
import type { Film, FilmItem } from "../../contract/film.ts";
import { withAskedParts } from "../../debrief/settleAsked.ts";
import { filmItemFor } from "../../journey/automaticFilm.ts";
import { filmWishes } from "../../journey/film.ts";
import { keepComment } from "../../journey/keptComment.ts";
import type { Host } from "../../journey/host.ts";
import type { Session } from "./session.ts";

/** Shortest and longest film that is picked, s. */
const LENGTH_S = { least: 20, most: 1800 } as const;

/** The film picked anew from what was kept, about as long as wished, s. */
export async function pickFilm(session: Session, lengthS: number): Promise<void> {
  const label = "automatic film";
  const { settings } = session.document;
  await session.change([
    {
      part: "settings",
      value: { ...settings, lengthS: Math.min(LENGTH_S.most, Math.max(LENGTH_S.least, lengthS)) },
      label,
    },
    { part: "film", value: null, label },
    setBy("computed", label),
  ]);
}

/** A moment of the reading as one more shot of the film, before the closing card. @throws Failure `usage` where there is no such moment */
export async function addMoment(session: Session, moment: number): Promise<void> {
  const { standing } = session.debrief;
  if (standing === null) throw new Failure("desk-without-ride", {});
  const made = filmItemFor(filmWishes(standing), moment);
  if (made === null) throw new Failure("desk-no-such-moment", {});
  const { items } = standing.film;
  const item: FilmItem = { ...made, id: freeItemId(items, made.id) };
  const last = items.at(-1);
  const closing = last?.type === "card" && last.card.kind === "closing";
  const at = closing ? items.length - 1 : items.length;
  const film = { ...standing.film, items: [...items.slice(0, at), item, ...items.slice(at)] };
  await session.change(coachFilmEdits(session, film, "add a moment to the film"));
}

/** A spoken comment on a part of the film, as a WAV file; null takes it away. @throws Failure `usage` where the part is gone, and what the file may give */
export async function setComment(
  session: Session,
  itemId: string,
  wavBase64: string | null,
  host: Host,
): Promise<void> {
  const { standing } = session.debrief;
  const film = standing?.film;
  if (film === undefined || !film.items.some(({ id }) => id === itemId)) throw new Failure("desk-no-such-part", {});
  const folder = await session.settle();
  const comment = wavBase64 === null ? { commentPath: null } : await keepComment(folder, itemId, wavBase64, host);
  const label = wavBase64 === null ? "remove a comment" : "record a comment";
  const items = film.items.map((item) => (item.id === itemId ? { ...withoutComment(item), ...comment } : item));
  await session.change(coachFilmEdits(session, { ...film, items }, label));
}

function withoutComment(item: FilmItem): FilmItem {
  const { commentS: _length, ...rest } = item;
  return rest;
}

/** A film that a coach made out of the one in force, as edits: what that one holds back for want of a sure moment stays. */
export function coachFilmEdits({ document, debrief }: Session, film: Film | null, label: string): Edit[] {
  const { standing } = debrief;
  const value =
    film === null || standing === null ? film : withAskedParts(film, document, standing.film, standing.asked);
  return [{ part: "film", value, label }, setBy("coach", label)];
}

/** Who made the film, as an edit. */
function setBy(value: "coach" | "computed", label: string): Edit {
  return { part: "filmSetBy", value, label };
}

function freeItemId(items: readonly FilmItem[], wished: string): string {
  let id = wished;
  for (let n = 2; items.some((item) => item.id === id); n++) id = `${wished}-${n}`;
  return id;
}
