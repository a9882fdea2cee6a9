import { Fragment, type ReactNode } from "react";
import type { AskedStretch } from "../contract/card.ts";
import { outsideBlocks } from "../../overlay/cards/chartScale.ts";
import { axisTicks, timeTicks } from "../page/axisTicks.ts";
import { CHART_WIDTH, Drawing, fixed, hourMinute } from "../page/parts.tsx";

/** One panel of a chart: a line over ride time, with its axis and what is marked on it. */
export interface ChartPanel {
  readonly axis: string;
  /** A value per step; NaN breaks the line. */
  readonly values: Float64Array;
  /** `power` and `heart` choose the stroke; both read without colour too. `ground` is the road's height, low and filled. */
  readonly kind: "power" | "heart" | "ground";
  readonly band: { readonly low: number; readonly high: number; readonly key: string } | null;
  /** Stretches that ask for something else than the band, which is not drawn there; nulls: for nothing. Missing: none. */
  readonly blocks?: readonly AskedStretch[];
  /** Values to point at, with their words. */
  readonly points: readonly { readonly atS: number; readonly value: number; readonly text: string }[];
  /** A span to shade, with its words: where something began. */
  readonly interval: { readonly lowS: number; readonly highS: number; readonly key: string } | null;
}

/** Level ground must not look like a mountain: its axis spans at least so much, m or ft. */
const LEAST_GROUND_SPAN = 40;
/** A heart that moves by a beat or two must not look like a mountain: its axis spans at least so many beats. */
const LEAST_HEART_SPAN = 20;

export interface RideChart {
  readonly id: string;
  readonly title: string;
  readonly alt: string;
  readonly timeAxis: string;
  readonly startS: number;
  readonly stepS: number;
  readonly panels: readonly ChartPanel[];
  /** Under the panels: which parts of the ride the film shows, and where the page tells of it. Missing: nothing. */
  readonly told?: {
    readonly shots: readonly { readonly startS: number; readonly endS: number }[];
    readonly shotsKey: string;
    /** Numbered from 1 in this order. */
    readonly moments: readonly number[];
    readonly momentsKey: string;
  };
  /** Drawn as a bar over all panels. */
  readonly main: { readonly startS: number; readonly endS: number; readonly key: string } | null;
}

const LEFT = 40;
const RIGHT = CHART_WIDTH - 10;
const PANEL = 130;
const GROUND = 46;
const PANEL_GAP = 34;
/** A row of what is told. */
const ROW = 20;
/** Between the last panel and them: its lowest tick has letters. */
const ROWS_GAP = 8;
/** Numbers closer than this would run into each other. */
const NUMBER_ROOM = 11;
/** Room for the first panel's title, and for the bar of the main part above it. */
const TOP = 22;
const TOP_WITH_MAIN = 54;
const BOTTOM = 40;

/** The same scale for lines, marks and ticks: linear from the first tick to the last. */
export function panelScale(panel: ChartPanel): {
  readonly ticks: readonly number[];
  readonly low: number;
  readonly high: number;
} {
  const values = [...panel.values].filter((value) => Number.isFinite(value));
  for (const point of panel.points) values.push(point.value);
  if (panel.band !== null) values.push(panel.band.low, panel.band.high);
  for (const { low, high } of panel.blocks ?? []) if (low !== null && high !== null) values.push(low, high);
  if (values.length === 0) return { ticks: [0, 1], low: 0, high: 1 };
  const low = panel.kind === "power" ? 0 : values.reduce((least, value) => Math.min(least, value), Infinity);
  const high = values.reduce((most, value) => Math.max(most, value), -Infinity);
  const least = { power: 0, heart: LEAST_HEART_SPAN, ground: LEAST_GROUND_SPAN }[panel.kind];
  const spare = Math.max(0, least - (high - low)) / 2;
  const power = panel.kind === "power";
  const ticks = axisTicks(
    power ? 0 : low - spare,
    Math.max(high + (power ? 0 : spare), low + 1),
    panel.kind === "ground" ? 3 : 5,
  );
  return { ticks, low: ticks[0]!, high: ticks.at(-1)! };
}

function panelHeight({ kind }: ChartPanel): number {
  return kind === "ground" ? GROUND : PANEL;
}

/** Height of the rows under the panels. */
function toldHeight({ told }: RideChart): number {
  if (told === undefined) return 0;
  return ROWS_GAP + (told.shots.length > 0 ? ROW : 0) + (told.moments.length > 0 ? ROW : 0);
}

/** The line as an area down to the foot of the panel, piece by piece. */
function areaPath(
  values: Float64Array,
  x: (index: number) => number,
  y: (value: number) => number,
  foot: number,
): string {
  let path = "";
  for (let first = 0; first < values.length; first++) {
    if (!Number.isFinite(values[first])) continue;
    let last = first;
    while (last + 1 < values.length && Number.isFinite(values[last + 1])) last++;
    const line = linePath(values.subarray(first, last + 1), (index) => x(first + index), y).replace("M", "L");
    path += `M${fixed(x(first))} ${fixed(foot)}${line}L${fixed(x(last))} ${fixed(foot)}Z`;
    first = last;
  }
  return path;
}

