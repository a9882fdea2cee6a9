import { Fragment, type ReactNode } from "react";
import type { PageFont } from "../contract/pageFont.ts";
import { axisTicks, timeTicks } from "../page/axisTicks.ts";
import { htmlPage } from "../page/htmlPage.tsx";
import { Bullets, CHART_WIDTH, Drawing, Section, WideTable, fixed, hourMinute } from "../page/parts.tsx";
import { durationText, fixedText, wholeText } from "../../overlay/words/numbers.ts";
import type { Language } from "../contract/languageAndUnits.ts";
import { type WeeksPhrases, heldWords, weeksWords } from "../../overlay/words/weeksWords.ts";
import type { WeeksGroup, WeeksLog } from "./weeksLog.ts";
import { couldTell, type WeeksRide } from "./weeksRide.ts";
import { roadTable } from "./roadTable.ts";
import type { WeeksRoad } from "./weeksRoads.ts";

const LEFT = 44;
const RIGHT = CHART_WIDTH - 12;
const TOP = 26;
const HEIGHT = 150;
/** The first and last ride stand so far inside the axis. */
const INSET = 12;

/** Day of a ride where it was ridden: `2026-05-17` (ISO 8601), by the file's own offset where it has one. */
function rideDay(ride: WeeksRide): string {
  return new Date(ride.startUtcMs + (ride.figures.utcOffsetMin ?? 0) * 60_000).toISOString().slice(0, 10);
}

interface Plot {
  readonly group: WeeksGroup;
  readonly id: string;
  readonly title: string;
  readonly alt: string;
  readonly axis: string;
  readonly ticks: readonly number[];
  readonly tickText: (value: number) => string;
  readonly marks: (x: (utcMs: number) => number, y: (value: number) => number) => ReactNode;
}

function PlotSvg({ group, id, title, alt, axis, ticks, tickText, marks }: Plot): ReactNode {
  const first = group.rides[0]!;
  const last = group.rides.at(-1)!;
  const spanMs = Math.max(1, last.startUtcMs - first.startUtcMs);
  const x = (utcMs: number): number =>
    LEFT + INSET + ((utcMs - first.startUtcMs) / spanMs) * (RIGHT - LEFT - 2 * INSET);
  const low = ticks[0]!;
  const high = ticks.at(-1)!;
  const y = (value: number): number => TOP + HEIGHT - ((value - low) / (high - low)) * HEIGHT;
  const single = group.rides.length === 1;
  return (
    <Drawing id={id} title={title} alt={alt} height={TOP + HEIGHT + 26}>
      <text x={LEFT} y={TOP - 10} className="strong">
        {axis}
      </text>
      {ticks.map((tick) => (
        <Fragment key={tick}>
          <path className="grid" d={`M${LEFT} ${fixed(y(tick))}H${RIGHT}`} />
          <text x={LEFT - 5} y={fixed(y(tick) + 4)} textAnchor="end">
            {tickText(tick)}
          </text>
        </Fragment>
      ))}
      {marks(x, y)}
      <text x={single ? LEFT + INSET : LEFT} y={TOP + HEIGHT + 18}>
        {rideDay(first)}
      </text>
      {!single && (
        <text x={RIGHT} y={TOP + HEIGHT + 18} textAnchor="end">
          {rideDay(last)}
        </text>
      )}
    </Drawing>
  );
}

interface GroupPlot {
  readonly group: WeeksGroup;
  readonly words: WeeksPhrases;
  readonly alt: string;
}

