import type { Edit } from "../../contract/debrief.ts";
import type { ExcusedPart } from "../../contract/debriefApi.ts";
import { Failure } from "../../contract/failure.ts";
import type { Film, FilmItem } from "../../contract/film.ts";
import type { Moment } from "../../contract/reading.ts";
import { coveredAsBefore } from "../../../overlay/instant/coversOf.ts";
import { choicesOn } from "../../debrief/choicesOn.ts";
import { withAskedParts } from "../../debrief/settleAsked.ts";
import { filmItemFor } from "../../journey/automaticFilm.ts";
import type { DebriefStanding } from "../../journey/debrief.ts";
import { filmWishes } from "../../journey/film.ts";
import { keepComment } from "../../journey/keptComment.ts";
import type { Host } from "../../journey/host.ts";
import type { Session } from "./session.ts";

/** Shortest and longest film that is picked, s. */
const LENGTH_S = { least: 20, most: 1800 } as const;

/** The film picked anew from what was kept, about as long as wished, s. */
export async function pickFilm(session: Session, lengthS: number): Promise<void> {
  const label = "automatic film";
  const settings = {
    ...session.document.settings,
    lengthS: Math.min(LENGTH_S.most, Math.max(LENGTH_S.least, lengthS)),
  };
  const before = session.debrief.standing?.film ?? { items: [] };
  const wished: Edit = { part: "settings", value: settings, label };
  if (before.items.some((item) => item.type === "shot" && item.covers !== undefined)) {
    // What was hidden stays hidden: such a film is the coach's.
    const { film } = await session.standingWith({ settings, film: null, filmSetBy: "computed" });
    const covered = coveredAsBefore(film, before);
    if (covered !== film)
      return session.change([wished, { part: "film", value: covered, label }, setBy("coach", label)]);
  }
  await session.change([wished, { part: "film", value: null, label }, setBy("computed", label)]);
}

/**
 * What a coach says about a moment, with the film as that has it: kept it is in the film, once; dropped or no more kept
 * it is not. @throws Failure `usage` where there is no such moment
 */
export async function chooseMoment(session: Session, choices: ChoicesEdit, moment: number): Promise<void> {
  const { standing } = session.debrief;
  if (standing === null) throw new Failure("desk-without-ride", {});
  const { moments } = standing.judged.reading;
  if (moments[moment] === undefined) throw new Failure("desk-no-such-moment", {});
  const keep = choicesOn(moments, choices.value).of[moment]?.keep ?? null;
  const before = choicesOn(moments, session.document.choices).of[moment]?.keep ?? null;
  const next = await session.standingWith({ choices: choices.value });
  const { items } = next.film;
  const there = items.some((item) => item.moment === moment);
  if (keep === true && !there) return session.change([choices, ...withMoment(session, next, moment, choices.label)]);
  // An automatic film follows what was said; in the coach's own nothing else takes it out.
  const out = next.document.filmSetBy === "coach" && (keep === false || (keep === null && before === true));
  if (!out || !there) return session.change([choices]);
  const film = { ...next.film, items: items.filter((item) => item.moment !== moment) };
  return session.change([choices, ...coachFilmEdits(session, film, choices.label)]);
}

type ChoicesEdit = Extract<Edit, { readonly part: "choices" }>;

/** The film with one more shot or card for a moment, before the closing card. */
function withMoment(session: Session, standing: DebriefStanding, moment: number, label: string): Edit[] {
  const made = filmItemFor(filmWishes(standing), moment);
  if (made === null) throw new Failure("desk-no-such-moment", {});
  const { items } = standing.film;
  const item: FilmItem = { ...made, id: freeItemId(items, made.id) };
  const last = items.at(-1);
  const closing = last?.type === "card" && last.card.kind === "closing";
  const at = closing ? items.length - 1 : items.length;
  const film = { ...standing.film, items: [...items.slice(0, at), item, ...items.slice(at)] };
  return coachFilmEdits(session, film, label);
}

