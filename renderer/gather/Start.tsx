import type { AthleteEntry, PathId, RecentDebrief } from "../../main/contract/debriefApi.ts";
import { desk } from "../desk/desk.ts";
import { useAnswer } from "../desk/useAnswer.ts";
import { Button } from "../look/Button.tsx";
import { gather as words } from "../words/gather.ts";
import { RecentList } from "./RecentList.tsx";
import { StartThread } from "./StartThread.tsx";

interface Props {
  readonly over: boolean;
  readonly onChoose: () => void;
  readonly onOpen: (id: PathId) => void;
  readonly onOpenOther: () => void;
  readonly onOpenBatch: () => void;
  /** Null: it is being made. */
  readonly onExample: (() => void) | null;
  /** Begins with an athlete's defaults, then asks for files. */
  readonly onAthlete: (id: PathId) => void;
  readonly onAthletes: () => void;
}

/** The window without a debrief: a place to drop on, recent debriefs, athletes. */
export function Start({ over, onChoose, onOpen, onOpenOther, onOpenBatch, onExample, onAthlete, onAthletes }: Props) {
  const recent = useAnswer<readonly RecentDebrief[] | null>(
    () => desk.recent(),
    [],
    null,
    () => [],
  );
  const athletes = useAnswer<readonly AthleteEntry[]>(() => desk.athletes(), [], []);
  return (
    <div className="start">
      <section className={over ? "start-drop over" : "start-drop"} aria-labelledby="start-title">
        <StartThread />
        <div className="start-words">
          <h1 id="start-title">{over ? words.dropNow : words.drop}</h1>
          <p className="quiet">{words.dropMore}</p>
          <p className="start-legend">
            {words.legend.map((line) => (
              <span key={line}>{line}</span>
            ))}
          </p>
          <div className="row">
            <Button kind="main" keys="f" onClick={onChoose}>
              {words.choose}
            </Button>
            <Button keys="d" onClick={onOpenOther}>
              {words.openDebrief}
            </Button>
            <Button keys="b" onClick={onOpenBatch}>
              {words.openBatch}
            </Button>
            <Button keys="e" title={words.exampleMore} disabled={onExample === null} onClick={() => onExample?.()}>
              {words.example}
            </Button>
          </div>
        </div>
      </section>
      <div className="start-below">
        <RecentList recent={recent} onOpen={onOpen} />
        <AthleteStart athletes={athletes} onAthlete={onAthlete} onAthletes={onAthletes} />
        <BeforeYouFilm />
      </div>
    </div>
  );
}

/** The athletes that a debrief may be begun for. */
function AthleteStart({
  athletes,
  onAthlete,
  onAthletes,
}: Pick<Props, "onAthlete" | "onAthletes"> & { readonly athletes: readonly AthleteEntry[] }) {
  return (
    <section className="part" aria-labelledby="athletes-title">
      <header>
        <h2 id="athletes-title">{words.athletes}</h2>
        <Button kind="bare" onClick={onAthletes}>
          {athletes.length === 0 ? words.newAthlete : words.athletesMore}
        </Button>
      </header>
      {athletes.length === 0 ? (
        <p className="quiet">{words.athletesNone}</p>
      ) : (
        <ul className="rows">
          {athletes.slice(0, 5).map((athlete) => (
            <li key={athlete.id} className="firm">
              <button
                type="button"
                className="start-open"
                aria-label={words.useAthlete(athlete.name)}
                onClick={() => onAthlete(athlete.id)}
              >
                <span className="name">{athlete.name}</span>
                <span className="quiet">
                  {[words.debriefs(athlete.debriefs), ...athlete.lines.slice(0, 1)].join(", ")}
                </span>
              </button>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

/** What is to be done before one films, and what never. */
function BeforeYouFilm() {
  return (
    <section className="part" aria-labelledby="before-title">
      <header>
        <h2 id="before-title">{words.before}</h2>
      </header>
      <ul className="start-before">
        {words.beforeLines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <p className="quiet small">{words.caution}</p>
    </section>
  );
}
