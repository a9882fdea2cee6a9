import { chromiumInUse, toolsInUse } from "../../host/toolsInUse.edge.ts";
import { ffmpegVersion } from "../../host/ffmpegFacts.edge.ts";
import { findTools, type Found } from "../../setup/tools.mjs";
import { makeDesk } from "../desk/makeDesk.ts";
import type { Drops } from "../picker/makePicker.ts";
import type { ShellParts } from "../program.ts";
import { openFolder } from "./openFolder.ts";

/** What a shell brings on this machine. Failure `tool-missing` without ffmpeg. */
export function shellParts(shell: ShellParts["shell"], drops: Drops | null, debriefPath: string | null): ShellParts {
  const tools = toolsInUse();
  return {
    shell,
    tools,
    chromiumPath: chromiumInUse(),
    drops,
    makeDesk,
    debriefPath,
    openFolder,
    toolWords: async () => toolWords(await ffmpegVersion(tools)),
  };
}

function toolWords(version: string): readonly string[] {
  const { ffmpeg, ffprobe, chromium } = findTools();
  const line = (name: string, found: Found | null) =>
    found === null ? `${name}: not found` : `${name}: ${found.source}, ${found.path}`;
  return [
    line(version.startsWith("ffmpeg") ? version : `ffmpeg ${version}`, ffmpeg),
    line("ffprobe", ffprobe),
    line("browser that prints pages", chromium),
  ];
}
