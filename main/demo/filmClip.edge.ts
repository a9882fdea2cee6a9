import { createCanvas } from "@napi-rs/canvas";
import { rm, writeFile } from "node:fs/promises";
import path from "node:path";
import type { Writable } from "node:stream";
import type { Rational } from "../contract/footage.ts";
import type { Tools } from "../contract/tools.ts";
import type { Surface } from "../../overlay/surface.ts";
import { ffmpegArguments } from "../host/ffmpegArguments.edge.ts";
import { makeAtomic } from "../host/writeAtomic.edge.ts";
import { runFfmpeg } from "../render/runFfmpeg.edge.ts";
import { addTelemetryTrack } from "./addTelemetryTrack.edge.ts";
import { cameraTelemetry, PAYLOAD_S } from "./cameraTelemetry.ts";
import { cameraCreationTime, cameraTimecode, type DemoClip } from "./demoClips.ts";
import type { DemoTruth } from "./demoTruth.ts";
import { paintSound } from "./paintSound.ts";
import { paintScene } from "./scene/paintScene.ts";
import { sceneInstantAt } from "./scene/sceneInstant.ts";
import type { Picture } from "./scene/view.ts";
import { wavBytes } from "../contract/wavBytes.ts";

/** As most action cameras have it. */
export const DEMO_FRAME_RATE: Rational = { num: 30000, den: 1001 };
const SAMPLE_RATE_HZ = 48000;

/**
 * Films one clip of the demo: every frame drawn for its own instant, with the sound of the same span, H.264 and AAC in
 * MP4, and the camera's telemetry where the clip has it.
 *
 * @param onFrame called after each frame handed over.
 * @returns path of the clip; nothing stands under its name until it is whole.
 */
export async function filmClip(
  truth: DemoTruth,
  clip: DemoClip,
  outDir: string,
  picture: Picture,
  tools: Tools,
  signal: AbortSignal,
  onFrame: () => void,
): Promise<string> {
  const target = path.join(outDir, clip.fileName);
  const sound = `${target}.wav.part`;
  const { num, den } = DEMO_FRAME_RATE;
  const frames = Math.round((clip.durationS * num) / den);
  try {
    await writeFile(
      sound,
      wavBytes(paintSound(truth, clip.startS, (frames * den) / num, SAMPLE_RATE_HZ), SAMPLE_RATE_HZ),
    );
    await makeAtomic(target, async (part) => {
      await runFfmpeg({
        ffmpeg: tools.ffmpeg,
        subject: { kind: "files", names: [clip.fileName] },
        signal,
        args: ffmpegArguments({
          inputs: [
            {
              source: "pipe:0",
              options: [
                "-f",
                "rawvideo",
                "-pix_fmt",
                "rgba",
                "-s",
                `${picture.widthPx}x${picture.heightPx}`,
                "-r",
                `${num}/${den}`,
              ],
            },
            { source: sound, options: ["-f", "wav"] },
          ],
          filterGraph: null,
          outputOptions: [
            ...["-map", "0:v", "-map", "1:a", "-vf", "scale=out_color_matrix=bt709:out_range=tv,format=yuv420p"],
            ...["-c:v", "libx264", "-preset", "ultrafast", "-crf", "21", "-g", "15", "-threads", "1"],
            ...["-color_range", "tv", "-colorspace", "bt709", "-color_primaries", "bt709", "-color_trc", "bt709"],
            ...["-enc_time_base:v", `${den}/${num}`, "-video_track_timescale", `${num}`, "-frames:v", `${frames}`],
            ...[
              "-fflags",
              "+bitexact",
              "-c:a",
              "aac",
              "-b:a",
              "128k",
              "-metadata",
              `creation_time=${cameraCreationTime(truth, clip)}`,
            ],
            ...["-timecode", cameraTimecode(truth, clip)],
            // The index stands last, as cameras write it: there a telemetry track is added.
            ...["-f", "mp4"],
          ],
          output: part,
        }),
        feed: (stdin) => feedFrames(stdin, truth, clip, frames, picture, signal, onFrame),
      });
      if (clip.telemetry)
        await addTelemetryTrack(
          part,
          cameraTelemetry(truth, clip, (frames * den) / num),
          PAYLOAD_S,
          (frames * den) / num,
        );
    });
    return target;
  } finally {
    await rm(sound, { force: true });
  }
}

const FRAMES_A_PAUSE = 15;

async function feedFrames(
  stdin: Writable,
  truth: DemoTruth,
  clip: DemoClip,
  frames: number,
  picture: Picture,
  signal: AbortSignal,
  onFrame: () => void,
): Promise<void> {
  const canvas = createCanvas(picture.widthPx, picture.heightPx);
  const surface = canvas.getContext("2d") as unknown as Surface;
  let sent: Promise<void> = Promise.resolve();
  for (let frame = 0; frame < frames && !signal.aborted; frame++) {
    const rideS = clip.startS + (frame * DEMO_FRAME_RATE.den) / DEMO_FRAME_RATE.num;
    paintScene(surface, truth.course, sceneInstantAt(truth, rideS), picture);
    // A copy: the next frame may be painted while it goes down the pipe.
    const pixels = canvas.data();
    await sent;
    sent = new Promise((resolve, reject) => stdin.write(pixels, (error) => (error ? reject(error) : resolve())));
    // A broken pipe is told by the next await; until then it is nobody's unhandled rejection.
    sent.catch(() => undefined);
    onFrame();
    // Small pictures go down the pipe without a wait: the word to stop has to be heard all the same.
    if (frame % FRAMES_A_PAUSE === 0) await new Promise((resolve) => setImmediate(resolve));
  }
  await sent;
}
