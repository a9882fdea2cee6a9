import { mkdtemp, rm, stat } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Tools } from "../contract/tools.ts";
import type { VideoEncoder } from "./encoding.ts";
import { encodingFor } from "./encoding.ts";
import { ffmpegArguments } from "./ffmpegArguments.edge.ts";
import { PRESETS } from "./presets.ts";
import { runFfmpeg } from "./runFfmpeg.edge.ts";

export interface EncoderWish {
  readonly codec: "h264" | "hevc";
  /** Try the graphics card's or the system's encoder first. */
  readonly hardware: boolean;
}

export interface ChosenEncoder {
  readonly encoder: VideoEncoder;
  /** What was tried before it and did not work, one sentence each. */
  readonly notes: readonly string[];
}

const SOFTWARE: Readonly<Record<EncoderWish["codec"], VideoEncoder>> = { h264: "libx264", hevc: "libx265" };
const HARDWARE: Readonly<Record<EncoderWish["codec"], readonly VideoEncoder[]>> = {
  h264: ["h264_nvenc", "h264_videotoolbox"],
  hevc: ["hevc_nvenc", "hevc_videotoolbox"],
};
const TEST_FRAMES = 15;
const TEST_LIMIT_S = 10;

/**
 * The encoder for a wish: software unless hardware was asked for and has just encoded a short test to the last frame.
 * Where nothing wished for works, libx264.
 */
export async function chooseEncoder(wish: EncoderWish, tools: Tools): Promise<ChosenEncoder> {
  const notes: string[] = [];
  const order = [...(wish.hardware ? HARDWARE[wish.codec] : []), SOFTWARE[wish.codec]];
  for (const encoder of order) {
    if (encoder === "libx264" || (await provesItself(encoder, tools))) return { encoder, notes };
    notes.push(`The encoder ${encoder} does not work here.`);
  }
  return { encoder: "libx264", notes };
}

async function provesItself(encoder: VideoEncoder, tools: Tools): Promise<boolean> {
  const folder = await mkdtemp(join(tmpdir(), "followcar-encoder-"));
  const output = join(folder, "test.mov");
  try {
    const frames = await runFfmpeg({
      ffmpeg: tools.ffmpeg,
      args: ffmpegArguments({
        inputs: [{ source: "testsrc2=s=1280x720:r=30", options: ["-f", "lavfi"] }],
        filterGraph: `[0:v]trim=end_frame=${TEST_FRAMES}[v]`,
        outputOptions: ["-map", "[v]", ...encodingFor(PRESETS.share, encoder, 1).options, "-f", "mov"],
        output,
      }),
      subject: "a test of the encoder",
      signal: AbortSignal.timeout(TEST_LIMIT_S * 1000),
    });
    return frames === TEST_FRAMES && (await stat(output)).size > 1000;
  } catch {
    return false;
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
