// A transparent track laid over a known picture gives what the panels painted straight onto that picture give: the
// expectation is reckoned from the painter's own pixels, never from a file that was written.
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { PRESETS } from "../../main/contract/presets.ts";
import type { Clip } from "../../main/contract/footage.ts";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import type { AlphaCodec } from "../../main/render/alphaTrack.ts";
import { planPart } from "../../main/render/planFilm.ts";
import { planParts } from "../../main/render/planParts.ts";
import { panelJob, renderFilm, type FilmJob } from "../../main/render/renderFilm.edge.ts";
import { layoutFor } from "../../overlay/layout/layout.ts";
import { createPanelPainter } from "../../overlay/panels/paintPanels.ts";
import { testCanvas } from "../support/canvas.ts";
import { testTools } from "../support/tools.ts";
import { runProgram, scratchFolder, writeNumberedClip } from "../support/video.ts";
import { countingRide, filmOf, layoutOptionsFor, quietContext, shotOf } from "./filmFixtures.ts";

const WIDTH = 640;
const HEIGHT = 360;
const FRAMES = 6;
const tools = testTools();
let scratch: Awaited<ReturnType<typeof scratchFolder>>;
let clip: Clip;

beforeAll(async () => {
  scratch = await scratchFolder();
  const path = join(scratch.path, "clip.mp4");
  await writeNumberedClip(path, { widthPx: WIDTH, heightPx: HEIGHT, frames: FRAMES, rate: "25" }, tools);
  clip = await probeClip(path, "clip", tools);
});
afterAll(() => scratch.remove());

/** Red, green, blue of 255: every brightness, saturated colours in bars, black and white. */
function knownPicture(x: number, y: number): readonly [number, number, number] {
  const bar = Math.floor((8 * x) / WIDTH);
  const level = (255 * ((y * 37 + x) % HEIGHT)) / (HEIGHT - 1);
  return [bar & 1 ? level : 255 - level, bar & 2 ? 255 : level, bar & 4 ? level : 0].map(Math.round) as unknown as [
    number,
    number,
    number,
  ];
}

function jobFor(transparent: AlphaCodec): FilmJob {
  return {
    film: filmOf(clip, [shotOf(clip, 0, clip.durationS)]),
    clips: [clip],
    columns: countingRide(400),
    outPath: join(scratch.path, `${transparent}.mov`),
    preset: PRESETS.share,
    layoutOptions: { ...layoutOptionsFor(WIDTH, HEIGHT), headLine: false },
    cacheDir: join(scratch.path, "cache"),
    transparent,
  };
}

/** The panels of the first frame, straight colour and alpha of 255, as the painter gives them. */
function paintedPanels(job: FilmJob): Uint8ClampedArray {
  const layout = layoutFor({ ...job.layoutOptions, widthPx: WIDTH, heightPx: HEIGHT });
  const { shown } = planPart(panelJob(job, layout), planParts(job.film)[0]!).panels[0]!;
  const { context } = testCanvas(layout.band.width, layout.band.height);
  const painter = createPanelPainter(layout, { bandW: job.columns.bandW });
  painter.paint(context, shown!.values, shown!.page, shown!.notes);
  const whole = new Uint8ClampedArray(4 * WIDTH * HEIGHT);
  const { data } = context.getImageData(0, 0, layout.band.width, layout.band.height);
  for (let y = 0; y < layout.band.height; y += 1) {
    const row = data.subarray(4 * y * layout.band.width, 4 * (y + 1) * layout.band.width);
    whole.set(row, 4 * ((layout.band.y + y) * WIDTH + layout.band.x));
  }
  return whole;
}

/** The largest differences of 255, of alpha and of the colour that is seen over the known picture. */
async function differences(transparent: AlphaCodec): Promise<{ readonly alpha: number; readonly colour: number }> {
  const job = jobFor(transparent);
  expect(await renderFilm(job, tools, quietContext())).toMatchObject({ kind: "done" });
  const raw = ["-frames:v", "1", "-f", "rawvideo", "-pix_fmt", "rgba64le", "pipe:1"];
  const decoded = await runProgram(tools.ffmpeg, [
    ...["-v", "error", "-i", job.outPath, "-vf", "scale=in_color_matrix=bt709:flags=accurate_rnd", ...raw],
  ]);
  const painted = paintedPanels(job);
  let [alpha, colour, inked] = [0, 0, 0];
  for (let y = 0; y < HEIGHT; y += 1) {
    for (let x = 0; x < WIDTH; x += 1) {
      const at = 4 * (y * WIDTH + x);
      const value = (k: number): number => decoded.readUInt16LE(2 * (at + k)) / 257;
      const [wished, found] = [painted[at + 3]! / 255, value(3) / 255];
      if (wished > 0.5) inked += 1;
      alpha = Math.max(alpha, 255 * Math.abs(found - wished));
      knownPicture(x, y).forEach((below, k) => {
        const expected = painted[at + k]! * wished + below * (1 - wished);
        colour = Math.max(colour, Math.abs(value(k) * found + below * (1 - found) - expected));
      });
    }
  }
  expect(inked).toBeGreaterThan(500);
  return { alpha, colour };
}

test("the usual transparent track is right to 2 levels of 255 over any picture", { timeout: 120_000 }, async () => {
  const found = await differences("animation");
  expect(found.alpha).toBeLessThanOrEqual(2);
  expect(found.colour).toBeLessThanOrEqual(2);
});

// Its finest quantiser leaves so much at the edges of figures, in every profile with alpha that ffmpeg writes.
test("ProRes 4444 is right in alpha, and in colour to 3 levels", { timeout: 120_000 }, async () => {
  const found = await differences("prores");
  expect(found.alpha).toBeLessThanOrEqual(1);
  expect(found.colour).toBeLessThanOrEqual(3);
});
