import { Fragment, type ReactNode } from "react";
import type { DriftReading } from "../contract/reading.ts";
import { noticeTexts } from "../../overlay/words/notices/noticeText.ts";
import { clockText } from "../../overlay/words/numbers.ts";
import { hourTable } from "../../overlay/words/reading/hourTable.ts";
import { shownRise } from "../../overlay/words/reading/shownRise.ts";
import { htmlPage } from "../page/htmlPage.tsx";
import { Bullets, NamedRows, Section, WideTable } from "../page/parts.tsx";
import { filmChapters } from "./filmText.ts";
import type { HandoverData } from "./handoverData.ts";
import { handoverWords } from "./handoverLines.ts";
import { pageFacts } from "./pageFacts.ts";
import { rideChart } from "./rideChart.ts";
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

/** `longestUnbrokenS` as `longest unbroken, s`. */
function keyLabel(key: string): string {
  const unit = UNITS.find(([ending]) => ending.test(key));
  const plain = (unit === undefined ? key : key.replace(unit[0], ""))
    .replaceAll(/([a-z])([A-Z])/g, "$1 $2")
    .toLowerCase();
  return unit === undefined ? plain : `${plain}, ${unit[1]}`;
}

/** A figure as the coach's page prints it: at most two decimals, times with their clock, `unknown` where it can't be known. */
export function figure(key: string, value: unknown): string {
  if (value === null || value === undefined) return "unknown";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "number") {
    const plain = String(Math.round(value * 100) / 100);
    return key.endsWith("S") && Math.abs(value) >= 60 ? `${plain} (${clockText(value)})` : plain;
  }
  if (typeof value === "string") return value;
  if (Array.isArray(value))
    return value.length === 0 ? "none" : value.map((one: unknown) => figure(key, one)).join("; ");
  return Object.entries(value as Record<string, unknown>)
    .map(([inner, one]) => {
      const [label, unit] = keyLabel(inner).split(", ");
      return `${label} ${figure(inner, one)}${unit === undefined || one === null ? "" : ` ${unit}`}`;
    })
    .join(", ");
}

function Figures({ title, values }: { readonly title: string; readonly values: unknown }): ReactNode {
  if (typeof values !== "object" || values === null) return null;
  const rows = Object.entries(values)
    .filter(([key]) => !PLACES.has(key))
    .map(([key, value]) => [keyLabel(key), figure(key, value)] as const);
  return (
    <Section title={title}>
      <NamedRows rows={rows} />
    </Section>
  );
}

function Table(props: {
  readonly title: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
  readonly empty: string;
}): ReactNode {
  const { title, columns, rows, empty } = props;
  const label = `${title}, table`;
  return (
    <Section title={title}>
      {rows.length === 0 ? (
        <p>{empty}</p>
      ) : (
        <WideTable label={label} className="wide figures" columns={columns} rows={rows} named={false} />
      )}
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
function InWords({ lines }: { readonly lines: readonly string[] }): ReactNode {
  if (lines.length === 0) return null;
  const sections = lines.join("\n").split("\n\n");
  return (
    <Section title="In words">
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
function inWholeBeats(values: unknown, drift: DriftReading): unknown {
  if (typeof values !== "object" || values === null) return values;
  const { firstBpm, lastBpm, riseBeats, driftBeats, uncertaintyBeats } = drift;
  const both = (shown: number | null, exact: number | null) => {
    if (shown === null || exact === null) return exact;
    const plain = figure("", exact);
    return String(shown) === plain ? plain : `${shown} (${plain} before rounding)`;
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
 * left out. English: it speaks the words of the analysis. For the coach's eyes only; it holds no place.
 */
export function coachHtml(data: HandoverData): string {
  const words = handoverWords(data);
  const facts = pageFacts(data);
  const title = `Coach's page: ${data.title ?? data.plan.title ?? data.ride.fileName}`;
  const chart = rideChart(data, words, facts, {
    id: "ride",
    fromS: 0,
    toS: data.ride.grid.seconds,
    title: words.film.chartTitle(data.story),
    moment: null,
    heart: true,
  });
  const json = data.readJson;
  const hours = hourTable(data.reading.base.hours, data.units);
  const chapters = filmChapters(data.film, data.reading.moments, words);
  const who = [data.plan.rider, data.dateText, data.ride.fileName].filter((one) => one !== null).join(", ");
  const warnings = noticeTexts([...data.ride.warnings, ...data.reading.warnings], "en", "command");
  const body = (
    <>
      <header className="roomy">
        <h1>{title}</h1>
        <p className="quiet">{who}</p>
      </header>
      <main className="roomy">
        <InWords lines={data.readLines} />
        {chart !== null && (
          <figure>
            <RideChartSvg chart={chart} />
          </figure>
        )}
        {["ride", "counted", "pressure", "cadence", "drift", "target"].map((key) => (
          <Figures
            key={key}
            title={key[0]!.toUpperCase() + key.slice(1)}
            values={key === "drift" ? inWholeBeats(json[key], data.reading.drift) : json[key]}
          />
        ))}
        {hours.rows.length > 0 && <Table title="By the hour" columns={hours.columns} rows={hours.rows} empty="" />}
        <Table
          title="Moments"
          columns={["rank", "kind", "from", "to", "reason", "excused", "set by", "numbers"]}
          rows={data.reading.moments.map((moment) => [
            String(moment.rank),
            moment.coachOnly ? `${moment.kind} (coach only)` : moment.kind,
            figure("startS", moment.startS),
            figure("endS", moment.endS),
            moment.reason,
            moment.excused !== null
              ? figure("", moment.excused)
              : moment.reason === "cannot tell"
                ? moment.reason
                : "–",
            moment.setBy,
            figure("", moment.numbers),
          ])}
          empty="None."
        />
        <Table
          title="Set by coach"
          columns={["what", "computed", "set", "why"]}
          rows={data.reading.overrides.map((one) => [
            one.what,
            figure("", one.computed),
            figure("", one.set),
            one.reason ?? "",
          ])}
          empty="Nothing was overruled."
        />
        <Table
          title="The film"
          columns={["shot or card", "why it is in"]}
          rows={data.film.items.map((item, index) => [chapters[index]!.text, item.why])}
          empty="Empty."
        />
        <List title="Left out" items={data.film.leftOut} />
        <List title="Warnings" items={warnings} />
      </main>
    </>
  );
  return htmlPage("en", title, body, data.fonts);
}
