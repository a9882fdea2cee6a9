import type { DebriefView } from "../../main/contract/debriefApi.ts";
import type { Film } from "../../main/contract/film.ts";
import { durationText } from "../../overlay/words/numbers.ts";
import type { Calls } from "../look/useCalls.ts";
import { desk } from "../desk/desk.ts";
import { Button } from "../look/Button.tsx";
import { NumberField } from "../look/NumberField.tsx";
import { build as words } from "../words/build.ts";
import { PartList } from "./PartList.tsx";

/** Shortest and longest film that the program picks, s. */
const WISHED_S = { least: 20, most: 1800 } as const;

interface Props {
  readonly debrief: DebriefView;
  readonly film: Film;
  readonly lengthS: number;
  readonly chosen: number;
  readonly locked: boolean;
  readonly onChoose: (index: number) => void;
  readonly onMove: (from: number, to: number) => void;
  readonly onCall: Calls["call"];
}

/** The film as a list of parts: how long it is, who picked it, what was left out. */
export function FilmParts({ debrief, film, lengthS, chosen, locked, onChoose, onMove, onCall }: Props) {
  const { document: written } = debrief;
  return (
    <section className="part build-film">
      <header>
        <h1>{words.title}</h1>
        <span className="figure">{words.lasts(durationText(lengthS))}</span>
      </header>
      <p className="quiet small">{written.filmSetBy === "coach" ? words.byCoach : words.byProgram}</p>
      {!locked && (
        <div className="row build-wished">
          <NumberField
            label={words.wished}
            unit={words.seconds}
            value={written.settings.lengthS}
            least={WISHED_S.least}
            most={WISHED_S.most}
            onChange={(value) => value !== null && void onCall(() => desk.pickFilm(value))}
          />
          <Button title={words.pickMore} onClick={() => void onCall(() => desk.pickFilm(written.settings.lengthS))}>
            {words.pick}
          </Button>
        </div>
      )}
      <PartList film={film} debrief={debrief} chosen={chosen} locked={locked} onChoose={onChoose} onMove={onMove} />
      {film.leftOut.length > 0 && (
        <details>
          <summary>{words.leftOut}</summary>
          <ul className="small quiet stack">
            {film.leftOut.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}
