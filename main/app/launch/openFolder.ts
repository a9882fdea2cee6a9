import { stat } from "node:fs/promises";
import { Failure } from "../../contract/failure.ts";
import { startProgram } from "../../host/program.edge.ts";

const OPENERS: Partial<Record<NodeJS.Platform, string>> = { darwin: "open", win32: "explorer.exe", linux: "xdg-open" };

/** Shows a folder in the system's file manager. Only folders: a file could be a program. */
export async function openFolder(path: string, opener = OPENERS[process.platform] ?? "xdg-open"): Promise<void> {
  const facts = await stat(path).catch(() => null);
  if (!facts?.isDirectory()) throw new Failure("folder-gone", { path });
  const notStarted = await startProgram(opener, [path], "released").started;
  if (notStarted !== null) throw new Failure("file-manager-none", { path }, notStarted);
}
