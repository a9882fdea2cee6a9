// The strip of a ride of 24 hours, drawn in the installed browser without a graphics card.
import { build } from "esbuild";
import { chromium } from "playwright-core";
import { findTools } from "../../main/setup/tools.mjs";

/** Runs in the page: draws the strip again and again, whole and closer, and waits for its pixels each time. */
const PAGE = `
import { RideLayer } from "./renderer/strip/rideLayer.ts";
window.strip = ({ hours, widthPx, heightPx, ratio, draws }) => {
  const seconds = hours * 3600;
  let seed = 20261126;
  const chance = () => (seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0) / 2 ** 32;
  const column = (of) => Float64Array.from({ length: seconds }, (_, k) => of(k));
  // Power that wanders about its target within minutes, with short breaks and a stop now and then: about 150 changes of the thread on the whole strip.
  let wander = 0;
  const power30sW = column(() => 183 + (wander = wander * 0.992 + 6 * (chance() - 0.5)));
  const value = column((k) => 128 + k / 6000 + 9 * Math.sin(k / 400) + 3 * (chance() - 0.5));
  const altitudeM = column((k) => 300 + 180 * Math.sin(k / 2600) + 30 * Math.sin(k / 310));
  const pressureState = Uint8Array.from(power30sW, (watts) => (watts < 173 ? 4 : watts > 197 ? 6 : 5));
  for (let k = 0; k < seconds; k += 60 + Math.floor(chance() * 900)) pressureState.fill(1 + Math.floor(chance() * 3), k, k + (chance() < 0.1 ? 600 : 15));
  const state = new Uint8Array(seconds).fill(1);
  const columns = { seconds, mode: "every second", setting: "road", power30sW,
    heartRate: { value, state }, altitudeM, pressureState, bandW: { low: 173, high: 197, target: 185 }, countedStartS: 600, countedEndS: seconds - 600 };
  const reading = { counted: { startS: 600, endS: seconds - 600 }, drift: {
    firstBpm: 128, firstAtS: 1350, lastBpm: 141, lastAtS: seconds - 900, onsetS: seconds / 2, onsetLowS: seconds / 2 - 900, onsetHighS: seconds / 2 + 900 } };
  const moments = Array.from({ length: 40 }, (_, index) => ({ index, startS: (index + 0.5) * seconds / 40, endS: (index + 0.5) * seconds / 40 + 40,
    keep: [null, true, false][index % 3], words: "off for 40 s, unexplained" }));
  const coverage = Array.from({ length: 12 }, (_, k) => ({ clipId: "clip" + k, name: "bar-" + k + ".mp4",
    startS: k * seconds / 12, endS: (k + 0.7) * seconds / 12, sure: k % 4 !== 0 }));
  const canvas = document.querySelector("canvas");
  canvas.width = widthPx * ratio;
  canvas.height = heightPx * ratio;
  const context = canvas.getContext("2d");
  const colours = { ground: "#15181b", raised: "#1e2226", sunk: "#0f1113", ink: "#f2f0ea", quiet: "#a5aaa8", line: "#3a4045",
    band: "#2c3a3a", off: "#ff7a66", above: "#f2b84b", wrong: "#ff7a66" };
  const layer = new RideLayer();
  const timed = (spanOf) => {
    const ms = [];
    for (let k = 0; k < draws; k++) {
      context.setTransform(ratio, 0, 0, ratio, 0, 0);
      const began = performance.now();
      layer.paint(context, { widthPx, heightPx, textPx: 14.1, colours }, { columns, reading, coverage, moments, selected: k % 40 }, spanOf(k));
      const ordered = performance.now() - began;
      // The browser draws when it is asked for pixels.
      context.getImageData(widthPx >> 1, heightPx >> 1, 1, 1);
      ms.push([ordered, performance.now() - began]);
    }
    const sorted = (n) => ms.map((one) => one[n]).sort((a, b) => a - b);
    return { orderedMs: sorted(0)[draws >> 1], drawnMs: sorted(1)[draws >> 1], leastMs: sorted(1)[0] };
  };
  const all = { fromS: 0, toS: seconds };
  return [timed(() => all), timed(() => ({ ...all })), timed((k) => ({ fromS: 600 * (k % 9), toS: 600 * (k % 9) + 3600 }))];
};`;

interface Times {
  readonly orderedMs: number;
  readonly drawnMs: number;
  readonly leastMs: number;
}

const REDRAWS = ["another moment chosen", "the whole drawn anew", "one hour of it drawn anew"];
const WIDTHS = [
  { widthPx: 1280, ratio: 1 },
  { widthPx: 1440, ratio: 2 },
];

/** Prints how long a redraw takes: our part (what the window's thread is held up by), and until its pixels are there. */
export async function benchStrip(): Promise<void> {
  const { outputFiles } = await build({
    stdin: { contents: PAGE, resolveDir: process.cwd(), loader: "ts" },
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
        (given) => (globalThis as unknown as { strip: (given: unknown) => Times[] }).strip(given),
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
