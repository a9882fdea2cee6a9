import { spawn } from "node:child_process";
import { stat } from "node:fs/promises";
import { Failure } from "../../contract/failure.ts";

const OPENERS: Partial<Record<NodeJS.Platform, string>> = { darwin: "open", win32: "explorer.exe", linux: "xdg-open" };

/** Shows a folder in the system's file manager. Only folders: a file could be a program. */
export async function openFolder(path: string, opener = OPENERS[process.platform] ?? "xdg-open"): Promise<void> {
  const facts = await stat(path).catch(() => null);
  if (!facts?.isDirectory()) throw new Failure("folder-gone", { path });
  await new Promise<void>((resolve, reject) => {
    const child = spawn(opener, [path], { stdio: "ignore", detached: true });
    child.on("error", () => reject(new Failure("file-manager-none", { path })));
    child.on("spawn", () => {
      child.unref();
      resolve();
    });
  });
}
