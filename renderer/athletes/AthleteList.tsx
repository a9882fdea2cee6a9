import type { AthleteEntry, PathId } from "../../main/contract/debriefApi.ts";
import { keepUnits } from "../../overlay/words/keepUnits.ts";
import { Button } from "../look/Button.tsx";
import { athletes as words } from "../words/athletes.ts";

interface Props {
  readonly list: readonly AthleteEntry[] | null;
  readonly loading: boolean;
  readonly onMake: () => void;
  readonly onUse: (id: PathId) => void;
  readonly onWeeks: (athlete: AthleteEntry) => void;
  readonly onEdit: (athlete: AthleteEntry) => void;
  readonly onDelete: (athlete: AthleteEntry) => void;
}

/** All athletes, each with what is known and what may be done. */
export function AthleteList({ list, loading, onMake, onUse, onWeeks, onEdit, onDelete }: Props) {
  return (
    <section className="part" aria-labelledby="athletes-title">
      <header>
        <h1 id="athletes-title">{words.title}</h1>
        <Button kind={list?.length === 0 ? "main" : "plain"} keys="n" onClick={onMake}>
          {words.make}
        </Button>
      </header>
      {loading && <p className="quiet">{words.loading}</p>}
      {list?.length === 0 && <p className="note">{words.none}</p>}
      <ul className="rows">
        {list?.map((athlete) => (
          <li key={athlete.id} className="firm athlete-row">
            <div>
              <h2>{athlete.name}</h2>
              <ul className="quiet">
                {athlete.lines.map((line) => (
                  <li key={line}>{keepUnits(line)}</li>
                ))}
              </ul>
              <p className="quiet small start-folder">{athlete.folder}</p>
            </div>
            <div className="row">
              <Button onClick={() => onUse(athlete.id)}>{words.use}</Button>
              <Button onClick={() => onWeeks(athlete)}>{words.weeks}</Button>
              <Button onClick={() => onEdit(athlete)}>{words.edit}</Button>
              <Button kind="bare" onClick={() => onDelete(athlete)}>
                {words.remove}
              </Button>
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}
