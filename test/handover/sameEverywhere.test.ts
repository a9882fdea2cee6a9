// One set of figures on every way out: what stands on the page stands in its PDF, and the window and the command line
// say what page and message say. Over all rides at hand (FOLLOWCAR_DATA=DIR: over those as well).
import { execFileSync, spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { pageHtml } from "../../main/handover/pageHtml.tsx";
import { pagePdf } from "../../main/handover/pdf.edge.ts";
import { browserPrinter } from "../../main/host/browserPrinter.edge.ts";
import { wordsOfStanding } from "../../main/journey/handOver.ts";
import { readLines } from "../../main/journey/judge.ts";
import { differencesOf } from "../support/differences.ts";
import {
  bareRidePlan,
  pageText,
  ridesWithSensors,
  type RideWords,
  sensiblePlan,
  wordsOf,
} from "../support/rideWords.ts";

const CHROMIUM = ["/usr/bin/chromium", "/usr/bin/google-chrome"].find((path) => existsSync(path)) ?? null;
const required = (process.env["FOLLOWCAR_REQUIRE"] ?? "").split(",");
const canPrint =
  (CHROMIUM !== null && spawnSync("pdftotext", ["-v"]).status === 0) ||
  (required.includes("chromium") && required.includes("pdftotext"));
const data = process.env["FOLLOWCAR_DATA"];
const folders = [
  "test/fixtures/rides",
  ...(data === undefined ? [] : ["fit", "gpx", "tcx"].map((kind) => join(data, kind))),
];

const folder = mkdtempSync(join(tmpdir(), "same everywhere "));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const said: { readonly name: string; readonly words: RideWords }[] = [];
beforeAll(async () => {
  for (const { name, ride } of await ridesWithSensors(folders))
    said.push({ name, words: await wordsOf(ride, sensiblePlan(ride)) });
}, 300_000);

const bare = (text: string): string => text.replaceAll(/[\s\u00a0]+/g, "");

describe("what is said", () => {
  it("is the same in window, command line, message and page", async () => {
    expect(said.length).toBeGreaterThanOrEqual(data === undefined ? 3 : 25);
    for (const { name, words } of said) {
      const { lines, message } = await wordsOfStanding(words.standing);
      expect(message, name).toBe(words.message);
      const page = words.page.split("\n");
      for (const { what, text } of lines)
        for (const line of text.split("\n").filter((one) => one !== "")) {
          expect(page, `${name}: ${what}`).toContain(line.replaceAll("\u00a0", " "));
          if (["held", "change", "next"].includes(what))
            expect(bare(message), `${name}: ${what}`).toContain(bare(line));
        }
      // The window's reading and the coach's page are what `read` prints.
      const coach = bare(words.coach);
      const printed = readLines(words.standing.judged, "en").filter((line) => line !== "");
      expect(printed.length).toBeGreaterThan(3);
      for (const line of printed) expect(coach, name).toContain(bare(line));
    }
  }, 120_000);

  it("is the same field by field, in both languages, with a plan and without", async () => {
    let fields = 0;
    let planted = 0;
    for (const { name, words } of said)
      for (const plan of [words.standing.document.plan, bareRidePlan(words.standing.judged.ride)]) {
        const { ride } = words.standing.judged;
        const [en, de] = [await wordsOf(ride, plan), await wordsOf(ride, plan, { language: "de" })];
        const compared = await differencesOf(en, de);
        expect(compared.differences, name).toEqual([]);
        fields += compared.fields;
        // A figure that differs in one place is seen.
        for (const wrong of [en.page.replace(/(Power, mean|Heart rate, mean)( \|[^|]*\| )\d+/, "$1$21"), ""]) {
          if (wrong === en.page) continue;
          planted++;
          expect((await differencesOf({ ...en, page: wrong }, de)).differences.length, name).toBeGreaterThan(0);
        }
      }
    expect(fields).toBeGreaterThan(1000);
    expect(planted).toBeGreaterThan(10);
  }, 300_000);

  it.skipIf(!canPrint)(
    "is the same on paper: every line and every row of the page",
    async () => {
      const printer = browserPrinter(CHROMIUM ?? "chromium");
      let figures = 0;
      for (const { name, words } of said) {
        const html = pageHtml(words.data);
        writeFileSync(join(folder, "page.html"), html);
        await pagePdf(join(folder, "page.html"), join(folder, "page.pdf"), printer);
        const paper = bare(execFileSync("pdftotext", ["-raw", join(folder, "page.pdf"), "-"], { encoding: "utf8" }));
        // In the order in which it was written, so that a table beside a chart stays whole. Drawings are told by a description that is not printed.
        for (const line of pageText(html)
          .split("\n")
          .filter((one) => !one.startsWith("["))) {
          expect(paper, `${name}: ${line}`).toContain(bare(line.replaceAll("|", "")));
          figures += line.match(/\d+/g)?.length ?? 0;
        }
      }
      expect(figures).toBeGreaterThan(40);
    },
    300_000,
  );
});