function linePath(values: Float64Array, x: (index: number) => number, y: (value: number) => number): string {
  let pen = "M";
  let path = "";
  values.forEach((value, index) => {
    if (!Number.isFinite(value)) {
      pen = "M";
      return;
    }
    path += `${pen}${fixed(x(index))} ${fixed(y(value))}`;
    pen = "L";
  });
  return path;
}

/** Where ride time and the panel's values lie on the drawing. */
interface PanelFrame {
  readonly panel: ChartPanel;
  readonly top: number;
  readonly atX: (seconds: number) => number;
  /** The chart's own span, s. */
  readonly span: readonly [startS: number, endS: number];
  /** Middle of a step: a step's mean stands there. */
  readonly stepX: (index: number) => number;
}

function Words(props: {
  readonly x: number;
  readonly y: number;
  readonly anchor: "start" | "middle" | "end";
  readonly text: string;
  readonly strong?: boolean;
}): ReactNode {
  return (
    <text
      x={fixed(props.x)}
      y={fixed(props.y)}
      textAnchor={props.anchor}
      className={props.strong === true ? "strong" : undefined}
    >
      {props.text}
    </text>
  );
}

function Interval({ panel, top, atX }: Pick<PanelFrame, "panel" | "top" | "atX">): ReactNode {
  if (panel.interval === null) return null;
  const { lowS, highS, key } = panel.interval;
  const [low, high] = [atX(lowS), atX(highS)];
  const keyX = Math.min(RIGHT - 60, Math.max(LEFT + 60, (low + high) / 2));
  return (
    <>
      <rect
        className="span"
        x={fixed(low)}
        y={top}
        width={fixed(Math.max(1, high - low))}
        height={panelHeight(panel)}
      />
      {key !== "" && <Words x={keyX} y={top + panelHeight(panel) - 6} anchor="middle" text={key} />}
    </>
  );
}

/** What is asked for, over the time in which it is. */
function Asked({
  low,
  high,
  from,
  to,
  y,
}: Record<"low" | "high" | "from" | "to", number> & { readonly y: (value: number) => number }) {
  return (
    <rect
      className="band"
      x={fixed(from)}
      y={fixed(y(high))}
      width={fixed(to - from)}
      height={fixed(y(low) - y(high))}
    />
  );
}

/** Where the words of each value to point at stand: above it, or below where they would run into those before. */
function wordsBelow(points: readonly { readonly x: number; readonly y: number }[]): boolean[] {
  const below: boolean[] = [];
  points.forEach(({ x, y }, index) => {
    const runs = points
      .slice(0, index)
      .some((one, at) => !below[at] && Math.abs(one.x - x) < 64 && Math.abs(one.y - y) < 16);
    below.push(runs);
  });
  return below;
}

function Panel({ panel, top, atX, stepX, span }: PanelFrame): ReactNode {
  const scale = panelScale(panel);
  const height = panelHeight(panel);
  const y = (value: number): number => top + height - ((value - scale.low) / (scale.high - scale.low)) * height;
  const { band, blocks = [] } = panel;
  const inside = (seconds: number): number => atX(Math.min(span[1], Math.max(span[0], seconds)));
  const points = panel.points.map((point) => ({ x: atX(point.atS), y: y(point.value), text: point.text }));
  const below = wordsBelow(points);
  return (
    <>
      <Words x={LEFT} y={top - 8} anchor="start" text={panel.axis} strong />
      {band !== null && (
        <>
          <rect className="band" x={RIGHT - 8} y={top - 17} width="8" height="10" />
          <Words x={RIGHT - 13} y={top - 8} anchor="end" text={band.key} />
          {outsideBlocks(blocks, ...span).map(([from, to]) => (
            <Asked key={from} low={band.low} high={band.high} from={atX(from)} to={atX(to)} y={y} />
          ))}
        </>
      )}
      {blocks.map(({ startS, endS, low, high }, index) =>
        low === null || high === null ? null : (
          <Asked key={index} low={low} high={high} from={inside(startS)} to={inside(endS)} y={y} />
        ),
      )}
      <Interval panel={panel} top={top} atX={atX} />
      {scale.ticks.map((tick) => (
        <Fragment key={tick}>
          <path className="grid" d={`M${LEFT} ${fixed(y(tick))}H${RIGHT}`} />
          <Words x={LEFT - 5} y={y(tick) + 4} anchor="end" text={fixed(tick)} />
        </Fragment>
      ))}
      {panel.kind === "ground" ? (
        <path className="ground" d={areaPath(panel.values, stepX, y, top + height)} />
      ) : (
        <path className={panel.kind} d={linePath(panel.values, stepX, y)} />
      )}
      {points.map((point, index) => {
        const anchor = point.x > RIGHT - 60 ? "end" : point.x < LEFT + 60 ? "start" : "middle";
        const textY = below[index] ? Math.min(top + height - 4, point.y + 20) : Math.max(top + 12, point.y - 10);
        return (
          <Fragment key={index}>
            <circle className="dot" cx={fixed(point.x)} cy={fixed(point.y)} r="4" />
            <Words x={point.x} y={textY} anchor={anchor} text={point.text} strong />
          </Fragment>
        );
      })}
    </>
  );
}

