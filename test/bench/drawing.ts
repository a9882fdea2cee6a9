// What one panel picture costs: drawn, read back and converted, as the film's painting child does it.
import { panelValuesAt } from "../../overlay/instant/panelValuesAt.ts";
import { threadPageAt } from "../../overlay/instant/threadPageAt.ts";
import { createPanelPainter } from "../../overlay/panels/paintPanels.ts";
import { createBandPicture } from "../../main/render/bandPicture.edge.ts";
import { sampleLayout, samplePage } from "../overlay/support/paintedBand.ts";
import { sampleRide } from "../overlay/support/sampleRide.ts";

const STEP_S = 0.2;
/** Steps of a page. */
const PAGE = 580;

interface Cost {
  readonly drawMs: number;
  readonly readMs: number;
  readonly bothMs: number;
  /** Mean processor time of a picture: what a busy machine leaves unchanged. */
  readonly cpuMs: number;
  readonly pixels: number;
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
}

/** One page of the thread, five pictures a second, over and over; the first page is left out (cold). */
function costAt(width: number, height: number): Cost {
  const columns = sampleRide();
  const layout = sampleLayout(columns, width, height, { headLine: false });
  const painter = createPanelPainter(layout, { bandW: columns.bandW });
  const picture = createBandPicture(layout.band.width, layout.band.height, "yuva420p");
  const drawMs: number[] = [];
  const readMs: number[] = [];
  let pixels = 0;
  let cpuFrom = process.cpuUsage();
  for (let k = 0; k < 4 * PAGE; k += 1) {
    if (k === PAGE) cpuFrom = process.cpuUsage();
    const rideS = samplePage.startS + 2 + (k % PAGE) * STEP_S;
    const values = panelValuesAt(columns, rideS);
    const page = threadPageAt(columns, samplePage, rideS);
    const startedMs = performance.now();
    const changed = painter.paint(picture.surface, values, page);
    const drawnMs = performance.now();
    picture.read(changed);
    const readAtMs = performance.now();
    if (k < PAGE) continue;
    drawMs.push(drawnMs - startedMs);
    readMs.push(readAtMs - drawnMs);
    pixels += changed.reduce((sum, rect) => sum + rect.width * rect.height, 0);
  }
  const cpu = process.cpuUsage(cpuFrom);
  return {
    drawMs: median(drawMs),
    readMs: median(readMs),
    bothMs: median(drawMs.map((ms, k) => ms + readMs[k]!)),
    cpuMs: (cpu.user + cpu.system) / 1000 / drawMs.length,
    pixels: pixels / drawMs.length,
  };
}

/** Prints the cost of a panel picture at three sizes; the aim at 1080p is 1.5 ms, conversion included. */
export function drawingBench(): void {
  process.stdout.write("panel picture (six panels, thread, five a second), warm\n");
  process.stdout.write(
    "size        drawn      read and converted   together (medians)   processor time (mean)   changed pixels\n",
  );
  for (const [width, height] of [
    [1280, 720],
    [1920, 1080],
    [3840, 2160],
  ] as const) {
    const cost = costAt(width, height);
    const cell = (ms: number, room: number): string => `${ms.toFixed(2)} ms`.padStart(room);
    process.stdout.write(
      `${`${width}x${height}`.padEnd(9)}${cell(cost.drawMs, 8)}${cell(cost.readMs, 22)}${cell(cost.bothMs, 21)}` +
        `${cell(cost.cpuMs, 24)}${Math.round(cost.pixels).toString().padStart(17)}\n`,
    );
  }
}
