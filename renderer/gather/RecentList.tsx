import type { PathId, RecentDebrief } from "../../main/contract/debriefApi.ts";
import { durationText } from "../../overlay/words/numbers.ts";
import { keepUnits } from "../../overlay/words/keepUnits.ts";
import { dayText } from "../look/dayText.ts";
import { gather as words } from "../words/gather.ts";

interface Props {
  /** Null: not known yet. */
  readonly recent: readonly RecentDebrief[] | null;
  readonly onOpen: (id: PathId) => void;
}

/** Debriefs to go on with. */
export function RecentList({ recent, onOpen }: Props) {
  return (
    <section className="part" aria-labelledby="recent-title">
      <header>
        <h2 id="recent-title">{words.recent}</h2>
      </header>
      {recent === null && <p className="quiet">{words.recentLoading}</p>}
      {recent?.length === 0 && <p className="quiet">{words.recentNone}</p>}
      {recent !== null && recent.length > 0 && (
        <ul className="rows">
          {recent.map((debrief) => (
            <li key={debrief.id} className={debrief.prepared ? "unsure" : "firm"}>
              <button type="button" className="start-open" onClick={() => onOpen(debrief.id)}>
                <span className="name">{`${debrief.rider ?? words.nobody}, ${debrief.title}`}</span>
                <span className="quiet">{keepUnits(tellApart(debrief))}</span>
                {debrief.prepared && <span className="small">{words.prepared}</span>}
                <span className="quiet small start-folder">{debrief.folder}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

/** Day, place and length of the ride, and how far the debrief is. */
function tellApart({ rideDateText, modifiedUtcMs, setting, mainS, handedOver }: RecentDebrief): string {
  return [
    rideDateText === null ? words.changed(dayText(modifiedUtcMs)) : words.ridden(rideDateText),
    setting === null ? null : words.settings[setting].name,
    mainS === null ? null : words.mainPart(durationText(mainS)),
    handedOver ? words.handedOver : null,
  ]
    .filter((one) => one !== null)
    .join(", ");
}
