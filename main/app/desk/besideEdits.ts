import type { BesideAsk, RoadView } from "../../contract/debriefApi.ts";
import { Failure } from "../../contract/failure.ts";
import type { CardItem, FilmItem } from "../../contract/film.ts";
import { pressureBeside } from "../../../overlay/instant/besideAt.ts";
import { debriefWords } from "../../../overlay/words/debriefWords.ts";
import { besideName, besideOn, besideShot } from "../../journey/besideShot.ts";
import type { Debrief } from "../../journey/debrief.ts";
import { filmWishes } from "../../journey/film.ts";
import { coachFilmEdits, freeItemId } from "./filmEdits.ts";
import type { Session } from "./session.ts";

/** A longer shot of two rides teaches nobody, s of this ride; a shorter one is not seen. */
const LENGTH_S = { least: 2, most: 120 } as const;

/** Of roads that are never changed; for every change of the desk they are sent anew. */
const seen = new WeakMap<Debrief["roads"], readonly RoadView[]>();

/** Other rides along a debrief's roads, for the window. */
export function roadViews({ roads, document }: Pick<Debrief, "roads" | "document">): readonly RoadView[] {
  const before = seen.get(roads);
  if (before !== undefined) return before;
  const views = roads.map((road): RoadView => {
    const { firstS } = road.beside.spots;
    const [startS, endS] = [Math.ceil(firstS[0]!), Math.floor(firstS.at(-1)!)];
    const states = pressureBeside(road.beside)!;
    const pressure: { fromS: number; state: number }[] = [];
    for (let cell = startS; cell < endS; cell++)
      if (states[cell] !== pressure.at(-1)?.state) pressure.push({ fromS: cell, state: states[cell]! });
    const name = besideName(road, document.settings.language);
    return { name, otherRider: road.riderName !== null, startS, endS, pressure };
  });
  seen.set(roads, views);
  return views;
}

/**
 * A shot of two rides as a coach wishes it, in the film as that stands; one that it takes the place of goes with all its
 * parts. @throws Failure `usage` where the road, the span or the part is not there
 */
export async function showBeside(session: Session, ask: BesideAsk): Promise<void> {
  const { standing, roads } = session.debrief;
  if (standing === null) throw new Failure("desk-without-ride", {});
  const road = roads[ask.road];
  if (road === undefined) throw new Failure("desk-no-such-moment", {});
  const { firstS } = road.beside.spots;
  const startS = Math.max(ask.startS, firstS[0]!);
  const span = { startS, endS: Math.min(ask.endS, firstS.at(-1)!, startS + LENGTH_S.most) };
  if (span.endS - span.startS < LENGTH_S.least) throw new Failure("desk-no-such-moment", {});
  const { items } = standing.film;
  const label = "show beside another ride";
  const at = items.findIndex(({ id }) => id === ask.itemId);
  if (ask.itemId !== null && at < 0) throw new Failure("desk-no-such-part", {});
  if (ask.how === "thread") {
    const shot = items[at];
    if (shot?.type !== "shot") throw new Failure("desk-no-such-part", {});
    const beside = besideOn(road, shot, standing.document.settings.language);
    const changed = items.map((item) => (item === shot ? { ...shot, beside } : item));
    return session.change(coachFilmEdits(session, { ...standing.film, items: changed }, label));
  }
  const { settings } = standing.document;
  const why = debriefWords(settings.language, null, settings.forWhom).film.why({ kind: "beside by coach" });
  const { follow, ownSecond, otherClipId } = ask;
  const chosen = otherClipId === undefined ? {} : { otherClipId };
  const wish = { road, span, follow, ownSecond, ...chosen, id: "beside", why };
  const made = besideShot(filmWishes(standing, roads), wish);
  const gone = at < 0 ? [] : partsOfOne(items, at);
  const kept = items.filter((item) => !gone.includes(item));
  const named: CardItem[] = [];
  for (const item of made) named.push({ ...item, id: freeItemId([...kept, ...named], item.id) });
  const last = kept.at(-1);
  const closing = last?.type === "card" && last.card.kind === "closing";
  const to = at >= 0 ? items.indexOf(gone[0]!) : closing ? kept.length - 1 : kept.length;
  const film = { ...standing.film, items: [...kept.slice(0, to), ...named, ...kept.slice(to)] };
  return session.change(coachFilmEdits(session, film, label));
}

/** All parts of the shot of two rides that a part belongs to. */
function partsOfOne(items: readonly FilmItem[], at: number): FilmItem[] {
  const of = (item: FilmItem | undefined): string | null =>
    item?.type === "card" && item.card.kind === "pair" && item.card.of !== undefined
      ? JSON.stringify(item.card.of)
      : null;
  const own = of(items[at]);
  if (own === null) throw new Failure("desk-no-such-part", {});
  return items.filter((item) => of(item) === own);
}
