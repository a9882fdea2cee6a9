import type { DebriefView } from "../../main/contract/debriefApi.ts";
import type { FilmItem } from "../../main/contract/film.ts";
import { build as words } from "../words/build.ts";

/** What a part of the film is called in the list: its moment's sentence, its card's title, or its clip. */
export function itemTitle(item: FilmItem, debrief: Pick<DebriefView, "momentWords" | "clips">): string {
  if (item.type === "card") return item.card.title === "" ? words.cards[item.card.kind] : item.card.title;
  const sentence = item.moment === null ? undefined : debrief.momentWords[item.moment];
  return sentence ?? item.captions[0]?.text ?? debrief.clips.find(({ id }) => id === item.clipId)?.name ?? item.clipId;
}
