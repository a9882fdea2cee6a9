import { printerInUse, toolsInUse } from "../../host/toolsInUse.edge.ts";
import { ffmpegVersion } from "../../host/ffmpegFacts.edge.ts";
import { findTools, type Found } from "../../setup/tools.mjs";
import type { StartChild } from "../../contract/childLine.ts";
import type { PrintPage } from "../../contract/printPage.ts";
import { makeDesk } from "../desk/makeDesk.ts";
import type { Drops } from "../picker/makePicker.ts";
import type { ShellParts } from "../program.ts";
import { openFolder } from "./openFolder.ts";

/** What Electron has ways of its own for. */
export interface OwnWays {
  readonly startChild: StartChild;
  readonly printPage: PrintPage;
}

/** What a shell brings on this machine. Failure `tool-missing` without ffmpeg. */
export function shellParts(
  shell: ShellParts["shell"],
  drops: Drops | null,
  given: readonly string[],
  own: OwnWays | null = null,
): ShellParts {
  const found = toolsInUse();
  const tools = own === null ? found : { ...found, startChild: own.startChild };
  return {
    shell,
    tools,
    printPage: own?.printPage ?? printerInUse(),
    drops,
    makeDesk,
    given,
    openFolder,
    toolWords: async () => toolWords(await ffmpegVersion(tools), own !== null),
  };
}

function toolWords(version: string, ownPrinter: boolean): readonly string[] {
  const { ffmpeg, ffprobe, chromium } = findTools();
  const line = (name: string, found: Found | null) =>
    found === null ? `${name}: not found` : `${name}: ${found.source}, ${found.path}`;
  return [
    line(version.startsWith("ffmpeg") ? version : `ffmpeg ${version}`, ffmpeg),
    line("ffprobe", ffprobe),
    ownPrinter ? "pages are printed by Electron itself" : line("browser that prints pages", chromium),
  ];
}
