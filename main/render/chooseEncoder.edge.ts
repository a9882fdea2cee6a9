import { rm, stat } from "node:fs/promises";
import { join } from "node:path";
import { Failure } from "../contract/failure.ts";
import { PRESETS } from "../contract/presets.ts";
import type { Tools } from "../contract/tools.ts";
import { type VideoEncoder, encodingFor } from "./encoding.ts";
import { temporaryFolder } from "../host/leftovers.edge.ts";
import { ffmpegArguments } from "../host/ffmpegArguments.edge.ts";
import { hasEncoder } from "../host/ffmpegFacts.edge.ts";
import { runFfmpeg } from "./runFfmpeg.edge.ts";
import { note, type Note } from "../contract/notice.ts";

/**
 * `auto`: libx264, or the machine's own encoder where this ffmpeg was built without it. `x264`: libx264 and nothing
 * else. `hevc`: HEVC. `hardware`: the graphics card's or the system's H.264 encoder.
 */
export type EncoderWish = "auto" | "x264" | "hevc" | "hardware";

export interface ChosenEncoder {
  readonly encoder: VideoEncoder;
  /** What was tried and did not work, and what is used in its place. */
  readonly notes: readonly Note[];
}

const HARDWARE: readonly VideoEncoder[] = ["h264_nvenc", "h264_videotoolbox"];
const TRIED: Readonly<Record<Exclude<EncoderWish, "x264">, readonly VideoEncoder[]>> = {
  auto: HARDWARE,
  hevc: ["libx265", "hevc_nvenc", "hevc_videotoolbox"],
  hardware: HARDWARE,
};
const TEST_FRAMES = 15;
const TEST_LIMIT_S = 10;

/**
 * The encoder for a wish. All but libx264 must first encode a short test to its last frame; where none does, libx264
 * takes the place and the notes say so.
 *
 * @throws Failure tool-failed where nothing encodes, tool-missing
 */
export async function chooseEncoder(wish: EncoderWish, tools: Tools): Promise<ChosenEncoder> {
  if (wish === "x264" || (wish === "auto" && (await hasEncoder(tools, "libx264"))))
    return { encoder: "libx264", notes: [] };
  const notes: Note[] = [];
  for (const encoder of TRIED[wish]) {
    if (await provesItself(encoder, tools)) return { encoder, notes };
    notes.push(note("encoder-not-working", { encoder }));
  }
  if (wish === "auto") {
    throw new Failure("encoder-none", { ffmpeg: tools.ffmpeg });
  }
  return { encoder: "libx264", notes: [...notes, note("encoder-replaced", {})] };
}

async function provesItself(encoder: VideoEncoder, tools: Tools): Promise<boolean> {
  const folder = await temporaryFolder("encoder");
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
      subject: { kind: "encoder test" },
      signal: AbortSignal.timeout(TEST_LIMIT_S * 1000),
    });
    return frames === TEST_FRAMES && (await stat(output)).size > 1000;
  } catch {
    return false;
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
