/**
 * A film out of an hour of footage, at the size of a film to be shared, against encoding as many frames of the clip and
 * of a card in one piece; and where its sound lies.
 */
import { execFile } from "node:child_process";
import { rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { promisify } from "node:util";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { filmClock } from "../../overlay/instant/filmClock.ts";
import { filmOf } from "../render/filmFixtures.ts";
import { bestLag, longestSilence, SOUND_RATE_HZ, soundOf } from "../support/sound.ts";
import { testTools } from "../support/tools.ts";
import { runProgram } from "../support/video.ts";
import { writeCameraLike } from "./cameraLike.ts";
import { filmItems } from "./filmItems.ts";
import { pairs } from "./sideBySide.ts";

/** Frames that are filmed (20 s), and how often they are put one after the other: an hour. */
const LOOP_FRAMES = 600;
const LOOPS = 180;

/** @param program the bundled job @param folder for the clip and the films @param shotCounts one film each */
export async function benchFilm(
  program: string,
  folder: string,
  count = 3,
  shotCounts: readonly number[] = [6, 12],
): Promise<void> {
  const path = join(folder, "hour.mp4");
  await writeHour(path, folder);
  const clip = await probeClip(path, "c1", testTools());
  const card = join(folder, "card.png");
  process.stdout.write(
    `film of 120 s out of ${(clip.durationS / 60).toFixed(0)} min of ${clip.heightPx}p30, panels and cards ` +
      `in it, against as many frames in one piece (libx264 veryfast crf 20, AAC); median of ${count} swapped ` +
      `pairs\n`,
  );
  for (const shots of shotCounts) {
    const outPath = join(folder, `film${shots}.mp4`);
    await run(program, path, shots, "film", outPath);
    // A second into the film: its first card.
    await runProgram(testTools().ffmpeg, ["-v", "error", "-y", "-ss", "1", "-i", outPath, "-frames:v", "1", card]);
    const { ratio, ratios, extraS } = await pairs(
      count,
      [program, path, String(shots), "film", outPath],
      [program, path, String(shots), "plain", join(folder, "plain.mp4"), card],
    );
    const range = `[${(ratios[0] ?? 0).toFixed(3)}..${(ratios.at(-1) ?? 0).toFixed(3)}]`;
    process.stdout.write(
      `${shots} shots and ${shots} cards: ratio ${ratio.toFixed(3)} ${range}, extra ${extraS.toFixed(1)} s; ${await soundLine(path, outPath, shots)}\n`,
    );
  }
}

/** The same film upright, square and for a phone against as filmed. @param count swapped pairs of each */
export async function benchForms(program: string, folder: string, count: number): Promise<void> {
  const path = join(folder, "hour.mp4");
  await writeHour(path, folder);
  process.stdout.write(
    `film of 120 s in 6 shots and 6 cards out of 60 min, against as filmed; median of ${count} swapped pairs\n`,
  );
  const job = (form: string): string[] => [program, path, "6", form, join(folder, `${form.replace(":", "x")}.mp4`)];
  for (const form of ["9:16", "1:1", "phone"]) {
    const { ratio, ratios } = await pairs(count, job(form), job("film"));
    process.stdout.write(
      `${form.padEnd(6)} ratio ${ratio.toFixed(3)} [${ratios[0]!.toFixed(3)}..${ratios.at(-1)!.toFixed(3)}]\n`,
    );
  }
}

async function run(program: string, path: string, shots: number, kind: string, outPath: string): Promise<void> {
  await promisify(execFile)(process.execPath, [program, path, String(shots), kind, outPath]);
}

/** The picture again and again; its sound in one piece, for a loop's ends would be gaps of the clip's own. */
async function writeHour(path: string, folder: string): Promise<void> {
  const { ffmpeg } = testTools();
  const loop = join(folder, "loop.mp4");
  await writeCameraLike(loop, { widthPx: 1920, heightPx: 1080, frames: LOOP_FRAMES, mbitPerSecond: 15 }, folder);
  const list = join(folder, "loops.txt");
  await writeFile(list, `file '${loop}'\n`.repeat(LOOPS));
  const sound = `anoisesrc=r=48000:d=${(LOOP_FRAMES * LOOPS * 1001) / 30000}:c=pink:seed=7:a=0.6`;
  await runProgram(ffmpeg, [
    ...["-v", "error", "-y", "-f", "concat", "-safe", "0", "-i", list, "-f", "lavfi", "-i", sound],
    ...["-map", "0:v", "-map", "1:a", "-c:v", "copy", "-c:a", "aac", "-b:a", "160k", path],
  ]);
  await rm(loop);
}

/** Worst shift of a shot's sound against the clip's, and the longest silence within a shot or at its ends. */
async function soundLine(path: string, outPath: string, shots: number): Promise<string> {
  const clip = await probeClip(path, "c1", testTools());
  const film = filmOf(clip, filmItems(clip, shots));
  const heard = await soundOf(outPath);
  let worst = 0;
  let longest = 0;
  for (const [k, span] of filmClock(film).spans.entries()) {
    const item = film.items[k]!;
    if (item.type !== "shot") continue;
    const [from, until] = [span.startFrame, span.startFrame + span.frames].map((frame) =>
      Math.round((frame * 1001 * SOUND_RATE_HZ) / 30000),
    );
    const source = await soundOf(path, item.mediaStartS, 1.5);
    const { lag } = bestLag(heard, from! + 4800, source, 4800, 9600, 1600);
    worst = Math.max(worst, Math.abs(lag) / SOUND_RATE_HZ);
    longest = Math.max(longest, longestSilence(heard, from! + 48, until! - 48) / SOUND_RATE_HZ);
  }
  return `sound within ${(worst * 1000).toFixed(1)} ms of its picture, longest silence in a shot ${(longest * 1000).toFixed(1)} ms`;
}
