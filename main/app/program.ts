import { readFileSync } from "node:fs";
import type { AboutProgram, DeskEvents } from "../contract/debriefApi.ts";
import type { PrintPage } from "../contract/printPage.ts";
import type { Tools } from "../contract/tools.ts";
import { projectFile } from "../host/projectFile.edge.ts";
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
  /** A debrief to begin with: its folder or debrief.json, or null. */
  readonly debriefPath: string | null;
  openFolder(path: string): Promise<void>;
}

/** One running program: a desk, what it lends, and the windows that look at it. */
export interface Program {
  readonly desk: Desk;
  readonly shelf: StockedShelf;
  /** Connects a window; the function given back disconnects it. */
  connect(channel: WindowChannel): () => void;
  close(): Promise<void>;
}

/** Puts the desk together with what both shells share. Rejects with what `openDebrief` says where `debriefPath` is none. */
export async function startProgram(parts: ShellParts): Promise<Program> {
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
  if (parts.debriefPath !== null) {
    await desk.api.openDebrief(paths.idOf(parts.debriefPath), false).catch(async (error: unknown) => {
      await desk.close();
      throw error;
    });
  }
  return {
    desk,
    shelf,
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

function programVersion(): string {
  return (JSON.parse(readFileSync(projectFile("package.json"), "utf8")) as { readonly version: string }).version;
}
