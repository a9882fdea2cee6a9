// The page on paper: three pages at most, none of them nearly empty; and its charts: what is asked for, the road, the
// film and the moments lie where the ride has them.
import { execFileSync, spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createElement } from "react";
import { afterAll, describe, expect, it } from "vitest";
import { filmRuns } from "../../overlay/instant/filmRuns.ts";
import { shownMoments, type HandoverData } from "../../main/handover/handoverData.ts";
import { handoverWords } from "../../main/handover/handoverLines.ts";
import { pageFacts } from "../../main/handover/pageFacts.ts";
import { pageHtml } from "../../main/handover/pageHtml.tsx";
import { browserPrinter } from "../../main/host/browserPrinter.edge.ts";
import { pagePdf } from "../../main/handover/pdf.edge.ts";
import { rideChart } from "../../main/handover/rideChart.ts";
import { RideChartSvg, chartSpan, panelScale } from "../../main/handover/rideChartSvg.tsx";
import { markup } from "../../main/page/htmlPage.tsx";
import { CHART_WIDTH } from "../../main/page/parts.tsx";
import { madePlan, madeRide } from "../film/madeReading.ts";
import { madeHandover, madeStill } from "./madeHandover.ts";

const CHROMIUM = ["/usr/bin/chromium", "/usr/bin/google-chrome"].find((path) => existsSync(path)) ?? null;
const required = (process.env["FOLLOWCAR_REQUIRE"] ?? "").split(",");
const canPrint =
  (CHROMIUM !== null && spawnSync("pdftotext", ["-v"]).status === 0) ||
  (required.includes("chromium") && required.includes("pdftotext"));
if (!canPrint) console.warn("no Chromium or no pdftotext here: printed pages are not counted");

const plain = madeRide();
const seconds = plain.grid.seconds;
const heightsM = Float64Array.from({ length: seconds }, (_, k) => 400 + 90 * Math.sin(k / 700));
const altitude = { value: heightsM, state: new Uint8Array(seconds).fill(1) };
const hilly = { ...plain, grid: { ...plain.grid, altitude } };
const blocks = [
  { startS: 1800, endS: 2700, kind: "effort", targetW: 290, toleranceW: 10 },
  { startS: 2700, endS: 3000, kind: "rest", targetW: null, toleranceW: null },
] as const;

/** A film that shows so many moments, each with a still where `stills` is true. */
function withMoments(data: HandoverData, count: number, stills: boolean): HandoverData {
  const shot = data.film.items.find((item) => item.type === "shot")!;
  const others = data.film.items.filter((item) => item.moment === null);
  const indices = data.reading.moments.map((_, index) => index).slice(0, count);
  expect(indices).toHaveLength(count);
  const items = [...others, ...indices.map((moment) => ({ ...shot, id: `of-${moment}`, moment }))];
  return { ...data, film: { ...data.film, items }, stills: stills ? indices.map(madeStill) : [] };
}

const folder = mkdtempSync(join(tmpdir(), "hand over "));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** How far down each printed page its text reaches, as a share of the room between its margins of 16 mm. */
async function filled(html: string): Promise<number[]> {
  writeFileSync(join(folder, "page.html"), html);
  expect(await pagePdf(join(folder, "page.html"), join(folder, "page.pdf"), browserPrinter(CHROMIUM!))).toEqual({
    written: true,
  });
  const boxes = execFileSync("pdftotext", ["-bbox", join(folder, "page.pdf"), "-"], { encoding: "utf8" });
  const marginPt = (16 / 25.4) * 72;
  return boxes
    .split("<page ")
    .slice(1)
    .map((page) => {
      const heightPt = Number(/height="([\d.]+)"/.exec(page)![1]);
      const lowest = Math.max(0, ...[...page.matchAll(/yMax="([\d.]+)"/g)].map(([, y]) => Number(y)));
      return (lowest - marginPt) / (heightPt - 2 * marginPt);
    });
}

describe("on paper", () => {
  const most = Math.min(6, madeHandover().reading.moments.length);
  it.skipIf(!canPrint).each<[string, HandoverData]>([
    ["as made", madeHandover()],
    ["in German, with hills, blocks and a heart band", handedBlocks("de")],
    ["with hills and many stills", withMoments(madeHandover({ ride: hilly }), most, true)],
    ["with hills and no still", withMoments(madeHandover({ ride: hilly }), most, false)],
    ["without an event and without a note", madeHandover({ plan: { ...madePlan(), eventS: null }, notes: null })],
    ["a lesson", madeHandover({ forWhom: "lesson" })],
  ])(
    "%s it takes three pages at most, and none is less than a third full",
    async (_, data) => {
      const pages = await filled(pageHtml(data));
      expect(pages.length).toBeLessThanOrEqual(3);
      for (const share of pages) expect(share).toBeGreaterThanOrEqual(1 / 3);
    },
    120_000,
  );
});

function handedBlocks(language: "en" | "de"): HandoverData {
  const plan = { ...madePlan(), blocks, heartLowBpm: 130, heartHighBpm: 145 };
  return madeHandover({ language, ride: hilly, plan });
}

