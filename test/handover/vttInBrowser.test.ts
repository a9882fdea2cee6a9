// Captions and chapters as a browser's own WebVTT parser reads them: the parser of the specification's algorithm.
import { existsSync } from "node:fs";
import { chromium } from "playwright-core";
import { expect, test } from "vitest";
import { filmCaptions, filmChapters } from "../../main/handover/filmText.ts";
import { webVtt } from "../../main/handover/webVtt.ts";
import { debriefWords } from "../../overlay/words/debriefWords.ts";
import { madeHandover } from "./madeHandover.ts";

const CHROMIUM = ["/usr/bin/chromium", "/usr/bin/google-chrome"].find((path) => existsSync(path)) ?? null;
const needed = (process.env["FOLLOWCAR_REQUIRE"] ?? "").split(",").includes("chromium");
if (CHROMIUM === null) console.warn("no Chromium here: WebVTT is not read by a browser");

test.skipIf(CHROMIUM === null && !needed)("a browser reads every cue with its time and words", async () => {
  const data = madeHandover();
  const hostile = [{ startS: 1, endS: 2.5, text: "a --> b & <i>c</i>\n\nd" }];
  const files = [filmCaptions(data.film), filmChapters(data.film, data.reading.moments, debriefWords("en")), hostile];
  const browser = await chromium.launch({ executablePath: CHROMIUM ?? "chromium", args: ["--no-sandbox"] });
  try {
    const page = await browser.newPage();
    await page.setContent("<video></video>");
    for (const texts of files) {
      const url = `data:text/vtt;base64,${Buffer.from(webVtt(texts)).toString("base64")}`;
      const read = await page.evaluate<
        { startS: number; endS: number; text: string }[]
      >(`new Promise((resolve, reject) => {
        const track = document.createElement("track");
        track.onload = () => resolve([...track.track.cues].map((cue) => ({ startS: cue.startTime, endS: cue.endTime, text: cue.getCueAsHTML().textContent })));
        track.onerror = () => reject(new Error("not WebVTT"));
        document.querySelector("video").append(track);
        track.track.mode = "hidden";
        track.src = ${JSON.stringify(url)};
      })`);
      expect(read).toHaveLength(texts.length);
      read.forEach((cue, at) => {
        expect(cue.startS).toBeCloseTo(texts[at]!.startS, 3);
        expect(cue.endS).toBeCloseTo(texts[at]!.endS, 3);
        expect(cue.text).toBe(texts[at]!.text.replaceAll(/\n+/g, "\n"));
      });
    }
  } finally {
    await browser.close();
  }
});
