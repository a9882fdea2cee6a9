import { join } from "node:path";
import { testTools } from "../support/tools.ts";
import { runProgram } from "../support/video.ts";

export interface CameraLike {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly frames: number;
  readonly mbitPerSecond: number;
  /** Pink noise beside the picture. */
  readonly sound?: boolean;
}

/**
 * Writes a clip as a camera on a bicycle would: above, sharp texture that sways and comes nearer, with the sensor's
 * noise; below, smooth dark tarmac. A scrim saves the encoder nothing there, so it cannot flatter what panels cost.
 * Bit rate and keyframes (two a second) of an action camera.
 *
 * @param folder for what is needed on the way
 */
export async function writeCameraLike(path: string, clip: CameraLike, folder: string): Promise<void> {
  const { widthPx, heightPx, frames } = clip;
  const { ffmpeg } = testTools();
  const [wide, high] = [1.5 * widthPx, 1.5 * heightPx];
  const unit = widthPx / 960;
  const still = join(folder, "texture.png");
  const grain = `color=gray:s=${wide}x${high},format=gray,noise=alls=100:allf=u:all_seed=7,gblur=sigma=${unit},eq=contrast=3`;
  const cloud =
    `color=gray:s=${Math.round(wide / 16)}x${Math.round(high / 16)}` +
    `,format=gray,noise=alls=100:allf=u:all_seed=9,gblur=sigma=2,eq=contrast=4,scale=${wide}:${high}` +
    ":flags=bicubic";
  await runProgram(ffmpeg, [
    ...[
      "-v",
      "error",
      "-y",
      "-f",
      "lavfi",
      "-i",
      grain,
      "-f",
      "lavfi",
      "-i",
      cloud,
      "-f",
      "lavfi",
      "-i",
      `gradients=s=${wide}x${high}:n=4:seed=5`,
    ],
    ...[
      "-filter_complex",
      "[0][1]blend=all_mode=average,format=gbrp[t];[2]format=gbrp[g];[t][g]blend=all_mode=average",
      "-frames:v",
      "1",
      still,
    ],
  ]);
  const sway = `x='iw/2-iw/zoom/2+${6 * unit}*sin(on/5)':y='ih/2-ih/zoom/2+${3 * unit}*sin(on/3.1)'`;
  const moved = `zoompan=z='1.25+0.2*sin(on/70)':${sway}:d=${frames}:s=${widthPx}x${heightPx}:fps=30000/1001,format=yuv420p,noise=alls=6:allf=t+u:all_seed=3`;
  const rate = `${clip.mbitPerSecond}M`;
  const sound =
    clip.sound === true
      ? ["-f", "lavfi", "-i", `anoisesrc=r=48000:d=${(frames * 1001) / 30000}:c=pink:seed=7:a=0.6`]
      : [];
  await runProgram(ffmpeg, [
    ...[
      "-v",
      "error",
      "-y",
      "-i",
      still,
      ...sound,
      "-vf",
      `${moved},drawbox=y=ih*0.5:w=iw:h=ih:color=0x2c2e30@0.9:t=fill`,
      "-frames:v",
      String(frames),
    ],
    ...[
      "-c:v",
      "libx264",
      "-preset",
      "ultrafast",
      "-bf",
      "0",
      "-g",
      "15",
      "-b:v",
      rate,
      "-maxrate",
      rate,
      "-bufsize",
      rate,
    ],
    ...["-c:a", "aac", "-b:a", "160k", path],
  ]);
}