/** Kinds of moments that teach something about a break of the pressure. */
const BREAK_KINDS = new Set(["lapse", "breakRun", "riseThenOff"]);

/** Parts of the film whose moment was a break that has been given an excusing reason since. */
export function excusedParts({ film, judged }: DebriefStanding): ExcusedPart[] {
  const { moments, breaks } = judged.reading;
  const given = breaks.filter((one) => one.setBy === "coach" && one.excused === true);
  return film.items.flatMap(({ id, moment, momentKey: key }): ExcusedPart[] => {
    if (key === undefined || !BREAK_KINDS.has(key.kind)) return [];
    if (moment !== null && moments[moment]?.excused !== true) return [];
    const endS = key.endS ?? key.startS + 1;
    const one = given.find((of) => of.startS < endS && of.endS > key.startS);
    return one === undefined ? [] : [{ itemId: id, breakStartS: one.startS, reason: one.reason }];
  });
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

/** A spoken comment is a moment of at least so long, s: what it is about is seen. */
const SPOKEN_S = 8;

/**
 * What a coach says aloud at an instant of the ride while skimming: a moment of the coach's own, kept in the film, that
 * carries the sound. One edit. @throws Failure `usage` without a ride or outside it, and what the file may give
 */
export async function speakAt(session: Session, atS: number, wavBase64: string, host: Host): Promise<void> {
  const { standing } = session.debrief;
  if (standing === null) throw new Failure("desk-without-ride", {});
  if (atS < 0 || atS > standing.judged.ride.elapsedS) throw new Failure("desk-no-such-moment", {});
  const startS = Math.round(atS * 10) / 10;
  const kept = await keepComment(await session.settle(), `spoken-${startS}`, wavBase64, host);
  const endS = startS + Math.max(SPOKEN_S, Math.ceil(kept.commentS));
  const label = "speak a comment";
  const spoken: Moment = {
    kind: "ownMoment",
    startS,
    endS,
    reason: "",
    excused: null,
    rank: standing.judged.reading.moments.length + 1,
    numbers: {},
    setBy: "coach",
    coachOnly: false,
    comment: { path: kept.commentPath, lengthS: kept.commentS },
  };
  const { document } = session;
  // Said anew at the very instant, it takes the place of what was said there.
  const same = (one: { readonly kind: string; readonly startS: number }): boolean =>
    one.kind === spoken.kind && one.startS === startS;
  const ownMoments = [...document.ownMoments.filter((one) => !same(one)), spoken];
  const said = { kind: spoken.kind, startS, endS, keep: true, span: null, name: null, note: null };
  const choices = [...document.choices.filter((one) => !same(one)), said];
  const edits: Edit[] = [
    { part: "ownMoments", value: ownMoments, label },
    { part: "choices", value: choices, label },
  ];
  if (document.filmSetBy !== "coach") return session.change(edits);
  const next = await session.standingWith({ ownMoments, choices });
  return session.change([...edits, ...withMoment(session, next, next.judged.reading.moments.length - 1, label)]);
}

function withoutComment(item: FilmItem): FilmItem {
  const { commentS: _length, ...rest } = item;
  return rest;
}

/** A film that a coach made out of the one in force, as edits: what that one holds back for want of a sure moment stays. */
export function coachFilmEdits({ document, debrief }: Session, film: Film | null, label: string): Edit[] {
  const { standing } = debrief;
  const value =
    film === null || standing === null
      ? film
      : withAskedParts(coveredAsBefore(film, standing.film), document, standing.film, standing.asked);
  return [{ part: "film", value, label }, setBy("coach", label)];
}

/** Who made the film, as an edit. */
function setBy(value: "coach" | "computed", label: string): Edit {
  return { part: "filmSetBy", value, label };
}

/** An id that no part of a film has yet. */
export function freeItemId(items: readonly FilmItem[], wished: string): string {
  let id = wished;
  for (let n = 2; items.some((item) => item.id === id); n++) id = `${wished}-${n}`;
  return id;
}
