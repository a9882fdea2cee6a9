import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { projectFile } from "../../host/projectFile.edge.ts";

/**
 * The Electron binary that its package fetched, or null. Read by hand: asking the package itself would start a download.
 * ELECTRON_OVERRIDE_DIST_PATH names a folder with a binary of one's own.
 */
export function findElectron(): string | null {
  const named = process.env.ELECTRON_OVERRIDE_DIST_PATH;
  const binary =
    process.platform === "win32"
      ? "electron.exe"
      : process.platform === "darwin"
        ? "Electron.app/Contents/MacOS/Electron"
        : "electron";
  if (named) return existing(join(named, binary));
  try {
    const folder = dirname(projectFile("node_modules", "electron", "package.json"));
    return existing(join(folder, "dist", readFileSync(join(folder, "path.txt"), "utf8").trim()));
  } catch {
    return null;
  }
}

function existing(path: string): string | null {
  return existsSync(path) ? path : null;
}
