import { Fragment, type ReactNode } from "react";
import { axisTicks, timeTicks } from "../page/axisTicks.ts";
import { CHART_WIDTH, Drawing, fixed, hourMinute } from "../page/parts.tsx";

/** One panel of a chart: a line over ride time, with its axis and what is marked on it. */
export interface ChartPanel {
  readonly axis: string;
  /** A value per step; NaN breaks the line. */
  readonly values: Float64Array;
  /** `power` and `heart` choose the stroke; both read without colour too. */
  readonly kind: "power" | "heart";
  readonly band: { readonly low: number; readonly high: number; readonly key: string } | null;
  /** Values to point at, with their words. */
  readonly points: readonly { readonly atS: number; readonly value: number; readonly text: string }[];
  /** A span to shade, with its words: where something began. */
  readonly interval: { readonly lowS: number; readonly highS: number; readonly key: string } | null;
}

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
  /** Drawn as a bar over all panels. */
  readonly main: { readonly startS: number; readonly endS: number; readonly key: string } | null;
}

const LEFT = 40;
const RIGHT = CHART_WIDTH - 10;
const PANEL = 130;
const PANEL_GAP = 34;
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
  if (values.length === 0) return { ticks: [0, 1], low: 0, high: 1 };
  const low = panel.kind === "power" ? 0 : values.reduce((least, value) => Math.min(least, value), Infinity);
  const high = values.reduce((most, value) => Math.max(most, value), -Infinity);
  const spare = panel.kind === "heart" ? Math.max(0, LEAST_HEART_SPAN - (high - low)) / 2 : 0;
  const ticks = axisTicks(low - spare, Math.max(high + spare, low + 1), 5);
  return { ticks, low: ticks[0], high: ticks.at(-1)! };
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

function Interval({ panel, top, atX }: PanelFrame): ReactNode {
  if (panel.interval === null) return null;
  const { lowS, highS, key } = panel.interval;
  const [low, high] = [atX(lowS), atX(highS)];
  const keyX = Math.min(RIGHT - 60, Math.max(LEFT + 60, (low + high) / 2));
  return (
    <>
      <rect className="span" x={fixed(low)} y={top} width={fixed(Math.max(1, high - low))} height={PANEL} />
      {key !== "" && <Words x={keyX} y={top + PANEL - 6} anchor="middle" text={key} />}
    </>
  );
}

function Panel({ panel, top, atX, stepX }: PanelFrame): ReactNode {
  const scale = panelScale(panel);
  const y = (value: number): number => top + PANEL - ((value - scale.low) / (scale.high - scale.low)) * PANEL;
  const { band } = panel;
  return (
    <>
      <Words x={LEFT} y={top - 8} anchor="start" text={panel.axis} strong />
      {band !== null && (
        <>
          <rect className="band" x={RIGHT - 8} y={top - 17} width="8" height="10" />
          <Words x={RIGHT - 13} y={top - 8} anchor="end" text={band.key} />
          <rect
            className="band"
            x={LEFT}
            y={fixed(y(band.high))}
            width={RIGHT - LEFT}
            height={fixed(y(band.low) - y(band.high))}
          />
        </>
      )}
      <Interval panel={panel} top={top} atX={atX} stepX={stepX} />
      {scale.ticks.map((tick) => (
        <Fragment key={tick}>
          <path className="grid" d={`M${LEFT} ${fixed(y(tick))}H${RIGHT}`} />
          <Words x={LEFT - 5} y={y(tick) + 4} anchor="end" text={fixed(tick)} />
        </Fragment>
      ))}
      <path className={panel.kind} d={linePath(panel.values, stepX, y)} />
      {panel.points.map((point, index) => {
        const x = atX(point.atS);
        const anchor = x > RIGHT - 60 ? "end" : x < LEFT + 60 ? "start" : "middle";
        return (
          <Fragment key={index}>
            <circle className="dot" cx={fixed(x)} cy={fixed(y(point.value))} r="4" />
            <Words x={x} y={Math.max(top + 12, y(point.value) - 10)} anchor={anchor} text={point.text} strong />
          </Fragment>
        );
      })}
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
export function chartHeight({ main, panels }: RideChart): number {
  return (main === null ? TOP : TOP_WITH_MAIN) + panels.length * PANEL + (panels.length - 1) * PANEL_GAP + BOTTOM;
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
  const bottom = chartHeight(chart) - BOTTOM;
  return (
    <Drawing id={chart.id} title={chart.title} alt={chart.alt} height={chartHeight(chart)}>
      {chart.panels.map((panel, index) => (
        <Panel key={index} panel={panel} top={first + index * (PANEL + PANEL_GAP)} atX={atX} stepX={stepX} />
      ))}
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