/** A point a ride, full where the ride is alike, hollow where it is not compared. */
function DriftPlot({ group, words, alt }: GroupPlot): ReactNode {
  const rides = group.rides.filter(couldTell);
  const ends = rides.flatMap(({ figures }) => [
    figures.driftBeats! - (figures.uncertaintyBeats ?? 0),
    figures.driftBeats! + (figures.uncertaintyBeats ?? 0),
  ]);
  const { trend } = group;
  return (
    <PlotSvg
      group={group}
      id={`${group.place}-drift`}
      title={words.drift}
      alt={alt}
      axis={words.driftAxis}
      ticks={axisTicks(Math.min(0, ...ends), Math.max(1, ...ends), 6)}
      tickText={fixed}
      marks={(x, y) => (
        <>
          {trend !== null && (
            <path
              className="trend"
              d={
                `M${fixed(x(trend.fromUtcMs))} ${fixed(y(trend.fromBeats))}` +
                `L${fixed(x(trend.toUtcMs))} ${fixed(y(trend.toBeats))}`
              }
            />
          )}
          {rides.map(({ startUtcMs, like, figures }, index) => {
            const beats = figures.driftBeats!;
            const spread = figures.uncertaintyBeats;
            const at = fixed(x(startUtcMs));
            return (
              <Fragment key={index}>
                {spread !== null && (
                  <path className="axis" d={`M${at} ${fixed(y(beats - spread))}V${fixed(y(beats + spread))}`} />
                )}
                <circle className={like ? "ridden" : "maybe"} cx={at} cy={fixed(y(beats))} r="4" />
              </Fragment>
            );
          })}
        </>
      )}
    />
  );
}

/** A held time: full to its lower end, hatched to its upper; "at least" ends in an arrow, never in a point. */
function HeldBar(props: {
  readonly at: number;
  readonly zero: number;
  readonly low: number;
  readonly high: number | null;
}): ReactNode {
  const { at, zero, low, high } = props;
  if (high === null)
    return (
      <>
        <rect className="ridden" x={fixed(at - 4)} y={fixed(low)} width="8" height={fixed(zero - low)} />
        <path className="ridden" d={`M${fixed(at - 8)} ${fixed(low)}h16l-8 -9z`} />
      </>
    );
  return (
    <>
      <rect className="ridden" x={fixed(at - 4)} y={fixed(low)} width="8" height={fixed(Math.max(1, zero - low))} />
      <rect className="maybe" x={fixed(at - 4)} y={fixed(high)} width="8" height={fixed(Math.max(0, low - high))} />
    </>
  );
}

/** True where a ride could tell how long it held without drift. */
function toldHeld(ride: WeeksRide): boolean {
  return ride.figures.heldLowS !== null && couldTell(ride);
}

function HeldPlot({ group, words, alt }: GroupPlot): ReactNode {
  const rides = group.rides.filter(toldHeld);
  const leastS = group.rides.at(-1)!.figures.leastS;
  const most = Math.max(
    3600,
    leastS ?? 0,
    ...rides.map(({ figures }) => (figures.heldHighS ?? figures.heldLowS!) * 1.08),
  );
  const inner = timeTicks(0, most, 6);
  const stepS = inner[1]! - inner[0]!;
  return (
    <PlotSvg
      group={group}
      id={`${group.place}-held`}
      title={words.held}
      alt={alt}
      axis={words.heldAxis}
      ticks={inner.at(-1)! >= most ? inner : [...inner, inner.at(-1)! + stepS]}
      tickText={hourMinute}
      marks={(x, y) => (
        <>
          {leastS !== null && (
            <>
              <path className="tick" strokeDasharray="6 4" d={`M${LEFT} ${fixed(y(leastS))}H${RIGHT}`} />
              <text x={RIGHT} y={fixed(y(leastS) - 5)} textAnchor="end">
                {words.least}
              </text>
            </>
          )}
          {rides.map(({ startUtcMs, figures: { heldLowS, heldHighS } }, index) => (
            <HeldBar
              key={index}
              at={x(startUtcMs)}
              zero={y(0)}
              low={y(heldLowS!)}
              high={heldHighS === null ? null : y(heldHighS)}
            />
          ))}
        </>
      )}
    />
  );
}

function heldOf(ride: WeeksRide, words: WeeksPhrases): string {
  const { heldLowS, heldHighS } = ride.figures;
  return couldTell(ride) ? heldWords(words, heldLowS, heldHighS) : words.unknown;
}

