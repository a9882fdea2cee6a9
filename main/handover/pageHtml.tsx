import type { ReactNode } from "react";
import type { DebriefPhrases, PageFacts } from "../../overlay/words/debriefPhrases.ts";
import { durationText } from "../../overlay/words/numbers.ts";
import { htmlPage } from "../page/htmlPage.tsx";
import { NamedRows, Bullets, PageHead, Section, WideTable } from "../page/parts.tsx";
import { base64 } from "./base64.ts";
import { type EventLadder, EventLadderSvg } from "./eventLadderSvg.tsx";
import { type HandoverData, type Still, handoverTitle, momentTitle, shownMoments } from "./handoverData.ts";
import { skillRows, skillWords } from "../../overlay/words/skillWords.ts";
import { handoverWords, questionsFor, threeLines, toldStory, wentWell } from "./handoverLines.ts";
import { pageFacts } from "./pageFacts.ts";
import { CONTEXT_S, rideChart, wholeRideChart } from "./rideChart.ts";
import { RideChartSvg } from "./rideChartSvg.tsx";

/** More moments than this stand three in a row on paper. */
const MANY_MOMENTS = 6;

/** Moments that the heart tells, not the power. */
const HEART_KINDS = new Set(["driftOnset", "oddHeart"]);

interface Told {
  readonly data: HandoverData;
  readonly words: DebriefPhrases;
  readonly facts: PageFacts;
}

function Note({ text }: { readonly text: string }): ReactNode {
  const lines = text.split("\n").filter((line) => line.trim() !== "");
  return (
    <div className="note">
      {lines.map((line, index) => (
        <p key={index}>{line}</p>
      ))}
    </div>
  );
}

function SetByCoach({ words, shown }: { readonly words: DebriefPhrases; readonly shown: boolean }): ReactNode {
  return (
    shown && (
      <>
        {" "}
        <span className="quiet">({words.page.setByCoach})</span>
      </>
    )
  );
}

function ThreeLines({ data, words }: Told): ReactNode {
  const { page } = words;
  const [, change, next] = threeLines(data, words);
  return (
    <Section title={page.three}>
      <ul className="three">
        <li>
          <b>{page.wentWell}</b>
          <span>{wentWell(data, words)}</span>
        </li>
        <li className="gap">
          <b>{page.toChange}</b>
          <span>{change}</span>
        </li>
        <li>
          <b>{page.nextRide}</b>
          <span>{next}</span>
        </li>
      </ul>
    </Section>
  );
}

/** Where the rider's note comes first, shares of the plan would be a verdict: what was ridden is said without them. */
function withoutVerdict({ story }: HandoverData, facts: PageFacts): PageFacts {
  return story.teaching === "rest" ? { ...facts, facts: { ...facts.facts, shares: null, pressed: null } } : facts;
}

