import type { DebriefView } from "../../main/contract/debriefApi.ts";
import type { FilmItem } from "../../main/contract/film.ts";
import { rideTimeAt } from "../../overlay/instant/rideTimeAt.ts";
import { clockText } from "../../overlay/words/numbers.ts";
import { build as words } from "../words/build.ts";

/** What a part of the film is called in the list: its moment's sentence, its card's title, its first caption, or where in the ride it is. */
export function itemTitle(item: FilmItem, debrief: Pick<DebriefView, "momentWords">): string {
  if (item.type === "card") return item.card.title === "" ? words.cards[item.card.kind] : item.card.title;
  const sentence = item.moment === null ? undefined : debrief.momentWords[item.moment];
  return sentence ?? item.captions[0]?.text ?? words.shotAt(clockText(rideTimeAt(item.clock, item.mediaStartS)));
}
