import { stat } from "node:fs/promises";
import { basename } from "node:path";
import type { AboutProgram, DeskEvents } from "../contract/debriefApi.ts";
import type { PrintPage } from "../contract/printPage.ts";
import type { Tools } from "../contract/tools.ts";
import { cacheFolder } from "../host/cacheFolder.edge.ts";
import { clearLeftBehind } from "../host/leftovers.edge.ts";
import { beginLog } from "../host/log.edge.ts";
import { programVersion } from "../host/programVersion.edge.ts";
import { makePathBook } from "./desk/pathBook.ts";
import { makePicker, type Drops } from "./picker/makePicker.ts";
import { serveWindow, type ServedWindow, type WindowChannel } from "./rpc/serveWindow.ts";
import type { Desk, MakeDesk } from "./surroundings.ts";
import { makeShelf, type StockedShelf } from "./web/shelf.ts";

/** What a shell brings. */
export interface ShellParts {
  readonly shell: AboutProgram["shell"];
  readonly tools: Tools;
  readonly toolWords: () => Promise<readonly string[]>;
  readonly printPage: PrintPage | null;
  readonly drops: Drops | null;
  readonly makeDesk: MakeDesk;
  /** What to begin with: a debrief (its folder or debrief.json), or rides and footage. */
  readonly given: readonly string[];
  openFolder(path: string): Promise<void>;
}

/** One running program: a desk, what it lends, and the windows that look at it. */
export interface Program {
  readonly desk: Desk;
  readonly shelf: StockedShelf;
  /** Connects a window; the function given back disconnects it. */
  connect(channel: WindowChannel): () => void;
  /** Opens what was given by path, as at the start: by the system, or by a second start of the program. */
  bring(given: readonly string[]): Promise<void>;
  close(): Promise<void>;
}

/** Puts the desk together with what both shells share. Rejects with what `openDebrief` says of a debrief that was given and can't be opened. */
export async function startProgram(parts: ShellParts): Promise<Program> {
  beginLog(`window ${parts.shell}`);
  void clearLeftBehind(cacheFolder());
  const windows = new Set<ServedWindow>();
  const events: DeskEvents = {
    state: (state) => windows.forEach((window) => window.events.state(state)),
    progress: (jobId, progress) => windows.forEach((window) => window.events.progress(jobId, progress)),
  };
  const shelf = makeShelf();
  const paths = makePathBook();
  const desk = parts.makeDesk({
    ...parts,
    version: programVersion(),
    shelf,
    paths,
    picker: makePicker(paths, parts.drops),
    events,
  });
  const bring = async (given: readonly string[]): Promise<void> => {
    const debriefs = await Promise.all(given.map(isDebrief));
    const debrief = given.find((_, index) => debriefs[index]);
    if (debrief !== undefined) await desk.api.openDebrief(paths.idOf(debrief), false);
    const files = given.filter((_, index) => debriefs[index] === false);
    if (files.length > 0) await desk.api.addFiles(files.map((path) => paths.idOf(path)));
  };
  await bring(parts.given).catch(async (error: unknown) => {
    await desk.close();
    throw error;
  });
  return {
    desk,
    shelf,
    bring,
    connect(channel) {
      const window = serveWindow(desk.api, channel);
      windows.add(window);
      return () => {
        windows.delete(window);
        window.close();
      };
    },
    async close() {
      for (const window of windows) window.close();
      windows.clear();
      await desk.close();
    },
  };
}

/** A folder or its debrief.json; what is not there is taken for a debrief too, and opening it says so. */
async function isDebrief(path: string): Promise<boolean> {
  if (basename(path) === "debrief.json") return true;
  const found = await stat(path).catch(() => null);
  return found === null || found.isDirectory();
}
