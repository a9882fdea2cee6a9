/** A film out of an hour of footage against encoding as many frames in one piece; and where its sound lies. */
import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { filmTimeline } from "../../overlay/instant/filmAt.ts";
import { filmOf } from "../render/filmFixtures.ts";
import { bestLag, longestSilence, SOUND_RATE_HZ, soundOf } from "../support/sound.ts";
import { testTools } from "../support/tools.ts";
import { runProgram } from "../support/video.ts";
import { writeCameraLike } from "./cameraLike.ts";
import { filmItems } from "./filmItems.ts";
import { sideBySide } from "./sideBySide.ts";

/** Seconds that are filmed, and how often they are put one after the other: an hour. */
const LOOP_S = 20;
const LOOPS = 180;

/** @param program the bundled job @param folder for the clip and the films */
export async function benchFilm(program: string, folder: string): Promise<void> {
  const tools = testTools();
  const path = join(folder, "hour.mp4");
  await writeHour(path, folder);
  const clip = await probeClip(path, "c1", tools);
  process.stdout.write(`film of 120 s out of ${(clip.durationS / 60).toFixed(0)} min of 720p30, panels and cards in it, against as many frames in one piece (libx264 veryfast crf 20, AAC); one swapped pair\n`);
  for (const shots of [6, 12]) {
    const outPath = join(folder, `film${shots}.mp4`);
    const { ratio } = await sideBySide([program, path, String(shots), "film", outPath], [program, path, String(shots), "plain", join(folder, "plain.mp4")]);
    process.stdout.write(`${shots} shots and ${shots} cards: ratio ${ratio.toFixed(3)}; ${await soundLine(path, outPath, shots)}\n`);
  }
}

async function writeHour(path: string, folder: string): Promise<void> {
  const loop = join(folder, "loop.mp4");
  await writeCameraLike(loop, { widthPx: 1280, heightPx: 720, frames: Math.round((LOOP_S * 30000) / 1001), mbitPerSecond: 8, sound: true }, folder);
  const list = join(folder, "loops.txt");
  await writeFile(list, `file '${loop}'\n`.repeat(LOOPS));
  await runProgram(testTools().ffmpeg, ["-v", "error", "-y", "-f", "concat", "-safe", "0", "-i", list, "-c", "copy", path]);
}

/** Worst shift of a shot's sound against the clip's, and the longest silence within a shot or at its ends. */
async function soundLine(path: string, outPath: string, shots: number): Promise<string> {
  const clip = await probeClip(path, "c1", testTools());
  const film = filmOf(clip, filmItems(clip, shots));
  const heard = await soundOf(outPath);
  let worst = 0;
  let longest = 0;
  for (const [k, span] of filmTimeline(film).entries()) {
    const item = film.items[k];
    if (item.type !== "shot") continue;
    const [from, until] = [span.startFrame, span.startFrame + span.frames].map((frame) => Math.round((frame * 1001 * SOUND_RATE_HZ) / 30000));
    const source = await soundOf(path, item.mediaStartS, 1.5);
    const { lag } = bestLag(heard, from + 4800, source, 4800, 9600, 1600);
    worst = Math.max(worst, Math.abs(lag) / SOUND_RATE_HZ);
    longest = Math.max(longest, longestSilence(heard, from + 48, until - 48) / SOUND_RATE_HZ);
  }
  return `sound within ${(worst * 1000).toFixed(1)} ms of its picture, longest silence in a shot ${(longest * 1000).toFixed(1)} ms`;
}
