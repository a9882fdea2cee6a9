import type { DebriefView } from "../../main/contract/debriefApi.ts";
import type { Film } from "../../main/contract/film.ts";
import type { FilmLook } from "../../main/contract/filmLook.ts";
import { durationText } from "../../overlay/words/numbers.ts";
import type { Calls } from "../look/useCalls.ts";
import { desk } from "../desk/desk.ts";
import { Button } from "../look/Button.tsx";
import { NumberField } from "../look/NumberField.tsx";
import { build as words } from "../words/build.ts";
import { Fold } from "./Fold.tsx";
import { LookForm } from "./LookForm.tsx";
import type { FoldOf } from "./useFolds.ts";

/** Shortest and longest film that the program picks, s. */
const WISHED_S = { least: 20, most: 1800 } as const;

interface Props {
  readonly debrief: DebriefView;
  readonly film: Film;
  readonly lengthS: number;
  readonly locked: boolean;
  readonly fold: FoldOf;
  readonly onLook: (value: Partial<FilmLook>, label: string) => void;
  readonly onCall: Calls["call"];
}

/** The film as a whole: how long it is, who picked it, what was left out, how the numbers stand on the picture. */
export function WholeFilm({ debrief, film, lengthS, locked, fold, onLook, onCall }: Props) {
  const { document: written } = debrief;
  const { settings } = written;
  return (
    <>
      <Fold title={words.whole} said={words.lasts(durationText(lengthS))} state={fold("film")}>
        <p className="quiet small">{written.filmSetBy === "coach" ? words.byCoach : words.byProgram}</p>
        {!locked && (
          <div className="row build-wished">
            <NumberField
              label={words.wished}
              unit={words.seconds}
              value={settings.lengthS}
              least={WISHED_S.least}
              most={WISHED_S.most}
              onChange={(value) => value !== null && void onCall(() => desk.pickFilm(value))}
            />
            <Button title={words.pickMore} onClick={() => void onCall(() => desk.pickFilm(settings.lengthS))}>
              {words.pick}
            </Button>
          </div>
        )}
        {film.leftOut.length > 0 && (
          <details>
            <summary>{words.leftOut}</summary>
            <ul className="small quiet stack build-left-out">
              {film.leftOut.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          </details>
        )}
      </Fold>
      <Fold title={words.look} said={words.lookSaid(Object.keys(settings.look ?? {}).length)} state={fold("look")}>
        <LookForm look={settings.look ?? {}} planUnits={written.plan.units} locked={locked} onChange={onLook} />
      </Fold>
    </>
  );
}
