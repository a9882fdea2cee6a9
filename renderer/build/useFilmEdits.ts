import type { DebriefView } from "../../main/contract/debriefApi.ts";
import type { Film, FilmItem } from "../../main/contract/film.ts";
import type { FilmLook } from "../../main/contract/filmLook.ts";
import type { Calls } from "../look/useCalls.ts";
import { desk } from "../desk/desk.ts";
import { withItem } from "../film/filmEdits.ts";
import { base64Of } from "../desk/base64Of.ts";

/** Changes of the film and of its look, each one edit that can be undone. */
export function useFilmEdits(debrief: DebriefView, call: Calls["call"]) {
  const { film, document: written } = debrief;
  const edit = (value: Film, label: string) => void call(() => desk.edit({ part: "film", value, label }, debrief.edit));
  const change = (next: FilmItem, label: string) => film !== null && edit(withItem(film, next), label);
  const changeLook = (value: Partial<FilmLook>, label: string) =>
    void call(() => desk.edit({ part: "settings", value: { ...written.settings, look: value }, label }, debrief.edit));
  const comment = (itemId: string, wav: Uint8Array | null) =>
    call(() => desk.setComment(itemId, wav === null ? null : base64Of(wav)));
  return { edit, change, changeLook, comment };
}