/** What of the ride is in the film, and where the page tells of it by its numbers: a row each. */
function Told({
  told,
  top,
  atX,
}: {
  told: NonNullable<RideChart["told"]>;
  top: number;
  readonly atX: (seconds: number) => number;
}) {
  const { shots, moments, shotsKey, momentsKey } = told;
  const momentsTop = top + (shots.length > 0 ? ROW : 0);
  // A number that would run into one before it is left out; its line stays.
  let lastX = -Infinity;
  const numbers = moments
    .map((atS, index) => ({ x: atX(atS), number: index + 1 }))
    .sort((a, b) => a.x - b.x)
    .map((one) => {
      const free = one.x - lastX >= NUMBER_ROOM;
      if (free) lastX = one.x;
      return { ...one, free };
    });
  return (
    <>
      {shots.length > 0 && <Words x={LEFT - 5} y={top + 15} anchor="end" text={shotsKey} />}
      {shots.map(({ startS, endS }, index) => (
        <rect
          key={index}
          className="dot"
          x={fixed(atX(startS))}
          y={top + 7}
          width={fixed(Math.max(2, atX(endS) - atX(startS)))}
          height="7"
        />
      ))}
      {moments.length > 0 && <Words x={LEFT - 5} y={momentsTop + 15} anchor="end" text={momentsKey} />}
      {numbers.map(({ x, number, free }) => (
        <Fragment key={number}>
          <path className="tick" d={`M${fixed(x)} ${momentsTop}v4`} />
          {free && <Words x={x} y={momentsTop + 16} anchor="middle" text={String(number)} strong />}
        </Fragment>
      ))}
    </>
  );
}

/** Where a chart's first and last second lie across the drawing, as shares of its width. */
export function chartSpan({ startS, stepS, panels }: RideChart): {
  readonly startS: number;
  readonly endS: number;
  readonly left: number;
  readonly right: number;
} {
  const endS = startS + Math.max(1, ...panels.map(({ values }) => values.length)) * stepS;
  return { startS, endS, left: LEFT / CHART_WIDTH, right: RIGHT / CHART_WIDTH };
}

/** Height of a chart in its own units, of which it is `CHART_WIDTH` wide. */
export function chartHeight(chart: RideChart): number {
  return panelsBottom(chart) + toldHeight(chart) + BOTTOM;
}

/** Top of each panel. */
function panelTops({ main, panels }: RideChart): number[] {
  let top = main === null ? TOP : TOP_WITH_MAIN;
  return panels.map((panel) => {
    const mine = top;
    top += panelHeight(panel) + PANEL_GAP;
    return mine;
  });
}

function panelsBottom(chart: RideChart): number {
  return (panelTops(chart).at(-1) ?? TOP) + panelHeight(chart.panels.at(-1)!);
}

/**
 * Power and heart rate over ride time as one inline SVG: panels under one another on one time axis, each with its own
 * axis, unit and round ticks. Gaps in the data are gaps in the line. Text, title and description are in the SVG.
 */
export function RideChartSvg({ chart }: { readonly chart: RideChart }): ReactNode {
  const { endS } = chartSpan(chart);
  const atX = (seconds: number): number => LEFT + ((seconds - chart.startS) / (endS - chart.startS)) * (RIGHT - LEFT);
  const stepX = (index: number): number => atX(chart.startS + (index + 0.5) * chart.stepS);
  const { main } = chart;
  const first = main === null ? TOP : TOP_WITH_MAIN;
  const bottom = panelsBottom(chart) + toldHeight(chart);
  const tops = panelTops(chart);
  return (
    <Drawing id={chart.id} title={chart.title} alt={chart.alt} height={chartHeight(chart)}>
      {chart.panels.map((panel, index) => (
        <Panel key={index} panel={panel} top={tops[index]!} atX={atX} stepX={stepX} span={[chart.startS, endS]} />
      ))}
      {chart.told !== undefined && <Told told={chart.told} top={panelsBottom(chart) + ROWS_GAP} atX={atX} />}
      <path className="axis" d={`M${LEFT} ${bottom}H${RIGHT}`} />
      {timeTicks(chart.startS, endS, 6).map((tick) => (
        <Fragment key={tick}>
          <path className="tick" d={`M${fixed(atX(tick))} ${bottom}v5`} />
          <Words
            x={atX(tick)}
            y={bottom + 18}
            anchor={atX(tick) > RIGHT - 12 ? "end" : "middle"}
            text={hourMinute(tick)}
          />
        </Fragment>
      ))}
      <Words x={(LEFT + RIGHT) / 2} y={bottom + 34} anchor="middle" text={chart.timeAxis} />
      {main !== null && (
        <>
          <path className="main" d={`M${fixed(atX(main.startS))} ${first - 32}H${fixed(atX(main.endS))}`} />
          <Words x={(atX(main.startS) + atX(main.endS)) / 2} y={first - 40} anchor="middle" text={main.key} />
        </>
      )}
    </Drawing>
  );
}