function rowCells(ride: WeeksRide, words: WeeksPhrases): string[] {
  const { figures } = ride;
  const or = (value: number | null, text: (known: number) => string): string =>
    value === null ? words.unknown : text(value);
  const tells = couldTell(ride);
  const give = or(
    tells ? figures.driftBeats : null,
    (beats) =>
      `${fixedText(beats, 1)}${figures.uncertaintyBeats === null ? "" : ` ±${fixedText(figures.uncertaintyBeats, 1)}`}`,
  );
  return [
    `${rideDay(ride)}${figures.title === null ? "" : `, ${figures.title}`}`,
    durationText(figures.countedS),
    or(
      figures.meanW,
      (watts) => `${wholeText(watts)} W${figures.targetW === null ? "" : ` / ${wholeText(figures.targetW)}`}`,
    ),
    give,
    heldOf(ride, words),
    or(figures.inMainPercent, (percent) => `${wholeText(percent)} %`),
    or(figures.lapses, wholeText),
  ];
}

function GroupSection({ group, words }: { readonly group: WeeksGroup; readonly words: WeeksPhrases }): ReactNode {
  const drifts = group.rides.filter(couldTell);
  const trend = words.trend(group.trend, drifts.filter((ride) => ride.like).length);
  const name = group.place === "road" ? words.road : words.trainer;
  const held = group.rides.map((ride) => `${rideDay(ride)}: ${heldOf(ride, words)}`).join("; ");
  return (
    <Section title={name}>
      <p>{words.offset(group.offsetsW)}</p>
      <div className="plots">
        {drifts.length > 0 && (
          <figure>
            <DriftPlot group={group} words={words} alt={trend} />
            <figcaption>{`${trend} ● ${words.alike}; ○ ${words.notAlike}.`}</figcaption>
          </figure>
        )}
        {group.rides.some(toldHeld) && (
          <figure>
            <HeldPlot group={group} words={words} alt={held} />
          </figure>
        )}
      </div>
      <WideTable
        label={name}
        className="wide"
        columns={words.columns}
        rows={[...group.rides].reverse().map((ride) => rowCells(ride, words))}
        named
      />
    </Section>
  );
}

/** The roads ridden more than once, a table each: newest ride first. */
function Roads({ roads, language }: { readonly roads: readonly WeeksRoad[]; readonly language: Language }): ReactNode {
  const words = weeksWords(language);
  return (
    <Section title={words.roads}>
      {roads.map((road, index) => {
        const { name, columns, rows } = roadTable(road, language);
        return (
          <Fragment key={index}>
            <h3>{name}</h3>
            <WideTable label={name} className="wide" columns={columns} rows={rows} named />
          </Fragment>
        );
      })}
      <p className="quiet">{words.roadsHonest}</p>
    </Section>
  );
}

/**
 * The athlete's log as one HTML page for the coach: road and trainer apart, charts with axes, every ride in a table.
 * @param headed false where the window's own title stands above it
 */
export function weeksHtml(
  log: WeeksLog,
  athleteName: string | null,
  language: Language,
  fonts: readonly PageFont[],
  headed = true,
): string {
  const words = weeksWords(language);
  const title = athleteName === null ? words.title : `${words.title}: ${athleteName}`;
  const body = (
    <>
      {headed && (
        <header className="log">
          <h1>{title}</h1>
        </header>
      )}
      <main className="log">
        {log.groups.length === 0 && <p>{words.empty}</p>}
        {log.groups.map((group) => (
          <GroupSection key={group.place} group={group} words={words} />
        ))}
        {log.roads.length > 0 && <Roads roads={log.roads} language={language} />}
        {log.leftOut.length > 0 && <Bullets items={log.leftOut.map((one) => words.leftOut(one.name, one.because))} />}
        <p className="quiet">{words.honest}</p>
      </main>
    </>
  );
  return htmlPage(language, title, body, fonts);
}
