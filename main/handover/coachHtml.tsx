import { debriefWords } from "../../overlay/words/debriefWords.ts";
import { Fragment, type ReactNode } from "react";
import type { DriftReading } from "../contract/reading.ts";
import { noticeTexts } from "../../overlay/words/notices/noticeText.ts";
import type { Language } from "../contract/languageAndUnits.ts";
import { againTable } from "../../overlay/words/againWords.ts";
import { coachWords, FIGURE_GROUPS, type CoachWords } from "../../overlay/words/coachWords.ts";
import { clockText } from "../../overlay/words/numbers.ts";
import { hourTable } from "../../overlay/words/reading/hourTable.ts";
import { shownRise } from "../../overlay/words/reading/shownRise.ts";
import { htmlPage } from "../page/htmlPage.tsx";
import { Bullets, NamedRows, Section, WideTable } from "../page/parts.tsx";
import { filmChapters } from "./filmText.ts";
import type { HandoverData } from "./handoverData.ts";
import { handoverWords, linesOf } from "./handoverLines.ts";
import { pageFacts } from "./pageFacts.ts";
import { wholeRideChart } from "./rideChart.ts";
import { RideChartSvg } from "./rideChartSvg.tsx";

/** Units that end a key, and how they are written. */
const UNITS: readonly (readonly [RegExp, string])[] = [
  [/Mps$/, "m/s"],
  [/Percent$/, "%"],
  [/Beats$/, "beats"],
  [/Bpm$/, "bpm"],
  [/Rpm$/, "rpm"],
  [/Deg$/, "degrees"],
  [/S$/, "s"],
  [/W$/, "W"],
  [/M$/, "m"],
];
/** Keys of the reading that say where the rider was: they stay out of every page. */
const PLACES = new Set(["firstPosition", "lastPosition"]);

/** `longestUnbrokenS` as its name, `longest unbroken`, and its unit, `s`; null where it has none. */
function keyLabel(key: string, words: CoachWords): { readonly label: string; readonly unit: string | null } {
  const unit = UNITS.find(([ending]) => ending.test(key));
  return unit === undefined
    ? { label: words.label(key), unit: null }
    : { label: words.label(key.replace(unit[0], "")), unit: words.unit(unit[1]) };
}

/** A figure as the coach's page prints it: at most two decimals, times with their clock, `unknown` where it can't be known. */
export function figure(key: string, value: unknown, language: Language = "en"): string {
  const words = coachWords(language);
  if (value === null || value === undefined) return words.unknown;
  if (typeof value === "boolean") return value ? words.yes : words.no;
  if (typeof value === "number") {
    const rounded = String(Math.round(value * 100) / 100);
    const plain = language === "de" ? rounded.replace(".", ",") : rounded;
    return key.endsWith("S") && Math.abs(value) >= 60 ? `${plain} (${clockText(value)})` : plain;
  }
  if (typeof value === "string") return words.value(value);
  if (Array.isArray(value))
    return value.length === 0
      ? words.none.slice(0, -1).toLowerCase()
      : value.map((one: unknown) => figure(key, one, language)).join("; ");
  return Object.entries(value as Record<string, unknown>)
    .map(([inner, one]) => {
      const { label, unit } = keyLabel(inner, words);
      return `${label} ${figure(inner, one, language)}${unit === null || one === null ? "" : ` ${unit}`}`;
    })
    .join(", ");
}

function Figures(props: { readonly title: string; readonly values: unknown; readonly language: Language }): ReactNode {
  const { title, values, language } = props;
  if (typeof values !== "object" || values === null) return null;
  const rows = Object.entries(values)
    .filter(([key]) => !PLACES.has(key))
    .map(([key, value]) => {
      const { label, unit } = keyLabel(key, coachWords(language));
      return [unit === null ? label : `${label}, ${unit}`, figure(key, value, language)] as const;
    });
  return (
    <Section title={title}>
      <NamedRows rows={rows} />
    </Section>
  );
}

function Table(props: {
  readonly title: string;
  readonly says: CoachWords;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** Said where there are no rows; absent: then the whole table is left out. */
  readonly empty?: string;
  /** The first cell of a row is its heading. */
  readonly named?: boolean;
  readonly note?: string;
}): ReactNode {
  const { title, says, columns, rows, empty, named = false, note } = props;
  if (rows.length === 0 && empty === undefined) return null;
  return (
    <Section title={title}>
      {rows.length === 0 ? (
        <p>{empty}</p>
      ) : (
        <WideTable label={says.table(title)} className="wide figures" columns={columns} rows={rows} named={named} />
      )}
      {note !== undefined && <p className="quiet">{note}</p>}
    </Section>
  );
}

function List({ title, items }: { readonly title: string; readonly items: readonly string[] }): ReactNode {
  return (
    items.length > 0 && (
      <Section title={title}>
        <Bullets items={items} />
      </Section>
    )
  );
}

