import { useEffect, useState } from "react";
import type { DebriefView, HandOverChoices, HandOverPlan } from "../../main/contract/debriefApi.ts";
import type { FilmSettings } from "../../main/contract/debrief.ts";
import { clipsShownBy } from "../../main/contract/film.ts";
import type { FailureData } from "../../main/contract/failure.ts";
import { durationText } from "../../overlay/words/numbers.ts";
import { desk } from "../desk/desk.ts";
import { useDebrief, useDesk } from "../desk/useDesk.ts";
import { Button } from "../look/Button.tsx";
import { FailureNote } from "../look/FailureNote.tsx";
import { bytesText } from "../look/bytesText.ts";
import { useAnswer } from "../desk/useAnswer.ts";
import { failureOf } from "../desk/failureOf.ts";
import { useKeys } from "../look/keys.ts";
import { useCalls } from "../look/useCalls.ts";
import { handover as words } from "../words/handover.ts";
import { TaughtParts } from "../build/TaughtParts.tsx";
import { PlanShown } from "./PlanShown.tsx";
import { ChoiceForm } from "./ChoiceForm.tsx";
import { JobList } from "./JobList.tsx";
import { OwnWords } from "./OwnWords.tsx";
import { PageSeen } from "./PageSeen.tsx";
import { WatchFilm } from "./WatchFilm.tsx";
import "./handover.css";

/** Hand over: for whom, as what, what is written where, what has to be agreed to; then the work itself. */
export function HandOver() {
  const { jobs } = useDesk();
  const debrief = useDebrief();
  const { settings } = debrief.document;
  const [choices, setChoices] = useChoices(settings);
  const [agreed, setAgreed] = useState<readonly string[]>([]);
  const { plan, failure: planFailure } = usePlan(
    choices,
    debrief.edit,
    jobs.filter(({ what, state }) => what === "hand over" && state === "done").length,
  );
  const lesson = choices.forWhom === "lesson";
  const edits = useCalls();
  const giving = useCalls();
  const open = plan === null ? [] : plan.asks.filter((ask) => !agreed.includes(ask.key));
  const away = footageAway(debrief);
  const ready =
    plan !== null &&
    open.length === 0 &&
    debrief.film !== null &&
    away === "" &&
    !edits.busy &&
    !giving.busy &&
    debrief.readOnly === null;
  const own = jobs.filter(
    (job) => (job.what === "film" || job.what === "hand over") && job.debriefFolder === debrief.folder,
  );
  // Asked for while the last words are still on their way, it starts once they have arrived.
  const { call: give } = giving;
  const failure = edits.failure ?? giving.failure;
  const [asked, setAsked] = useState(false);
  const waits = planFailure === null && away === "" && !giving.busy && (edits.busy || plan === null);
  const start = () => setAsked(ready || waits);
  useEffect(() => {
    if (!asked || waits) return;
    setAsked(false);
    if (ready) void give(() => desk.handOver({ ...choices, agreed }));
  }, [asked, waits, ready, choices, agreed, give]);
  useKeys(words.title, [{ keys: "Ctrl+Enter", words: words.go, run: start, inFields: true }]);

  return (
    <main className="handover">
      <GoOn
        plan={plan}
        asked={open.length > 0}
        again={own.some((job) => job.state === "done")}
        disabled={!ready && !waits}
        onStart={start}
      />
      <div className="stack wide">
        {plan !== null && plan.film.items.length > 0 && <WatchFilm film={plan.film} choices={choices} />}
        {debrief.film !== null && <PageSeen choices={choices} edit={debrief.edit} />}
      </div>
      <div className="stack wide">
        <ForWhom
          choices={choices}
          lengthS={debrief.filmLengthS}
          slowed={hasSlowed(debrief)}
          onChange={(next) => {
            setChoices(next);
            setAgreed([]);
          }}
        />
        <OwnWords {...{ debrief, said: plan?.words ?? null, lesson }} onFailure={edits.call} />
        <section className="part" aria-labelledby="written-title">
          <header>
            <h2 id="written-title">{words.written}</h2>
          </header>
          <TaughtParts debrief={debrief} onCall={edits.call} />
          <PlanShown {...{ plan, failure: planFailure, choices, agreed }} onChoices={setChoices} onAgree={setAgreed} />
          {debrief.film === null && <p className="note unsure">{words.noFilm}</p>}
          {away !== "" && <p className="note wrong">{words.away(away)}</p>}
          {failure !== null && <FailureNote failure={failure} />}
        </section>
        <JobList jobs={own} onCall={give} />
        <p className="quiet small">{words.caution}</p>
      </div>
    </main>
  );
}

