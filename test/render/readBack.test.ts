/** Numbers read off rendered frames of the demo by an OCR program (tesseract) against the demo ride's own. */
import type { PanelName } from "../../main/contract/filmLook.ts";
import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import { createCanvas } from "@napi-rs/canvas";
import { expect, test } from "vitest";
import { demoClips } from "../../main/demo/demoClips.ts";
import { demoPlan } from "../../main/demo/demoPlan.ts";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { filmClips } from "../../main/demo/filmClips.edge.ts";
import { DEMO_SEED } from "../../main/demo/makeDemo.edge.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { parsePlan } from "../../main/reading/plan/parsePlan.ts";
import { read } from "../../main/reading/read.ts";
import { rideColumns } from "../../main/reading/rideColumns.ts";
import { parseRide } from "../../main/ride/parseRide.ts";
import { isOnPath } from "../../main/setup/tools.mjs";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { PRESETS } from "../../main/contract/presets.ts";
import { renderFilm } from "../../main/render/renderFilm.edge.ts";
import { panelValuesAt, type PanelValues } from "../../overlay/instant/panelValuesAt.ts";
import { CAP_HEIGHT, textWidthPx } from "../../overlay/drawText.ts";
import { layoutFor, type PanelPlace } from "../../overlay/layout/layout.ts";
import { panelTexts } from "../../overlay/layout/panelTexts.ts";
import type { Rect } from "../../overlay/surface.ts";
import { testCanvas } from "../support/canvas.ts";
import { testTools } from "../support/tools.ts";
import { lumaFrames, runProgram, scratchFolder } from "../support/video.ts";
import { filmOf, layoutOptionsFor, quietContext, shotOf } from "./filmFixtures.ts";

const FIELDS: readonly PanelName[] = ["heartRate", "cadence", "power", "speed", "time"];
const needed = (process.env["FOLLOWCAR_REQUIRE"] ?? "").split(",").includes("tesseract");
const there = isOnPath("tesseract");
if (!there && needed) throw new Error("FOLLOWCAR_REQUIRE names tesseract, and none was found");
if (!there) process.stderr.write("tesseract is not installed: figures are not read back from frames\n");

const WIDTH = 1280;
const HEIGHT = 720;
const FRAMES = 48;
/** The film's rate: each frame shows another picture of the clip and another minute or so of the ride. */
const RATE = { num: 5, den: 1 };

