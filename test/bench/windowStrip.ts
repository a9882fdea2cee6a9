// The strip of a ride of 24 hours, drawn in the installed browser without a graphics card.
import { build } from "esbuild";
import { chromium } from "playwright-core";
import { findTools } from "../../main/setup/tools.mjs";
import type { StripAskedOfPage, StripTimes } from "./stripTimes.ts";

const REDRAWS = ["another moment chosen", "the whole drawn anew", "one hour of it drawn anew"];
const WIDTHS = [
  { widthPx: 1280, ratio: 1 },
  { widthPx: 1440, ratio: 2 },
];

/** Prints how long a redraw takes: our part (what the window's thread is held up by), and until its pixels are there. */
export async function benchStrip(): Promise<void> {
  const { outputFiles } = await build({
    entryPoints: ["test/renderer/stripPage.ts"],
    bundle: true,
    write: false,
    format: "iife",
    platform: "browser",
  });
  const browser = await chromium.launch({
    executablePath: findTools().chromium!.path,
    headless: true,
    args: ["--disable-gpu", "--disable-dev-shm-usage"],
  });
  try {
    const page = await browser.newPage();
    await page.setContent("<canvas></canvas>");
    await page.addScriptTag({ content: outputFiles[0]!.text });
    for (const { widthPx, ratio } of WIDTHS) {
      const times = await page.evaluate(
        (given) => (globalThis as unknown as { strip: (given: StripAskedOfPage) => StripTimes[] }).strip(given),
        { hours: 24, widthPx, heightPx: 243, ratio, draws: 60 },
      );
      times.forEach(({ orderedMs, drawnMs, leastMs }, k) => {
        process.stdout.write(
          `strip of a 24 h ride, ${widthPx} px wide, ${ratio === 1 ? "1 device px" : `${ratio} device px`} each, ` +
            `${REDRAWS[k]}: median ${orderedMs.toFixed(1)} ms; until its pixels are there ${drawnMs.toFixed(1)} ms, ` +
            `least ${leastMs.toFixed(1)} ms (wanted: under 8)\n`,
        );
      });
    }
  } finally {
    await browser.close();
  }
}
