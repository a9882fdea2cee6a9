import type { TaughtPart } from "../contract/debriefApi.ts";
import type { Film, FilmItem } from "../contract/film.ts";
import type { DebriefDocument } from "../contract/debrief.ts";
import type { Reading } from "../contract/reading.ts";
import { note, type Note } from "../contract/notice.ts";
import { teachesByKind } from "../../overlay/words/debriefStory.ts";
import { rideSpan } from "../film/makeShot.ts";
import type { DebriefStanding } from "./debrief.ts";
import type { ReadOutcome } from "./judge.ts";

/** Cards that say what to change, or hold the ride against another. */
const TEACHING_CARDS: ReadonlySet<string> = new Set(["change", "compare"]);

/**
 * Parts of the film that a coach chose and that teach, although the rider's note comes before training: shots and charts
 * of moments that show a fault, the ride beside another, and cards of the coach's own words on what to change. They stay:
 * the coach is told. Empty where nothing comes before training.
 */
export function taughtParts({ film, judged }: Pick<DebriefStanding, "film" | "judged">): TaughtPart[] {
  if (judged.facts.hold === null) return [];
  return film.items
    .filter((item) => teaches(item, judged.reading))
    .map((item) => ({ itemId: item.id, startS: startOf(item) }));
}

function teaches(item: FilmItem, { moments }: Reading): boolean {
  if (item.type === "shot" ? item.beside !== undefined : item.card.kind === "pair" || TEACHING_CARDS.has(item.id))
    return true;
  const kind = item.momentKey?.kind ?? (item.moment === null ? undefined : moments[item.moment]?.kind);
  return kind !== undefined && teachesByKind(kind);
}

/** Ride time at which a part begins; null: it is a card of words. */
function startOf(item: FilmItem): number | null {
  if (item.type === "shot") return rideSpan(item)[0];
  return item.momentKey?.startS ?? (item.card.kind === "pair" ? (item.card.of?.startS ?? null) : null);
}

/** What the coach is told of them, and of own lines on what to change or to ride next; nothing where there is neither. */
export function taughtNotes(film: Film, judged: ReadOutcome, words: DebriefDocument["words"]): Note[] {
  const { hold } = judged.facts;
  if (hold === null) return [];
  const parts = taughtParts({ film, judged });
  const ownLines = (["change", "next"] as const).filter((one) => words[one] !== null);
  if (parts.length + ownLines.length === 0) return [];
  const timesS = parts.flatMap(({ startS }) => startS ?? []);
  return [note("film-teaches-though-note", { topics: hold, parts: parts.length, timesS, ownLines })];
}

/** A debrief whose film is without those parts; its document keeps them. */
export function withoutTaughtParts(standing: DebriefStanding): DebriefStanding {
  const parts = new Set(taughtParts(standing).map(({ itemId }) => itemId));
  if (parts.size === 0) return standing;
  const film = { ...standing.film, items: standing.film.items.filter(({ id }) => !parts.has(id)) };
  const others = standing.warnings.filter(({ code }) => code !== "film-teaches-though-note");
  const { judged, document } = standing;
  return { ...standing, film, warnings: [...others, ...taughtNotes(film, judged, document.words)] };
}
