import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { Failure } from "../contract/failure.ts";

/** Path of a file of the project, from the sources as from a bundle. @throws Failure where it is missing */
export function projectFile(...path: readonly string[]): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  for (let up = 0; up < 5; up += 1, folder = dirname(folder)) {
    const file = join(folder, ...path);
    if (existsSync(file)) return besideArchive(file);
  }
  throw new Failure("installation-incomplete", { path: path.join("/") });
}

/** A packed program reads its archive through Node; fonts and programs that others read lie beside it, unpacked. */
function besideArchive(file: string): string {
  const unpacked = file.replace(/app\.asar(?=[\\/])/, "app.asar.unpacked");
  return existsSync(unpacked) ? unpacked : file;
}
