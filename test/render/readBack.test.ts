/** Numbers read off rendered frames by an OCR program (tesseract) against the ride's own. */
import { join } from "node:path";
import { expect, test } from "vitest";
import { isOnPath } from "../../main/setup/tools.mjs";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { PRESETS } from "../../main/render/presets.ts";
import { renderFilm } from "../../main/render/renderFilm.edge.ts";
import { panelValuesAt, type PanelValues } from "../../overlay/instant/panelValuesAt.ts";
import { layoutFor, type PanelName } from "../../overlay/layout/layout.ts";
import { panelTexts } from "../../overlay/layout/panelTexts.ts";
import { testTools } from "../support/tools.ts";
import { runProgram, scratchFolder, writeNumberedClip } from "../support/video.ts";
import { countingRide, filmOf, layoutOptionsFor, quietContext, shotOf } from "./filmFixtures.ts";

const FIELDS: readonly PanelName[] = ["heartRate", "cadence", "power", "speed", "time"];
const needed = (process.env["FOLLOWCAR_REQUIRE"] ?? "").split(",").includes("tesseract");
const there = isOnPath("tesseract");
if (!there && needed) throw new Error("FOLLOWCAR_REQUIRE names tesseract, and none was found");
if (!there) process.stderr.write("tesseract is not installed: figures are not read back from frames\n");

const WIDTH = 1280;
const HEIGHT = 720;
const FRAMES = 44;

test.skipIf(!there)("a reading program finds the ride's own figures on at least 200 fields, none wrong", { timeout: 400_000 }, async () => {
  const tools = testTools();
  const scratch = await scratchFolder();
  try {
    const path = join(scratch.path, "clip.mp4");
    await writeNumberedClip(path, { widthPx: WIDTH, heightPx: HEIGHT, frames: FRAMES, rate: "10" }, tools);
    const clip = await probeClip(path, "c1", tools);
    // Every frame is another minute or so of the ride, so that all digits come up in all places.
    const clock = { offsetS: 7, rate: 611 };
    const columns = countingRide(3000);
    const layoutOptions = { ...layoutOptionsFor(WIDTH, HEIGHT), headLine: false, showPlan: false, showThread: false };
    const outPath = join(scratch.path, "film.mp4");
    const film = filmOf(clip, [shotOf(clip, 0, FRAMES / 10, { clock })]);
    const job = { film, clips: [clip], columns, outPath, preset: PRESETS.share, layoutOptions, cacheDir: join(scratch.path, "cache") };
    expect(await renderFilm(job, tools, quietContext())).toMatchObject({ kind: "done", value: { frames: FRAMES } });

    const layout = layoutFor(layoutOptions);
    const wrong: string[] = [];
    let fields = 0;
    for (const name of FIELDS) {
      const place = layout.panels.find((candidate) => candidate.name === name);
      if (place === undefined) throw new Error(`no panel ${name}`);
      const figure = {
        x: layout.band.x + place.rect.x,
        y: layout.band.y + Math.round(place.baselineY - place.figurePx * 0.86),
        width: place.rect.width,
        height: Math.round(place.figurePx * 1.02),
      };
      // One tall picture of this field in all frames, dark on white, as the program likes it.
      const sheet = join(scratch.path, `${name}.png`);
      await runProgram(tools.ffmpeg, [
        ...["-v", "error", "-i", outPath, "-vf"],
        `crop=${figure.width}:${figure.height}:${figure.x}:${figure.y},format=gray,lutyuv=y='255*gt(235-val*1.0,60)',scale=iw*2:ih*2,pad=iw+80:ih+60:40:30:white,tile=1x${FRAMES}`,
        ...["-frames:v", "1", sheet],
      ]);
      const text = (await runProgram("tesseract", [sheet, "-", "--psm", "6", "-c", "tessedit_char_whitelist=0123456789.:bpmrWk/h"])).toString();
      const lines = text.split("\n").filter((line) => /\d/.test(line));
      for (let frame = 0; frame < FRAMES; frame += 1) {
        const expected = panelTexts(name, valuesAt(columns, clock, frame), layoutOptions).figure;
        const read = /^[\d.:]+/.exec((lines[frame] ?? "").trim())?.[0] ?? "";
        fields += 1;
        if (read !== expected) wrong.push(`${name} at frame ${frame}: ${expected}, read as ${lines[frame] ?? "nothing"}`);
      }
    }
    expect(wrong).toEqual([]);
    expect(fields).toBeGreaterThanOrEqual(200);
  } finally {
    await scratch.remove();
  }
});

function valuesAt(columns: ReturnType<typeof countingRide>, clock: { offsetS: number; rate: number }, frame: number): PanelValues {
  return panelValuesAt(columns, clock.offsetS + (clock.rate * frame) / 10);
}