/** What `read` prints: one sentence a line, a paragraph a section. */
function InWords({ title, lines }: { readonly title: string; readonly lines: readonly string[] }): ReactNode {
  if (lines.length === 0) return null;
  const sections = lines.join("\n").split("\n\n");
  return (
    <Section title={title}>
      {sections.map((section, index) => (
        <p key={index}>
          {section.split("\n").map((line, at) => (
            <Fragment key={at}>
              {at > 0 && <br />}
              {line.trim()}
            </Fragment>
          ))}
        </p>
      ))}
    </Section>
  );
}

/** Beats of the drift whole, as the words beside them have them, each with what it was before rounding. */
function inWholeBeats(values: unknown, drift: DriftReading, language: Language): unknown {
  if (typeof values !== "object" || values === null) return values;
  const { firstBpm, lastBpm, riseBeats, driftBeats, uncertaintyBeats } = drift;
  const both = (shown: number | null, exact: number | null) => {
    if (shown === null || exact === null) return exact;
    const plain = figure("", exact, language);
    return String(shown) === plain ? plain : `${shown} (${coachWords(language).beforeRounding(plain)})`;
  };
  const whole = (value: number | null) => both(value === null ? null : Math.round(value), value);
  return {
    ...values,
    firstBpm: whole(firstBpm),
    lastBpm: whole(lastBpm),
    riseBeats: both(shownRise(firstBpm, lastBpm)?.beats ?? null, riseBeats),
    driftBeats: whole(driftBeats),
    uncertaintyBeats: whole(uncertaintyBeats),
  };
}

/**
 * The coach's own page: the reading in sentences, every figure of the reading under its key, all moments (odd heart
 * readings too), what the coach overruled with the computed value beside it, why each item is in the film and what was
 * left out. In the debrief's language; for the coach's eyes only; it holds no place.
 */
export function coachHtml(data: HandoverData): string {
  const words = handoverWords(data);
  const { language } = data;
  const says = coachWords(language);
  const title = says.title(`${data.title ?? data.plan.title ?? data.ride.fileName}`);
  const chart = wholeRideChart(data, words, pageFacts(data));
  const json = data.readJson;
  const hours = hourTable(data.reading.base.hours, data.units, language);
  const again = againTable(data.story.facts.again, language, data.units);
  // The coach reads of the rider.
  const blockWords = debriefWords(language, null, "lesson").page;
  const chapters = filmChapters(data.film, data.reading.moments, words);
  const who = [data.plan.rider, data.dateText, data.ride.fileName].filter((one) => one !== null).join(", ");
  const warnings = noticeTexts([...data.ride.warnings, ...data.reading.warnings], language, "command");
  const body = (
    <>
      <header className="roomy">
        <h1>{title}</h1>
        <p className="quiet">{who}</p>
      </header>
      <main className="roomy">
        {data.withoutNote !== null && (
          <Section title={says.heldBack}>
            <p>{says.heldBackMore}</p>
            <Bullets items={linesOf(data.withoutNote, words)} />
          </Section>
        )}
        <InWords title={says.inWords} lines={data.readLines} />
        {chart !== null && (
          <figure>
            <RideChartSvg chart={chart} />
          </figure>
        )}
        {FIGURE_GROUPS.map((key) => (
          <Figures
            key={key}
            title={says.figures[key]}
            values={key === "drift" ? inWholeBeats(json[key], data.reading.drift, language) : json[key]}
            language={language}
          />
        ))}
        <Table
          title={blockWords.blocks}
          says={says}
          columns={blockWords.blockColumns}
          rows={data.story.facts.blocks.map((block) => blockWords.blockRow(block))}
          named
        />
        <Table title={says.byHour} says={says} columns={hours.columns} rows={hours.rows} />
        {again !== null && <Table {...again} says={says} />}
        <Table
          title={says.moments}
          says={says}
          columns={says.momentColumns}
          rows={data.reading.moments.map((moment) => [
            String(moment.rank),
            moment.coachOnly ? says.coachOnly(says.kind(moment.kind)) : says.kind(moment.kind),
            figure("startS", moment.startS, language),
            figure("endS", moment.endS, language),
            says.value(moment.reason),
            moment.excused !== null
              ? figure("", moment.excused, language)
              : moment.reason === "cannot tell"
                ? says.value(moment.reason)
                : "–",
            says.value(moment.setBy),
            figure("", moment.numbers, language),
          ])}
          empty={says.none}
        />
        <Table
          title={says.setByCoach}
          says={says}
          columns={says.setByCoachColumns}
          rows={data.reading.overrides.map((one) => [
            says.value(one.what),
            figure("", one.computed, language),
            figure("", one.set, language),
            one.reason ?? "",
          ])}
          empty={says.nothingSet}
        />
        <Table
          title={says.film}
          says={says}
          columns={says.filmColumns}
          rows={data.film.items.map((item, index) => [chapters[index]!.text, item.why])}
          empty={says.empty}
        />
        <List title={says.leftOut} items={data.film.leftOut} />
        <List title={says.warnings} items={warnings} />
      </main>
    </>
  );
  return htmlPage(language, title, body, data.fonts);
}