test.skipIf(!there)(
  "a reading program finds the ride's own figures on at least 200 fields, none wrong",
  { timeout: 400_000 },
  async () => {
    const tools = testTools();
    const scratch = await scratchFolder();
    try {
      const truth = demoRide(DEMO_SEED);
      const [filmed] = demoClips(truth, true);
      const order = {
        seed: truth.seed,
        clip: filmed!,
        outDir: scratch.path,
        picture: { widthPx: 320, heightPx: 180 },
        tools,
      };
      const [path] = await filmClips([order], new AbortController().signal, () => undefined);
      const clip = await probeClip(path!, "c1", tools);
      const ride = parseRide(demoRideFile(truth), "ride.fit");
      const columns = rideColumns(ride, read(ride, parsePlan(demoPlan(truth), "plan.json"), []));
      const clock = { offsetS: 7, rate: (columns.seconds - 20) / (FRAMES / RATE.num) };
      const layoutOptions = { ...layoutOptionsFor(WIDTH, HEIGHT), headLine: false, showPlan: false, showThread: false };
      const outPath = join(scratch.path, "film.mp4");
      const film = filmOf(clip, [shotOf(clip, 0, FRAMES / RATE.num, { clock })], {
        widthPx: WIDTH,
        heightPx: HEIGHT,
        frameRate: RATE,
      });
      const job = {
        film,
        clips: [clip],
        columns,
        outPath,
        preset: PRESETS.share,
        layoutOptions,
        cacheDir: join(scratch.path, "cache"),
      };
      expect(await renderFilm(job, tools, quietContext())).toMatchObject({ kind: "done", value: { frames: FRAMES } });

      const layout = layoutFor(layoutOptions);
      const valuesAt = (frame: number): PanelValues => {
        // The source frame that is seen: the nearest to the film's instant.
        const { ticks, timescale } = clip.frames;
        const wantedS = (frame * RATE.den) / RATE.num;
        const mediaS = Array.from(ticks, (tick) => tick / timescale).reduce((nearest, time) =>
          Math.abs(time - wantedS) < Math.abs(nearest - wantedS) ? time : nearest,
        );
        return panelValuesAt(columns, clock.offsetS + clock.rate * mediaS);
      };
      const lumas = await lumaFrames(outPath, WIDTH, HEIGHT, tools);
      const wrong: string[] = [];
      let fields = 0;
      for (const name of FIELDS) {
        const place = layout.panels.find((candidate) => candidate.name === name);
        if (place === undefined) throw new Error(`no panel ${name}`);
        // A dash has no digit to read; dashes are tested elsewhere.
        const shown = Array.from({ length: FRAMES }, (_, frame) => ({
          frame,
          figure: panelTexts(name, valuesAt(frame), layoutOptions).figure,
        })).filter(({ figure }) => /\d/.test(figure));
        const sheet = join(scratch.path, `${name}.png`);
        const pictures = shown.map(({ frame }) => lumas[frame]!);
        await writeFile(
          sheet,
          figuresSheet(
            pictures,
            shown.map(({ figure }) => figure),
            place,
            layout.band,
          ),
        );
        const text = (
          await runProgram("tesseract", [sheet, "-", "--psm", "6", "-c", "tessedit_char_whitelist=0123456789.:"])
        ).toString();
        const lines = text.split("\n").filter((line) => /\d/.test(line));
        shown.forEach(({ frame, figure }, k) => {
          fields += 1;
          if ((lines[k] ?? "").trim() !== figure)
            wrong.push(`${name} at frame ${frame}: ${figure}, read as ${lines[k] ?? "nothing"}`);
        });
      }
      expect(wrong).toEqual([]);
      expect(fields).toBeGreaterThanOrEqual(200);
    } finally {
      await scratch.remove();
    }
  },
);

/** Height of a figure that tesseract reads best, px: at twice this it takes flat-topped threes for fives. */
const FIGURE_HEIGHT_PX = 27;
const LINE_GAP_PX = 24;

/** One field of every frame, one under the other, dark on white and at the size that the reading program likes. */
function figuresSheet(lumas: readonly Buffer[], figures: readonly string[], place: PanelPlace, band: Rect): Buffer {
  const height = Math.round(place.figurePx * 1.04);
  const scale = FIGURE_HEIGHT_PX / (place.figurePx * CAP_HEIGHT);
  const width = Math.max(...figures.map((figure) => widthOf(figure, place)));
  const { canvas, context } = testCanvas(
    Math.ceil((width + 60) * scale),
    Math.ceil((height + LINE_GAP_PX) * figures.length * scale),
  );
  context.fillStyle = "#fff";
  context.fillRect(0, 0, canvas.width, canvas.height);
  const left = band.x + place.x - 2;
  const top = band.y + Math.round(place.baselineY - place.figurePx * 0.87);
  figures.forEach((figure, frame) => {
    const own = widthOf(figure, place);
    const piece = createCanvas(own, height);
    const pixels = piece.getContext("2d").createImageData(own, height);
    for (let k = 0; k < own * height; k += 1) {
      const luma = lumas[frame]?.[(top + Math.floor(k / own)) * WIDTH + left + (k % own)] ?? 0;
      // Ink is at 235; what shows of the road under the scrim stays below 110.
      const ink = Math.min(1, Math.max(0, (luma - 110) / 120));
      pixels.data.set([255 * (1 - ink), 255 * (1 - ink), 255 * (1 - ink), 255], 4 * k);
    }
    piece.getContext("2d").putImageData(pixels, 0, 0);
    const y = (frame * (height + LINE_GAP_PX) + LINE_GAP_PX / 2) * scale;
    context.drawImage(piece, 30 * scale, y, own * scale, height * scale);
  });
  return canvas.toBuffer("image/png");
}

function widthOf(figure: string, place: PanelPlace): number {
  return Math.ceil(textWidthPx(figure, { sizePx: place.figurePx, weight: "strong", tabular: true })) + 4;
}
