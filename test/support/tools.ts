import { type Host, hostWith } from "../../main/journey/host.ts";
import { findTools } from "../../main/setup/tools.mjs";
import type { Tools } from "../../main/contract/tools.ts";

/** ffmpeg and ffprobe as the program itself would find them; throws where there is none. */
export function testTools(): Tools {
  const found = findTools();
  if (!found.ffmpeg || !found.ffprobe) throw new Error("ffmpeg and ffprobe are needed: run npm run setup");
  return { ffmpeg: found.ffmpeg.path, ffprobe: found.ffprobe.path };
}

/** A host with those tools and without a browser. */
export function testHost(): Host {
  return hostWith({ tools: testTools(), printPage: null });
}
