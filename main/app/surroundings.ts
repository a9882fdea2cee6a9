import type { AboutProgram, DebriefApi, DeskEvents, Listing, PathId } from "../contract/debriefApi.ts";
import type { PrintPage } from "../contract/printPage.ts";
import type { Tools } from "../contract/tools.ts";
import type { PathBook } from "./desk/pathBook.ts";
import type { Shelf } from "./web/shelf.ts";

/** The in-app file picker's part of the API. */
export interface Picker {
  places(): Promise<readonly { readonly id: PathId; readonly name: string }[]>;
  listFolder(id: PathId): Promise<Listing>;
  idsOfDropped(tokens: readonly string[]): Promise<readonly PathId[]>;
}

/** What a shell gives the desk: the same in both shells, and in tests. */
export interface Surroundings {
  readonly shell: AboutProgram["shell"];
  readonly version: string;
  readonly tools: Tools;
  /** What was found and how, in words, for About. */
  readonly toolWords: () => Promise<readonly string[]>;
  /** Prints pages as PDF; null: HTML only. */
  readonly printPage: PrintPage | null;
  readonly shelf: Shelf;
  readonly paths: PathBook;
  readonly picker: Picker;
  /** Sent to every window that is connected. */
  readonly events: DeskEvents;
  /** Shows a folder in the system's file manager; never runs a file. */
  openFolder(path: string): Promise<void>;
}

/** The desk of one running program. */
export interface Desk {
  readonly api: DebriefApi;
  /** Saves what is not yet saved, ends jobs, releases locks. */
  close(): Promise<void>;
}

/** `main/app/desk/makeDesk.ts` exports one of these. */
export type MakeDesk = (surroundings: Surroundings) => Desk;
