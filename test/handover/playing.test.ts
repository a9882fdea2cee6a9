// The page that plays: one file from a disk, its own script and no other, and whatever is touched takes the film to the
// very place that the film's clock says.
import AxeBuilder from "@axe-core/playwright";
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdtempSync, readFileSync, rmSync, truncateSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { HtmlValidate } from "html-validate";
import { chromium, type Browser, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { filmRuns } from "../../overlay/instant/filmRuns.ts";
import { filmCaptions, filmChapters } from "../../main/handover/filmText.ts";
import { playingHtml } from "../../main/handover/playingHtml.tsx";
import { PLAYING_SCRIPT } from "../../main/handover/playingScript.ts";
import { writeHandover } from "../../main/handover/writeHandover.edge.ts";
import { writeAtomic } from "../../main/host/writeAtomic.edge.ts";
import { filmClock } from "../../overlay/instant/filmClock.ts";
import { rideTimeAt } from "../../overlay/instant/rideTimeAt.ts";
import { debriefWords } from "../../overlay/words/debriefWords.ts";
import { said } from "../support/said.ts";
import { testTools } from "../support/tools.ts";
import { madeHandover } from "./madeHandover.ts";

const CHROMIUM = ["/usr/bin/chromium", "/usr/bin/google-chrome"].find((path) => existsSync(path)) ?? null;
const needed = (process.env["FOLLOWCAR_REQUIRE"] ?? "").split(",").includes("chromium");
const withChromium = it.skipIf(CHROMIUM === null && !needed);
if (CHROMIUM === null) console.warn("no Chromium here: the page that plays is not played");

const data = madeHandover();
const clock = filmClock(data.film);
const runs = filmRuns(data.film);
const hash = createHash("sha256").update(PLAYING_SCRIPT).digest("base64");
let folder = "";
let filmPath = "";
let pagePath = "";

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "hand over "));
  filmPath = join(folder, "film.mp4");
  const picture = `testsrc2=size=160x90:rate=10:duration=${clock.lengthS}`;
  const options = ["-v", "error", "-f", "lavfi", "-i", picture, "-c:v", "libx264", "-preset", "ultrafast", "-g", "10"];
  execFileSync(testTools().ffmpeg, [...options, "-pix_fmt", "yuv420p", "-y", `file:${filmPath}`]);
  const tools = { printPage: null, writeFile: writeAtomic, playingFilm: filmPath };
  const { written } = await writeHandover(folder, data, tools);
  pagePath = join(folder, "playing.html");
  expect(written).toContain(pagePath);
}, 120_000);

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("its file", () => {
  it("holds the whole film, byte for byte, and the one script that its policy allows", () => {
    const page = readFileSync(pagePath, "latin1");
    const [, bytes] = /id="film-bytes">([^<]*)</.exec(page)!;
    expect(Buffer.from(bytes!, "base64").equals(readFileSync(filmPath))).toBe(true);
    const scripts = [...page.matchAll(/<script>(.*?)<\/script>/gs)].map(([, text]) => text);
    expect(scripts).toHaveLength(1);
    const allowed = createHash("sha256").update(scripts[0]!, "latin1").digest("base64");
    const policy = /Content-Security-Policy" content="([^"]*)"/.exec(page)![1]!.replaceAll("&#x27;", "'");
    expect(policy).toContain(`script-src 'sha256-${allowed}'; media-src blob:`);
    expect(policy).toContain("default-src 'none'");
    expect(PLAYING_SCRIPT).not.toMatch(/fetch|XMLHttp|WebSocket|import|eval|innerHTML|<\//);
  });

  it.each([
    ["English", data],
    ["German", madeHandover({ language: "de" })],
    ["lesson", madeHandover({ forWhom: "lesson", asPercent: true })],
  ])("is valid HTML: %s", async (_, made) => {
    const report = await new HtmlValidate({
      extends: ["html-validate:recommended", "html-validate:document"],
      rules: { "require-csp-nonce": "off" },
    }).validateString(playingHtml(made, hash));
    expect(report.results.flatMap(({ messages }) => messages.map((one) => `${one.ruleId} ${one.message}`))).toEqual([]);
  });

  it("is not made of a film too large for it, goes when it is not wished, and says why", async () => {
    const large = join(folder, "large.mp4");
    truncateSync(filmPath, readFileSync(filmPath).length);
    execFileSync("truncate", ["-s", "160M", large]);
    const tools = { printPage: null, writeFile: writeAtomic };
    const other = mkdtempSync(join(tmpdir(), "hand over "));
    const made = await writeHandover(other, data, { ...tools, playingFilm: large });
    expect(said(made.warnings).join()).toContain("playing.html was not made: the film has 168 MB");
    await writeHandover(other, data, { ...tools, playingFilm: filmPath });
    expect(existsSync(join(other, "playing.html"))).toBe(true);
    await writeHandover(other, data, tools);
    expect(existsSync(join(other, "playing.html"))).toBe(false);
    rmSync(other, { recursive: true });
  });
});

describe("the film's runs", () => {
  it("are what the film's clock shows at each frame", () => {
    for (let frame = 0; frame < clock.frames; frame += 7) {
      const instant = clock.at(frame)!;
      if (instant.item.type === "card") continue;
      const rideS = rideTimeAt(instant.item.clock, instant.mediaS!);
      const filmS = clock.timeOf(frame);
      const run = runs.findLast((one) => filmS >= one.filmStartS - 1e-9 && filmS < one.filmEndS - 1e-9)!;
      const share = (filmS - run.filmStartS) / (run.filmEndS - run.filmStartS);
      expect(run.rideStartS + share * (run.rideEndS - run.rideStartS)).toBeCloseTo(rideS, 3);
    }
  });
});

describe("in a browser, from a file", () => {
  let browser: Browser | null = null;
  let page: Page;
  const told: string[] = [];
  const asked: string[] = [];
  const filmNow = (): Promise<number> => page.evaluate<number>("document.getElementById('film').currentTime");
  const arrived = async (filmS: number, latestS = filmS): Promise<void> => {
    await expect.poll(filmNow, { timeout: 20_000 }).toBeGreaterThan(filmS - 0.06);
    expect(await filmNow()).toBeLessThan(latestS + 3);
    await page.evaluate("document.getElementById('film').pause()");
  };

  beforeAll(async () => {
    if (CHROMIUM === null) return;
    browser = await chromium.launch({ executablePath: CHROMIUM, args: ["--no-sandbox"] });
    const phone = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };
    page = await (await browser.newContext(phone)).newPage();
    page.on("console", (message) => told.push(message.text()));
    page.on("pageerror", (error) => told.push(String(error)));
    page.on("request", (request) => asked.push(request.url()));
    await page.goto(pathToFileURL(pagePath).href);
    await page.waitForFunction("document.getElementById('film').readyState >= 1", null, { timeout: 60_000 });
  }, 120_000);
  afterAll(() => browser?.close());

  withChromium("plays what is in it, asks the network for nothing and breaks no rule of its policy", async () => {
    expect(await page.evaluate<number>("document.getElementById('film').duration")).toBeCloseTo(clock.lengthS, 0);
    expect(told).toEqual([]);
    expect(asked.filter((url) => !/^(file|blob|data):/.test(url))).toEqual([]);
    expect(await page.evaluate("document.documentElement.scrollWidth")).toBeLessThanOrEqual(390);
  });

  withChromium(
    "goes to the part, and to the caption, that is touched",
    async () => {
      const chapters = filmChapters(data.film, data.reading.moments, debriefWords("en"));
      const parts = page.locator("[data-part]");
      expect(await parts.count()).toBe(chapters.length);
      await parts.nth(3).tap();
      await arrived(chapters[3]!.startS);
      await expect.poll(() => parts.nth(3).getAttribute("aria-current")).toBe("true");
      const caption = filmCaptions(data.film).find(
        ({ startS, text }) => runs.some((run) => startS > run.filmStartS + 1 && startS < run.filmEndS) && text !== "",
      )!;
      await page
        .locator(`[data-film="${caption.startS.toFixed(3)}"]`)
        .last()
        .tap();
      await arrived(caption.startS);
    },
    90_000,
  );

  withChromium(
    "goes to the instant of the ride that is touched on the chart, and shows where it is",
    async () => {
      const run = runs.find(({ rideStartS, rideEndS }) => rideEndS > rideStartS + 5)!;
      const wishedS = (run.rideStartS + run.rideEndS) / 2;
      const chart = page.locator("#chart");
      await chart.scrollIntoViewIfNeeded();
      const drawn = JSON.parse((await chart.getAttribute("data-drawn"))!) as Record<string, number>;
      const box = (await chart.boundingBox())!;
      const xOf = (rideS: number): number =>
        box.width *
        (drawn.left! + ((rideS - drawn.startS!) / (drawn.endS! - drawn.startS!)) * (drawn.right! - drawn.left!));
      await chart.tap({ position: { x: xOf(wishedS), y: box.height / 2 } });
      // A pixel of the chart is so many seconds of the ride: the film stands within the shot nearest to the touch.
      await arrived(run.filmStartS, run.filmEndS);
      const now = await filmNow();
      const at = runs.find(({ filmStartS, filmEndS }) => now >= filmStartS && now < filmEndS)!;
      const rideS =
        at.rideStartS + ((now - at.filmStartS) / (at.filmEndS - at.filmStartS)) * (at.rideEndS - at.rideStartS);
      const pixelS = (drawn.endS! - drawn.startS!) / box.width;
      expect(Math.abs(rideS - wishedS)).toBeLessThan(pixelS + 5);
      const needle = (await page.locator("#needle").boundingBox())!;
      expect(Math.abs(needle.x + 1 - box.x - xOf(rideS))).toBeLessThan(2);
    },
    90_000,
  );

  withChromium(
    "has nothing that axe finds",
    async () => {
      const found = await new AxeBuilder({ page }).analyze();
      expect(found.violations.map((one) => `${one.id}: ${one.nodes[0]?.html}`)).toEqual([]);
    },
    60_000,
  );
});
