import { mkdtempSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { readSignals } from "../../main/footage/signals/readSignals.edge.ts";
import { testTools } from "../support/tools.ts";
import { runProgram } from "../support/video.ts";
import { writeCameraLike } from "./cameraLike.ts";

/** Frames of the piece that is filmed; a multiple of its keyframes, so that copies join cleanly. */
const PIECE_FRAMES = 600;
/** Of plain decoding only a part is done, and reckoned up. */
const DECODED_S = 180;

/**
 * Reading what line-up by signals needs of a long 1080p clip, against decoding its picture once with ffmpeg. Prints
 * both times, their ratio, the share of the clip's length and the bytes read. The clip is a camera-like piece of 20 s
 * over and over: real footage differs in how hard it is to decode.
 *
 * @param minutes length of the clip
 */
export async function benchLineupSpeed(minutes: number): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), "followcar-long-"));
  const tools = testTools();
  try {
    const piece = join(folder, "piece.mp4");
    await writeCameraLike(
      piece,
      { widthPx: 1920, heightPx: 1080, frames: PIECE_FRAMES, mbitPerSecond: 12, sound: true },
      folder,
    );
    const list = join(folder, "list.txt");
    writeFileSync(list, "file 'piece.mp4'\n".repeat(Math.ceil((minutes * 60) / ((PIECE_FRAMES * 1001) / 30000))));
    const long = join(folder, "long.mp4");
    await runProgram(tools.ffmpeg, ["-v", "error", "-y", "-f", "concat", "-i", list, "-c", "copy", long]);
    const clip = await probeClip(long, "clip1", tools);
    let began = performance.now();
    const { bytesRead } = await readSignals(clip, tools, { turningFelt: false });
    const signalsS = (performance.now() - began) / 1000;
    began = performance.now();
    await readSignals(clip, tools, { turningFelt: true });
    const feltS = (performance.now() - began) / 1000;
    began = performance.now();
    await runProgram(tools.ffmpeg, [
      "-v",
      "error",
      "-threads",
      "2",
      "-t",
      String(DECODED_S),
      "-i",
      long,
      "-map",
      "0:v:0",
      "-f",
      "null",
      "-",
    ]);
    const decodedS = ((performance.now() - began) / 1000) * (clip.durationS / DECODED_S);
    const { size } = statSync(long);
    console.log(
      `${minutes} min of 1080p30 at 12 Mbit/s: signals ${signalsS.toFixed(0)} s, 1/` +
        `${(clip.durationS / signalsS).toFixed(1)} of its length; decoding all once ${decodedS.toFixed(0)} s ` +
        `(from ${DECODED_S} s of it); where a gyroscope tells the turning ${feltS.toFixed(0)} s; ratio ${(signalsS / decodedS).toFixed(2)}; ` +
        `${((bytesRead ?? NaN) / 1e6).toFixed(0)} of ${(size / 1e6).toFixed(0)} MB read`,
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
