import { browserPrinter } from "../../main/host/browserPrinter.edge.ts";
import AxeBuilder from "@axe-core/playwright";
import { execFileSync, spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { mkdtemp, readFile, readdir } from "node:fs/promises";
import { HtmlValidate } from "html-validate";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { createElement } from "react";
import { describe, expect, test } from "vitest";
import { writeAtomic } from "../../main/host/writeAtomic.edge.ts";
import { coachHtml, figure } from "../../main/handover/coachHtml.tsx";
import { pageHtml } from "../../main/handover/pageHtml.tsx";
import { type RideChart, RideChartSvg, panelScale } from "../../main/handover/rideChartSvg.tsx";
import { writeHandover } from "../../main/handover/writeHandover.edge.ts";
import { markup } from "../../main/page/htmlPage.tsx";
import type { Moment, Reading } from "../../main/contract/reading.ts";
import { madeReading, madeRide } from "../film/madeReading.ts";
import { madeHandover } from "./madeHandover.ts";
import { said } from "../support/said.ts";

const CHROMIUM = ["/usr/bin/chromium", "/usr/bin/google-chrome"].find((path) => existsSync(path)) ?? null;
const needed = (process.env["FOLLOWCAR_REQUIRE"] ?? "").split(",").includes("chromium");
const withChromium = test.skipIf(CHROMIUM === null && !needed);
if (CHROMIUM === null) console.warn("no Chromium here: axe and PDF checks are skipped");
/** Poppler's reader of text in a PDF; FOLLOWCAR_REQUIRE=pdftotext makes its absence an error. */
const PDF_READER = "pdftotext";
const pdfText = (path: string): string => execFileSync(PDF_READER, ["-layout", path, "-"], { encoding: "utf8" });
const canReadPdf =
  spawnSync(PDF_READER, ["-v"]).status === 0 ||
  (process.env["FOLLOWCAR_REQUIRE"] ?? "").split(",").includes(PDF_READER);
if (!canReadPdf) console.warn("no pdftotext here: the text of PDFs is not checked");
const visible = (html: string): string =>
  html
    .replaceAll(/<style>.*?<\/style>/gs, " ")
    .replaceAll(/<(title|desc)[^>]*>.*?<\/\1>/gs, " ")
    .replaceAll(/<[^>]+>/g, " ")
    .replaceAll("&#x27;", "'")
    .replaceAll("&quot;", '"')
    .replaceAll("\u00a0", " ")
    .replaceAll("&amp;", "&");

describe("the pages", () => {
  test.each([
    ["athlete, English", pageHtml(madeHandover())],
    ["athlete, German", pageHtml(madeHandover({ language: "de" }))],
    ["lesson", pageHtml(madeHandover({ forWhom: "lesson", asPercent: true }))],
    ["no stills", pageHtml(madeHandover({ stills: [] }))],
    ["coach", coachHtml(madeHandover())],
  ])("%s: valid HTML (html-validate 10, its recommended and document rules)", async (_name, html) => {
    const report = await new HtmlValidate({
      extends: ["html-validate:recommended", "html-validate:document"],
      rules: { "no-inline-style": "off", "require-csp-nonce": "off" },
    }).validateString(html);
    expect(
      report.results.flatMap((result) => result.messages.map((one) => `${one.line}: ${one.ruleId} ${one.message}`)),
    ).toEqual([]);
    expect(html).not.toMatch(/<script|javascript:|\son[a-z]+=|https?:\/\/(?!www\.w3\.org\/2000\/svg)/i);
  });

  withChromium(
    "have no finding of axe (WCAG 2.2 A and AA) on a phone, and nothing is wider than it",
    async () => {
      const browser = await chromium.launch({ executablePath: CHROMIUM ?? "chromium", args: ["--no-sandbox"] });
      try {
        const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
        for (const html of [
          pageHtml(madeHandover()),
          pageHtml(madeHandover({ forWhom: "lesson" })),
          coachHtml(madeHandover()),
        ]) {
          const page = await context.newPage();
          const asked: string[] = [];
          page.on("request", (request) => asked.push(request.url()));
          await page.setContent(html);
          const found = await new AxeBuilder({ page })
            .withTags(["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"])
            .analyze();
          expect(found.violations.map((one) => `${one.id}: ${one.nodes[0]?.html}`)).toEqual([]);
          expect(await page.evaluate("document.documentElement.scrollWidth")).toBeLessThanOrEqual(390);
          expect(asked.filter((url) => !url.startsWith("data:") && url !== "about:blank")).toEqual([]);
          await page.close();
        }
      } finally {
        await browser.close();
      }
    },
    180_000,
  );

  test("hostile text is shown as text", () => {
    const data = madeHandover({ title: `<script>alert("1")</script>`, notes: `"><img src=x onerror=1>\n&amp; 'x'` });
    const html = pageHtml(data);
    expect(html).not.toContain("<script");
    expect(html).not.toContain("<img src=x");
    expect(visible(html)).toContain(`&amp; 'x'`);
  });

  test.each(["en", "de"] as const)("the athlete reads none of the analyst's words (%s)", (language) => {
    const data = madeHandover({ language });
    for (const text of [visible(pageHtml(data)), pageHtml(data)])
      expect(text).not.toMatch(/\b(lapse|excused|verdict|onset|counted)s?\b|±/i);
  });

  test.each(["en", "de"] as const)("the coach reads no name of the program's own (%s)", (language) => {
    const text = visible(coachHtml(madeHandover({ language })));
    expect(text).toMatch(/start of the drift|Beginn der Drift/u);
    expect(text.match(/\b[a-z]+(?:[A-Z][a-z]+)+\b/gu) ?? []).toEqual([]);
  });

  test("what the coach set says so", () => {
    const ride = madeRide();
    const base = madeReading(ride);
    const reading: Reading = {
      ...base,
      moments: base.moments.map((one, index) =>
        index === 0 ? { ...one, setBy: "coach" as const, reason: "a tractor" } : one,
      ),
      overrides: [{ what: "onset", set: 4830, reason: "seen on the film", computed: null }],
    };
    const html = pageHtml(madeHandover({ ride, reading }));
    expect(html.match(/set by your coach/g)).toHaveLength(2);
    expect(pageHtml(madeHandover())).not.toContain("set by your coach");
    expect(visible(coachHtml(madeHandover({ ride, reading })))).toContain("seen on the film");
  });

  // Flesch-Kincaid grade: Kincaid, Fishburne, Rogers and Chissom, "Derivation of new readability formulas", 1975:
  // 0.39 words per sentence + 11.8 syllables per word - 15.59. Flesch reading ease (Flesch, J Appl Psychol 1948;32:221):
  // 206.835 - 1.015 words per sentence - 84.6 syllables per word. Formulas from memory; syllables by vowel groups.
  test("the athlete's page reads at grade 7 or lower and a reading ease of 70 or more", () => {
    const data = madeHandover({ notes: null, momentNotes: new Map() });
    const body = pageHtml(data).replaceAll(
      /<svg.*?<\/svg>|<table>.*?<\/table>|<style>.*?<\/style>|<(title|h1|h2|h3|b)[ >].*?<\/\1>/gs,
      " ",
    );
    // Running text only: headings, labels, tables and charts are no sentences and would flatter the figure.
    const sentences = body
      .replaceAll(/<\/(p|li|span|figcaption|div)>/g, ". ")
      .replaceAll(/<[^>]+>/g, " ")
      .replaceAll(/\d[\d:.]*/g, "ten")
      .split(/[.!?]+\s/)
      .map((one) => one.match(/[A-Za-z']+/g) ?? [])
      .filter((words) => words.length > 0);
    const words = sentences.flat();
    const syllables = words.reduce((sum, word) => {
      const groups = word
        .toLowerCase()
        .replace(/e$/, "")
        .match(/[aeiouy]+/g);
      return sum + Math.max(1, groups?.length ?? 1);
    }, 0);
    const perSentence = words.length / sentences.length;
    const perWord = syllables / words.length;
    const grade = 0.39 * perSentence + 11.8 * perWord - 15.59;
    const ease = 206.835 - 1.015 * perSentence - 84.6 * perWord;
    console.info(
      `athlete's page: Flesch-Kincaid grade ${grade.toFixed(1)}, Flesch reading ease ${ease.toFixed(0)}, ${words.length} words`,
    );
    expect(words.length).toBeGreaterThan(200);
    expect(grade).toBeLessThanOrEqual(7);
    expect(ease).toBeGreaterThanOrEqual(70);
  });

  test("every number follows the reading: another ride, other numbers", () => {
    const first = madeHandover({ dateText: null, stills: [] });
    const ride = madeRide(180, 12);
    const base = madeReading(ride, {}, 180);
    const reading: Reading = {
      ...base,
      counted: { ...base.counted, endS: 6300, stretches: [{ startS: 600, endS: 6300 }] },
      pressure: { ...base.pressure, inBandS: 4000, belowS: 700, aboveS: 500, offS: 300, longestUnbrokenS: 1300 },
      drift: {
        ...base.drift,
        firstBpm: 150.2,
        lastBpm: 159.1,
        riseBeats: 8.9,
        driftBeats: 9.4,
        uncertaintyBeats: 4,
        onsetS: 5430,
        onsetLowS: 4980,
        onsetHighS: 5820,
      },
      target: { ...base.target, eventS: 10_000, minimumS: 12_000, aimS: 12_500, heldLowS: 4380, heldHighS: 5220 },
      moments: base.moments.map((one): Moment => ({
        ...one,
        startS: one.startS + 61,
        endS: one.endS + 464,
        numbers: one.kind === "riseThenOff" ? { times: 2, coastS: 17 } : {},
      })),
      breaks: [],
    };
    const second = madeHandover({ ride, reading, dateText: null, stills: [], distanceM: 50_100 });
    // Chart ticks and the numbers of the list may agree; each number of the sentences and the table must not.
    const told = visible(pageHtml(first).replaceAll(/<svg.*?<\/svg>/gs, " ")).split("Good to know")[0];
    for (const figure of [
      "0:50:42",
      "19 min",
      "230 W",
      "138",
      "145",
      "1 h 21 min",
      "1 h 13 min",
      "1 h 27 min",
      "325 W",
      "64.8 km",
      "96 %",
      "4 h",
      "5 h",
      "3 times",
    ]) {
      expect(told).toContain(figure);
      expect(visible(pageHtml(second).replaceAll(/<svg.*?<\/svg>/gs, " ")).split("Good to know")[0]).not.toContain(
        figure,
      );
    }
  });
});

describe("the chart", () => {
  const rideChartSvg = (chart: RideChart): string => markup(createElement(RideChartSvg, { chart }));
  const values = Float64Array.from({ length: 60 }, (_, index) => (index === 30 ? Number.NaN : 100 + 3 * index));
  const chart: RideChart = {
    id: "x",
    title: "t",
    alt: "a",
    timeAxis: "time",
    startS: 600,
    stepS: 10,
    main: null,
    panels: [
      {
        axis: "power (W)",
        values,
        kind: "power",
        band: { low: 150, high: 200, key: "plan" },
        points: [],
        interval: { lowS: 700, highS: 800, key: "" },
      },
    ],
  };
  const svg = rideChartSvg(chart);

  test("its line, ticks, band and times lie where the data says", () => {
    // Scale read back from the printed ticks alone, as a reader would.
    const ticks = [...svg.matchAll(/class="grid" d="M40 ([\d.]+)H390"><\/path><text[^>]*>([\d.-]+)</g)].map((one) => ({
      y: Number(one[1]),
      value: Number(one[2]),
    }));
    const times = [...svg.matchAll(/class="tick" d="M([\d.]+) [\d.]+v5"><\/path><text[^>]*>(\d+):(\d+)</g)].map(
      (one) => ({
        x: Number(one[1]),
        s: 3600 * Number(one[2]) + 60 * Number(one[3]),
      }),
    );
    expect(ticks.length).toBeGreaterThanOrEqual(3);
    expect(times.length).toBeGreaterThanOrEqual(3);
    const [lowest, highest] = [ticks[0]!, ticks.at(-1)!];
    const valueAt = (y: number): number =>
      lowest.value + ((y - lowest.y) / (highest.y - lowest.y)) * (highest.value - lowest.value);
    const [early, late] = [times[0]!, times.at(-1)!];
    const timeAt = (x: number): number => early.s + ((x - early.x) / (late.x - early.x)) * (late.s - early.s);
    const line = [...svg.match(/class="power" d="([^"]+)"/)![1]!.matchAll(/[ML]([\d.]+) ([\d.]+)/g)];
    expect(line).toHaveLength(59);
    const drawn = [...values.keys()].filter((index) => index !== 30);
    line.forEach((point, order) => {
      const index = drawn[order]!;
      expect(Math.abs(timeAt(Number(point[1])) - (600 + 10 * (index + 0.5)))).toBeLessThan(0.2);
      expect(Math.abs(valueAt(Number(point[2])) - values[index]!)).toBeLessThan(0.1);
    });
    expect(svg.match(/class="power" d="[^"]+"/)![0].match(/M/g)).toHaveLength(2);
    const band = svg.match(/class="band" x="40" y="([\d.]+)" width="350" height="([\d.]+)"/)!;
    expect(Math.abs(valueAt(Number(band[1])) - 200)).toBeLessThan(0.1);
    expect(Math.abs(valueAt(Number(band[1]) + Number(band[2])) - 150)).toBeLessThan(0.1);
    const span = svg.match(/class="span" x="([\d.]+)" y="[\d.]+" width="([\d.]+)"/)!;
    expect(Math.abs(timeAt(Number(span[1])) - 700)).toBeLessThan(0.2);
    expect(Math.abs(timeAt(Number(span[1]) + Number(span[2])) - 800)).toBeLessThan(0.2);
    expect(
      new Set(ticks.map((tick, index) => (index === 0 ? null : Math.round(tick.value - ticks[index - 1]!.value)))).size,
    ).toBe(2);
  });

  test("no values, one value and a flat line make a scale too", () => {
    for (const few of [[], [Number.NaN], [5], [0, 0]]) {
      const scale = panelScale({ ...chart.panels[0]!, values: Float64Array.from(few), band: null, kind: "heart" });
      expect(scale.high).toBeGreaterThan(scale.low);
      expect(rideChartSvg({ ...chart, panels: [{ ...chart.panels[0]!, values: Float64Array.from(few) }] })).not.toMatch(
        /NaN|Infinity/,
      );
    }
  });
});

describe("what is written", () => {
  test.skipIf((CHROMIUM === null && !needed) || !canReadPdf)(
    "the coach's PDF has every number of the JSON; the athlete's every number of its page",
    async () => {
      const folder = await mkdtemp(join(tmpdir(), "hand over ü "));
      const data = madeHandover();
      await writeAtomic(join(folder, "coach.html"), coachHtml(data));
      const { pagePdf } = await import("../../main/handover/pdf.edge.ts");
      expect(await pagePdf(join(folder, "coach.html"), join(folder, "coach.pdf"), browserPrinter(CHROMIUM!))).toEqual({
        written: true,
      });
      // Neither the day of printing nor the browser is in it: a lesson has no day.
      expect((await readFile(join(folder, "coach.pdf"))).toString("latin1")).not.toMatch(
        /\(D:\d{8}|Mozilla|CreationDate|ModDate/,
      );
      const text = pdfText(join(folder, "coach.pdf"));
      const numbers: number[] = [];
      JSON.stringify(data.readJson, (key, value: unknown) => {
        if (key === "firstPosition" || key === "lastPosition") return undefined;
        if (typeof value === "number") numbers.push(value);
        return value;
      });
      expect(numbers.length).toBeGreaterThan(60);
      for (const number of numbers) expect(text).toContain(figure("", number));

      const written = await writeHandover(folder, data, {
        printPage: browserPrinter(CHROMIUM!),
        writeFile: writeAtomic,
      });
      expect(written.warnings).toEqual([]);
      const page = pdfText(join(folder, "debrief.pdf"));
      for (const number of visible(pageHtml(data)).match(/\d+(?:[:.]\d+)*/g) ?? []) expect(page).toContain(number);
    },
  );

  test("without Chromium the page is HTML only, and it says so; no half files stay", async () => {
    const folder = await mkdtemp(join(tmpdir(), "hand over "));
    const { written, warnings } = await writeHandover(folder, madeHandover(), {
      printPage: null,
      writeFile: writeAtomic,
    });
    expect(said(warnings)[0]).toContain("debrief.pdf was not made");
    const names = (await readdir(folder, { recursive: true })).sort();
    expect(names).toEqual(
      expect.arrayContaining([
        "debrief.html",
        "coach.html",
        "message.txt",
        "moments.csv",
        "moments.json",
        "captions.vtt",
        "chapters.vtt",
        "chapters.txt",
        "timeline.otio",
      ]),
    );
    expect(names.filter((name) => name.includes(".part"))).toEqual([]);
    expect(written.length).toBe(names.filter((name) => name !== "stills").length);
  });

  test("a Chromium that can't start is a warning, not a failure", async () => {
    const folder = await mkdtemp(join(tmpdir(), "hand over "));
    const { warnings } = await writeHandover(folder, madeHandover(), {
      printPage: browserPrinter("/no/such/chromium"),
      writeFile: writeAtomic,
    });
    expect(said(warnings)[0]).toContain("could not be started");
  });

  test("nothing written holds the place of the ride, nor what only the coach may see", async () => {
    const folder = await mkdtemp(join(tmpdir(), "hand over "));
    const { written } = await writeHandover(folder, madeHandover(), { printPage: null, writeFile: writeAtomic });
    for (const path of written) {
      const bytes = (await readFile(path)).toString("latin1");
      for (const place of ["47.12", "47.13", "11.65", "11.66"])
        expect(bytes.includes(place), `${path} holds ${place}`).toBe(false);
      if (!path.endsWith("coach.html")) expect(bytes).not.toContain("oddHeart");
    }
  });

  test("a lesson holds none of the athlete's words", async () => {
    const folder = await mkdtemp(join(tmpdir(), "hand over "));
    const data = madeHandover({ forWhom: "lesson", asPercent: true });
    const { written } = await writeHandover(folder, data, { printPage: null, writeFile: writeAtomic });
    expect(written.map((path) => path.slice(folder.length + 1))).not.toContain("coach.html");
    for (const path of written.filter((one) => !one.endsWith(".png"))) {
      const text = await readFile(path, "utf8");
      expect(text).not.toMatch(/Ines|Falk|Three Valleys|17 May|evening-loop|shoulders|keep at it/);
      if (path.endsWith("debrief.html")) expect(visible(text)).not.toMatch(/\d W\b/);
    }
  });

  test("the message has five lines", async () => {
    const { message } = await import("../../main/handover/message.ts");
    for (const forWhom of ["athlete", "lesson"] as const) {
      const lines = message(madeHandover({ forWhom })).split("\n");
      expect(lines).toHaveLength(6);
      expect(lines[5]).toBe("");
      expect(lines.slice(0, 5).every((line) => line.length > 5)).toBe(true);
    }
  });
});
