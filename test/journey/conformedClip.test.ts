// A clip that its camera made into slow motion shows the ride's own time: an eighth of what it plays.
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { overlayJourney } from "../../main/journey/overlaidClips.ts";
import { PLAIN_OUTPUT } from "../../main/journey/outputChoice.ts";
import { quietContext } from "../render/filmFixtures.ts";
import { testHost, testTools } from "../support/tools.ts";
import { runProgram, writeNumberedClip } from "../support/video.ts";

const WIDTH = 320;
const HEIGHT = 180;
const FRAMES = 240;
const tools = testTools();
let folder = "";
beforeAll(async () => (folder = await mkdtemp(join(tmpdir(), "conformed "))));
afterAll(() => rm(folder, { recursive: true, force: true }));

/** Where the panel of the time changes in a track over a clip that plays 8 s at 30 frames a second, and its pictures. */
async function timePanel(name: string, output: readonly string[], anchor: string) {
  const clipPath = join(folder, `${name}.mp4`);
  await writeNumberedClip(clipPath, { widthPx: WIDTH, heightPx: HEIGHT, frames: FRAMES, rate: "30", output }, tools);
  const ridePath = join(folder, "ride.csv");
  const lines = Array.from({ length: 1200 }, (_, k) => `${k},${180 + (k % 7)},140`);
  await writeFile(ridePath, ["time,power,hr", ...lines].join("\n"));
  const outPath = join(folder, `${name}.mov`);
  const request = {
    paths: [ridePath, clipPath],
    anchors: [`${name}.mp4@0=${anchor}`],
    deviceDelayS: 0,
    show: null,
    acceptUnsure: true,
    plan: { planPath: null, targetW: null, toleranceW: null, setting: null },
    preset: "share",
    outPath,
    look: { panels: ["time"], showThread: false, showPlan: false },
    output: PLAIN_OUTPUT,
    transparent: "animation",
  } as const;
  await overlayJourney(request, testHost(), quietContext());
  const raw = ["-f", "rawvideo", "-pix_fmt", "gray", "pipe:1"];
  const all = await runProgram(tools.ffmpeg, ["-v", "error", "-i", outPath, "-vf", "format=rgba,alphaextract", ...raw]);
  const pictures = Array.from({ length: FRAMES }, (_, k) => all.subarray(k * WIDTH * HEIGHT, (k + 1) * WIDTH * HEIGHT));
  expect(Math.max(...pictures[0]!)).toBeGreaterThan(200);
  const changes = pictures.flatMap((picture, k) => (k > 0 && !picture.equals(pictures[k - 1]!) ? [k] : []));
  return { changes, pictures };
}

test("240 pictures a second conformed to 30 pass one second of the ride in 8", { timeout: 240_000 }, async () => {
  const conformed = ["-movflags", "use_metadata_tags", "-metadata", "com.android.capture.fps=240"];
  const slow = await timePanel("slow", conformed, "0:10:00.5");
  const life = await timePanel("life", [], "0:10:00.5");
  // Half a second of the ride later is 4 s of the slow clip, 120 frames; at the speed of life each second has its change.
  expect(slow.changes).toEqual([120]);
  expect(life.changes).toEqual([15, 45, 75, 105, 135, 165, 195, 225]);
  expect(slow.pictures[0]!.equals(life.pictures[0]!)).toBe(true);
  expect(slow.pictures[239]!.equals(life.pictures[44]!)).toBe(true);
});
