import type { DebriefView } from "../../main/contract/debriefApi.ts";
import { noticeText } from "../../overlay/words/notices/noticeText.ts";
import type { Calls } from "../look/useCalls.ts";
import { desk } from "../desk/desk.ts";
import { Button } from "../look/Button.tsx";
import { build as words } from "../words/build.ts";
import { WINDOW_LANGUAGE } from "../words/language.ts";

/**
 * What the coach's film and own lines still teach a rider whose note comes before training, and one button that leaves
 * those parts out; nothing where there is none.
 */
export function TaughtParts({ debrief, onCall }: { readonly debrief: DebriefView; readonly onCall: Calls["call"] }) {
  const { film, taughtParts, warnings, edit, readOnly } = debrief;
  const said = warnings.find(({ code }) => code === "film-teaches-though-note");
  if (said === undefined || film === null) return null;
  const out = new Set(taughtParts.map(({ itemId }) => itemId));
  const value = { ...film, items: film.items.filter(({ id }) => !out.has(id)) };
  const label = words.labels.taught;
  return (
    <div className="note unsure stack taught-parts" role="status">
      <p>{noticeText(said, WINDOW_LANGUAGE, "window")}</p>
      {out.size > 0 && readOnly === null && (
        <div>
          <Button onClick={() => void onCall(() => desk.edit({ part: "film", value, label }, edit))}>
            {words.taughtLeave(out.size)}
          </Button>
        </div>
      )}
    </div>
  );
}
