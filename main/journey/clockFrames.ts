import { join } from "node:path";
import { Failure } from "../contract/failure.ts";
import type { Clip } from "../contract/footage.ts";
import type { JobContext } from "../contract/job.ts";
import { framePicture, sharpFrames } from "../footage/sharpFrames.edge.ts";
import { makeFolder } from "../host/makeFolder.edge.ts";
import { writeAtomic } from "../host/writeAtomic.edge.ts";
import { parseClipInstant } from "../lineup/parseAnchor.ts";
import { defaultPlan } from "../reading/plan/defaultPlan.ts";
import { gather } from "./gather.ts";
import type { Host } from "./host.ts";

/** A frame in which a filmed clock may be read. */
export interface ClockFrame {
  readonly fileName: string;
  /** s. */
  readonly mediaS: number;
  /** Where its picture was written, or null. */
  readonly path: string | null;
}

/** Clip times of the sharpest frames within 2 s of an instant, s, in order. Failures as `sharpFrames`. */
export async function sharpInstants(clip: Clip, aboutS: number, host: Host, signal: AbortSignal): Promise<number[]> {
  return (await sharpFrames(clip, aboutS, host.tools, signal)).map(({ mediaS }) => mediaS);
}

/**
 * The sharpest frames about an instant given as `CLIP@T`, for a clock that was filmed to be read off one of them; written as
 * `CLIP-T.png` where a folder is given. Failures as `gather`, `parseClipInstant` and `sharpFrames`, and `evidence-not-written`.
 */
export async function clockFrames(
  paths: readonly string[],
  instant: string,
  folder: string | null,
  host: Host,
  context: JobContext,
): Promise<ClockFrame[]> {
  const { given, bigOf } = await gather(paths, null, () => defaultPlan({ setting: "road" }), host);
  const { clip, mediaS } = parseClipInstant(instant, given, bigOf);
  const found = await sharpFrames(clip, mediaS, host.tools, context.signal);
  if (folder !== null) await makeFolder(folder);
  const out: ClockFrame[] = [];
  for (const { frame, mediaS: atS } of found) {
    const picture = folder === null ? null : await framePicture(clip, frame, host.tools, context.signal);
    const path = picture && join(folder!, `${clip.fileName.replace(/\.[^.]*$/, "")}-${atS.toFixed(3)}.png`);
    try {
      if (path) await writeAtomic(path, picture);
    } catch (cause) {
      throw new Failure("evidence-not-written", { path: path! }, cause);
    }
    out.push({ fileName: clip.fileName, mediaS: atS, path });
  }
  return out;
}