interface GoOnProps {
  readonly plan: HandOverPlan | null;
  /** Something has to be agreed to first. */
  readonly asked: boolean;
  readonly again: boolean;
  readonly disabled: boolean;
  readonly onStart: () => void;
}

/**
 * What is done next, always in sight at the bottom: how long it takes, and the button. For Tab it comes first: most
 * debriefs go out as they are, and from any field Ctrl Enter does the same.
 */
function GoOn({ plan, asked, again, disabled, onStart }: GoOnProps) {
  return (
    <div className="handover-go row apart">
      <p>{plan !== null && words.estimate(durationText(plan.estimateS), bytesText(plan.estimateBytes))}</p>
      <div className="row">
        {asked && (
          <Button kind="bare" onClick={toFirstAsk}>
            {words.notYet}
          </Button>
        )}
        <Button kind="main" keys="Ctrl+Enter" disabled={disabled} onClick={onStart}>
          {again ? words.again : words.go}
        </Button>
      </div>
    </div>
  );
}

/** The focus goes to the first thing that has to be agreed to. */
function toFirstAsk(): void {
  document.querySelector<HTMLElement>(".handover-ask input:not(:checked)")?.focus();
}

type Choices = Omit<HandOverChoices, "agreed">;

/** As the debrief's settings say until something else is chosen; an undo of those is seen here, too. */
function useChoices(settings: FilmSettings): [Choices, (choices: Choices) => void] {
  const { forWhom, preset, language, asPercent, playingPage = false, slowSound = "stretched" } = settings;
  const set = { forWhom, preset, language, asPercent, playingPage, slowSound };
  const [choices, setChoices] = useState<Choices>(set);
  useEffect(
    () => setChoices(({ into }) => ({ ...set, into })),
    [forWhom, preset, language, asPercent, playingPage, slowSound],
  );
  return [choices, setChoices];
}

interface ForWhomProps {
  readonly choices: Omit<HandOverChoices, "agreed">;
  readonly lengthS: number | null;
  readonly slowed: boolean;
  readonly onChange: (choices: Omit<HandOverChoices, "agreed">) => void;
}

/** For whom, as what film. */
function ForWhom({ choices, lengthS, slowed, onChange }: ForWhomProps) {
  return (
    <section className="part" aria-labelledby="handover-title">
      <header>
        <h1 id="handover-title">{words.title}</h1>
        {lengthS !== null && <span className="quiet">{words.filmLength(durationText(lengthS))}</span>}
      </header>
      <ChoiceForm choices={choices} slowed={slowed} onChange={onChange} />
    </section>
  );
}

/** `handedOver`: after each hand-over the program knows better how long one takes here. */
function usePlan(
  choices: Omit<HandOverChoices, "agreed">,
  edit: number,
  handedOver: number,
): { readonly plan: HandOverPlan | null; readonly failure: FailureData | null } {
  const { forWhom, preset, language, asPercent, playingPage, slowSound, into } = choices;
  return useAnswer<{ readonly plan: HandOverPlan | null; readonly failure: FailureData | null }>(
    async () => ({
      plan: await desk.planHandOver({ forWhom, preset, language, asPercent, playingPage, slowSound, into, agreed: [] }),
      failure: null,
    }),
    [forWhom, preset, language, asPercent, playingPage, slowSound, into, edit, handedOver],
    { plan: null, failure: null },
    (error) => ({ plan: null, failure: failureOf(error) }),
  );
}

/** Names of the clips that parts of the film show and that are not where they were: those parts can't be rendered; empty: none. */
function footageAway({ film, missingMedia }: DebriefView): string {
  const shown = new Set(film?.items.flatMap(clipsShownBy));
  return missingMedia
    .filter(({ id }) => shown.has(id))
    .map(({ name }) => name)
    .join(", ");
}

/** True where a shot of the film runs slower than life, so that its sound has to be stretched or left out. */
function hasSlowed({ film }: DebriefView): boolean {
  return film?.items.some((item) => item.type === "shot" && item.speed < 1) ?? false;
}
