import { existsSync } from "node:fs";
import { readdir } from "node:fs/promises";
import { homedir, platform, userInfo } from "node:os";
import { basename, join } from "node:path";

/** A folder that the picker may start from and go below. */
export interface Place {
  readonly path: string;
  readonly name: string;
}

/** The home folder and what is mounted beside the system's own disk: memory cards, sticks, other disks, drive letters. */
export async function volumes(): Promise<readonly Place[]> {
  return [{ path: homedir(), name: "Home" }, ...(await mounted())];
}

async function mounted(): Promise<readonly Place[]> {
  if (platform() === "win32") {
    const letters = Array.from({ length: 26 }, (_, i) => `${String.fromCharCode(65 + i)}:\\`);
    return letters.filter((path) => existsSync(path)).map((path) => ({ path, name: `Drive ${path.slice(0, 2)}` }));
  }
  const parents =
    platform() === "darwin"
      ? ["/Volumes"]
      : [join("/media", userInfo().username), join("/run/media", userInfo().username), "/mnt"];
  const below = await Promise.all(
    parents.map(async (parent) =>
      (await readdir(parent, { withFileTypes: true }).catch(() => []))
        .filter((entry) => entry.isDirectory())
        .map((entry) => join(parent, entry.name)),
    ),
  );
  return below.flat().map((path) => ({ path, name: basename(path) }));
}