describe("the whole ride's chart", () => {
  const data = handedBlocks("en");
  const chart = rideChart(data, handoverWords(data), pageFacts(data), {
    id: "ride",
    fromS: 0,
    toS: seconds,
    title: "t",
    moment: null,
    heart: true,
    numbered: true,
  })!;
  const svg = markup(createElement(RideChartSvg, { chart }));
  const { startS, endS, left, right } = chartSpan(chart);
  const timeAt = (x: number): number => startS + ((x / CHART_WIDTH - left) / (right - left)) * (endS - startS);
  const pixelS = (endS - startS) / CHART_WIDTH;

  it("draws the road's height as the file has it", () => {
    const ground = chart.panels.at(-1)!;
    expect(ground.kind).toBe("ground");
    const area = [.../class="ground" d="([^"]+)"/.exec(svg)![1]!.matchAll(/[ML]([\d.]+) ([\d.]+)/g)].map((one) => ({
      x: Number(one[1]),
      y: Number(one[2]),
    }));
    const footY = area[0]!.y;
    const { low, high } = panelScale(ground);
    for (const { x, y } of area.slice(1, -1)) {
      const heightM = low + ((footY - y) / 46) * (high - low);
      expect(Math.abs(heightM - heightsM[Math.min(seconds - 1, Math.round(timeAt(x)))]!)).toBeLessThan(4);
    }
    expect(svg).toContain("altitude (m)");
  });

  it("says heights in feet where the rider reads feet, and draws none on a trainer or in a lesson", () => {
    const axis = (more: Parameters<typeof madeHandover>[0]): string | undefined => {
      const made = madeHandover({ ride: hilly, ...more });
      const which = { id: "r", fromS: 0, toS: seconds, title: "t", moment: null, heart: true };
      return rideChart(made, handoverWords(made), pageFacts(made), which)!.panels.find(({ kind }) => kind === "ground")
        ?.axis;
    };
    expect(axis({ units: "imperial" })).toBe("altitude (ft)");
    expect(axis({ plan: { ...madePlan(), setting: "trainer" } })).toBeUndefined();
    expect(axis({ forWhom: "lesson" })).toBeUndefined();
  });

  it("draws each block's own band over its own time, none in a rest, and the plan's elsewhere", () => {
    const bands = [...svg.matchAll(/class="band" x="([\d.]+)" y="([\d.]+)" width="([\d.]+)" height="([\d.]+)"/g)]
      .map((one) => one.slice(1).map(Number) as [number, number, number, number])
      .filter(([, , width]) => width > 8)
      .map(([x, y, width, height]) => ({ fromS: timeAt(x), toS: timeAt(x + width), y, height }));
    const starting = (atS: number) => bands.find(({ fromS }) => Math.abs(fromS - atS) < pixelS)!;
    expect(starting(0).toS).toBeCloseTo(1800, -2);
    expect(starting(1800).toS).toBeCloseTo(2700, -2);
    expect(starting(1800).y).toBeLessThan(starting(0).y);
    expect(starting(2700)).toBeUndefined();
    expect(starting(3000).y).toBe(starting(0).y);
  });

  it("draws the heart rate asked for", () => {
    const heart = chart.panels.find(({ kind }) => kind === "heart")!;
    expect(heart.band).toEqual({ low: 130, high: 145, key: "planned heart rate" });
    expect(svg).toContain("planned heart rate");
  });

  it("marks what the film shows, and each moment by the number that the page gives it", () => {
    const shots = [...svg.matchAll(/<rect class="dot" x="([\d.]+)" y="[\d.]+" width="([\d.]+)"/g)];
    const runs = filmRuns(data.film);
    expect(shots).toHaveLength(runs.length);
    shots.forEach((one, index) =>
      expect(Math.abs(timeAt(Number(one[1])) - runs[index]!.rideStartS)).toBeLessThan(pixelS),
    );
    const page = pageHtml(data);
    shownMoments(data).forEach((index, at) => {
      const number = new RegExp(`<text x="([\\d.]+)" y="[\\d.]+" text-anchor="middle" class="strong">${at + 1}</text>`);
      const x = Number(number.exec(svg)![1]);
      expect(Math.abs(timeAt(x) - data.reading.moments[index]!.startS)).toBeLessThan(pixelS);
      expect(page).toContain(`<span class="number">${at + 1}</span>`);
    });
  });

  it("keeps the words of two readings apart where they lie close together", () => {
    const { told: _, ...close } = chart;
    const heart = close.panels.find(({ kind }) => kind === "heart")!;
    const points = [
      { atS: 3000, value: 140, text: "early 140" },
      { atS: 3200, value: 140, text: "late 140" },
    ];
    const drawn = markup(createElement(RideChartSvg, { chart: { ...close, panels: [{ ...heart, points }] } }));
    const y = (text: string): number =>
      Number(new RegExp(`y="([\\d.]+)"[^>]*>${text}<`).exec(drawn.replaceAll("\u00a0", " "))![1]);
    expect(Math.abs(y("early 140") - y("late 140"))).toBeGreaterThan(16);
  });
});
