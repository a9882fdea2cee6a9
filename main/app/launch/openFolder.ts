import { spawn } from "node:child_process";
import { stat } from "node:fs/promises";
import { Failure } from "../../contract/failure.ts";

const OPENERS: Partial<Record<NodeJS.Platform, string>> = { darwin: "open", win32: "explorer.exe", linux: "xdg-open" };

/** Shows a folder in the system's file manager. Only folders: a file could be a program. */
export async function openFolder(path: string, opener = OPENERS[process.platform] ?? "xdg-open"): Promise<void> {
  const facts = await stat(path).catch(() => null);
  if (!facts?.isDirectory())
    throw new Failure(
      "file-unreadable",
      `The folder ${path} is not there any more.`,
      "It may have been moved; look for it with your file manager.",
    );
  await new Promise<void>((resolve, reject) => {
    const child = spawn(opener, [path], { stdio: "ignore", detached: true });
    child.on("error", () =>
      reject(new Failure("tool-missing", `No file manager could be started for ${path}.`, "Open that folder by hand.")),
    );
    child.on("spawn", () => {
      child.unref();
      resolve();
    });
  });
}
