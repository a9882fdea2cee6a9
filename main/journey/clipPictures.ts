import { existsSync } from "node:fs";
import type { Clip } from "../contract/footage.ts";
import type { JobContext } from "../contract/job.ts";
import { filmstripFolder, proxyPath, touch } from "../host/mediaCache.edge.ts";
import { filmstripStepS, filmstripThere, renderFilmstrip } from "../render/renderFilmstrip.edge.ts";
import { renderProxy } from "../render/renderProxy.edge.ts";
import type { Host } from "./host.ts";

/** Frames of a clip that a small picture is made of. */
export interface ProxySpan {
  readonly clip: Clip;
  readonly firstFrame: number;
  readonly frames: number;
}

/** The small picture of a span, from the cache or made now; gives where it lies. Throws as `renderProxy`. */
export async function proxyOf(
  { clip, firstFrame, frames }: ProxySpan,
  host: Host,
  signal: AbortSignal,
  onFrames: (made: number) => void,
): Promise<string> {
  const outPath = proxyPath(clip.fingerprint, firstFrame, frames);
  if (!existsSync(outPath)) await renderProxy({ clip, firstFrame, frames, outPath, signal, onFrames }, host.tools);
  await touch(outPath);
  return outPath;
}

/** How far apart the pictures of a clip's strip are, s. */
export { filmstripStepS };

/** Where the strip of small pictures of a clip lies. */
export { filmstripFolder };

/** Makes what is missing of a clip's strip, out of its small copy where there is one; `there` hears how many there are. */
export async function makeFilmstrip(
  clip: Clip,
  companion: Clip | null,
  host: Host,
  context: JobContext,
  there: (count: number) => void,
): Promise<void> {
  const folder = filmstripFolder(clip.fingerprint);
  const whole = await filmstripThere(folder);
  if (whole !== null) return there(whole);
  await renderFilmstrip(companion ?? clip, folder, host.tools, context, there);
  await touch(folder);
}