function PlanTable({ data, words, facts }: Told): ReactNode {
  const { page } = words;
  const { counted, overrides } = data.reading;
  const countedSet = counted.source === "coach" || overrides.some((one) => one.what === "counted");
  return (
    <table>
      <thead>
        <tr>
          {page.columns.map((column, index) =>
            index === 0 ? (
              <td key={index} />
            ) : (
              <th scope="col" key={index}>
                {column}
              </th>
            ),
          )}
        </tr>
      </thead>
      <tbody>
        {page.rows(withoutVerdict(data, facts)).map((row, index) => (
          <tr key={index}>
            <th scope="row">{row.label}</th>
            <td>{row.plan}</td>
            <td>
              {row.ride}
              <SetByCoach words={words} shown={index === 0 && countedSet} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function WholeRide({ data, words, facts }: Told): ReactNode {
  const { page } = words;
  const { ride, reading } = data;
  const title = words.film.chartTitle(data.story);
  const chart = wholeRideChart(data, words, facts, true);
  if (chart === null) return null;
  const heart = ride.grid.heartRate === null ? [] : page.heart(reading.drift, data.story.facts.drift);
  return (
    <Section title={title}>
      <figure>
        <RideChartSvg chart={chart} />
        {heart.length > 0 && (
          <figcaption>
            {heart.join(" ")}
            <SetByCoach
              words={words}
              shown={reading.overrides.some((one) => ["first", "last", "onset"].includes(one.what))}
            />
          </figcaption>
        )}
      </figure>
    </Section>
  );
}

function StillPicture({ still, alt }: { readonly still: Still; readonly alt: string }): ReactNode {
  const [type, bytes] = still.jpeg === null ? ["image/png", still.png] : ["image/jpeg", still.jpeg];
  return <img src={`data:${type};base64,${base64(bytes)}`} width={still.widthPx} height={still.heightPx} alt={alt} />;
}

/** A moment by its still, else by its stretch of the ride, else in words alone. */
function MomentSection(props: Told & { readonly index: number; readonly number: number }): ReactNode {
  const { data, words, facts, index, number } = props;
  const { page } = words;
  const moment = data.reading.moments[index]!;
  const name = momentTitle(data, words, index);
  const began = moment.kind === "driftOnset";
  const heading = page.momentHeading(name, began ? (data.reading.drift.onsetS ?? moment.startS) : moment.startS, began);
  const sentence = page.momentSentence(words.film.caption(data.momentFacts[index]!));
  const caption = (
    <>
      {sentence}
      <SetByCoach words={words} shown={moment.setBy === "coach"} />
    </>
  );
  const still = data.stills.find((one) => one.moment === index);
  const chart =
    still === undefined
      ? rideChart(data, words, facts, {
          id: `moment-${index}`,
          fromS: moment.startS - CONTEXT_S,
          toS: moment.endS + CONTEXT_S,
          title: name,
          moment,
          heart: HEART_KINDS.has(moment.kind),
        })
      : null;
  const note = data.forWhom === "lesson" ? undefined : data.momentNotes.get(index);
  return (
    <section className="told">
      <h3>
        <span className="number">{number}</span>
        {heading}
      </h3>
      {still === undefined && chart === null ? (
        <p>{caption}</p>
      ) : (
        <figure className="moment">
          {still !== undefined && <StillPicture still={still} alt={page.stillAlt(name, moment.startS)} />}
          {chart !== null && <RideChartSvg chart={{ ...chart, alt: `${heading}. ${sentence}` }} />}
          <figcaption>{caption}</figcaption>
        </figure>
      )}
      {note !== undefined && <Note text={note} />}
    </section>
  );
}

/** As the beginning of a sentence. */
const sentenceCase = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function EventSection({ data, words }: Told): ReactNode {
  const story = toldStory(data);
  const { event } = story;
  if (event === null) return null;
  const { page } = words;
  const lines = page.eventLines(event, story);
  const held = page.heldText(event.heldLowS, event.heldHighS);
  const asked = (label: string, seconds: number): EventLadder["rungs"][number] => ({
    label,
    text: durationText(seconds),
    lowS: seconds,
    highS: seconds,
    kind: "asked",
  });
  const rungs: EventLadder["rungs"] = [
    asked(page.eventKeys.event, event.eventS),
    ...(story.hasHeart ? [asked(page.eventKeys.least, event.leastS), asked(page.eventKeys.aim, event.aimS)] : []),
    ...(event.heldLowS === null
      ? []
      : [
          {
            label: page.eventKeys.held,
            text: held,
            lowS: event.heldLowS,
            highS: event.heldHighS,
            kind: "ridden" as const,
          },
        ]),
  ];
  return (
    <section className="whole">
      <h2>{page.event}</h2>
      {lines.map((line, index) => (
        <p key={index}>{line}</p>
      ))}
      <figure>
        <EventLadderSvg
          ladder={{
            title: page.event,
            alt: [
              ...lines,
              ...(event.heldLowS === null ? [] : [`${sentenceCase(page.eventKeys.held)}: ${held}.`]),
            ].join(" "),
            rungs,
          }}
        />
      </figure>
      {event.weeks.length > 0 && (
        <>
          <p>{page.weeksIntro}</p>
          <Bullets items={event.weeks.map((week) => page.weekLine(week))} />
        </>
      )}
    </section>
  );
}

/** Planned blocks one by one: what was asked, what was ridden, how evenly. */
function BlockTable({ data, words }: Told): ReactNode {
  const { blocks } = data.story.facts;
  if (blocks.length === 0) return null;
  const { page } = words;
  // Where the rider's note comes first, the table says what was asked and ridden, and no verdict on it.
  const cells = data.story.teaching === "rest" ? 3 : undefined;
  return (
    <Section title={page.blocks}>
      <WideTable
        label={page.blocks}
        className="wide"
        columns={page.blockColumns.slice(0, cells)}
        rows={blocks.map((block) => page.blockRow(block).slice(0, cells))}
        named
      />
    </Section>
  );
}

/** Skills to practise, with the coach's tick. */
function Practice({ data }: Told): ReactNode {
  const { skills } = data.planFacts;
  if (skills.length === 0) return null;
  const rows = skillRows(skills, data.language).map(({ label, value }) => [label, value] as const);
  return (
    <Section title={skillWords(data.language).title}>
      <NamedRows rows={rows} />
    </Section>
  );
}

/**
 * The athlete's debrief as one HTML file that works offline and without scripts, on a phone and on paper. Plain
 * sentences from the phrase table; every number from the reading. A lesson has no name, day, place or note in it.
 */
export function pageHtml(data: HandoverData): string {
  const words = handoverWords(data);
  const { page } = words;
  const told: Told = { data, words, facts: pageFacts(data) };
  const lesson = data.forWhom === "lesson";
  const title = handoverTitle(data, words);
  const who = lesson ? [] : [data.plan.rider, data.dateText].filter((one) => one !== null);
  const moments = shownMoments(data);
  const questions = questionsFor(data, words);
  // Tables that fill the first page, and no pictures: what is left has the second for itself, and takes its room.
  const endsAlone = moments.length === 0 && data.plan.blocks.length + (data.plan.skills?.length ?? 0) > 0;
  const body = (
    <>
      <PageHead title={title} who={who} />
      <main>
        <ThreeLines {...told} />
        {data.notes !== null && !lesson && (
          <Section title={page.notes}>
            <Note text={data.notes} />
          </Section>
        )}
        <div className="beside">
          <div>
            <Section title={page.planAndRide}>
              <PlanTable {...told} />
            </Section>
            <BlockTable {...told} />
            <Practice {...told} />
          </div>
          <WholeRide {...told} />
        </div>
        {moments.length > 0 && (
          <Section title={page.moments}>
            <div className={moments.length > MANY_MOMENTS ? "tiles many" : "tiles"}>
              {moments.map((index, at) => (
                <MomentSection key={index} {...told} index={index} number={at + 1} />
              ))}
            </div>
          </Section>
        )}
        <div className={endsAlone ? "ending alone" : "ending"}>
          <EventSection {...told} />
          {questions.length > 0 && (
            <Section title={page.questions}>
              <ol>
                {questions.map((question, index) => (
                  <li key={index}>{question}</li>
                ))}
              </ol>
            </Section>
          )}
          <Section title={page.cautionsTitle}>
            <Bullets items={page.cautions} />
          </Section>
        </div>
      </main>
      <footer>
        <p>{page.footer}</p>
      </footer>
    </>
  );
  return htmlPage(words.language, [title, ...who].join(", "), body, data.fonts);
}
