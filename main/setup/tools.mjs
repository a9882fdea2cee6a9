// Where the programs that Followcar starts are found. Plain JavaScript without a dependency: set-up runs it before
// anything is installed, the program runs it at every start.
import { accessSync, constants, existsSync, statSync } from "node:fs";
import { delimiter, dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

/**
 * A program and how it was found.
 * @typedef {{ path: string, source: "named by you" | "ffmpeg-static" | "ffprobe-installer" | "found on this machine" }} Found
 */

/** Smallest believable size of an ffmpeg binary, bytes: a half-written download must not count. */
const LEAST_BINARY_BYTES = 1_000_000;

const EXE = process.platform === "win32" ? ".exe" : "";

/** @param {string} path */
function runnable(path) {
  try {
    accessSync(path, process.platform === "win32" ? constants.F_OK : constants.X_OK);
    return statSync(path).isFile();
  } catch {
    return false;
  }
}

/** @param {string} name */
function onPath(name) {
  for (const folder of (process.env.PATH ?? "").split(delimiter)) {
    if (folder && runnable(join(folder, name + EXE))) return join(folder, name + EXE);
  }
  return null;
}

/** The folder that holds node_modules, or null when run from somewhere else. */
function projectFolder() {
  let folder = dirname(fileURLToPath(import.meta.url));
  for (let up = 0; up < 4; up++) {
    if (existsSync(join(folder, "node_modules"))) return folder;
    folder = dirname(folder);
  }
  return null;
}

/** A program that a package brings, or null. @param {readonly string[]} path below node_modules */
function ofPackage(...path) {
  const root = projectFolder();
  if (!root) return null;
  // In a packed program it lies beside the archive: what is inside can't be started.
  const file = join(root.replace(/app\.asar$/, "app.asar.unpacked"), "node_modules", ...path) + EXE;
  return existsSync(file) && statSync(file).size >= LEAST_BINARY_BYTES ? file : null;
}

/**
 * The ffmpeg that ffmpeg-static brings. Its module returns a path even when the download never came, so the file
 * itself is looked at.
 */
export function staticFfmpeg() {
  const path = ofPackage("ffmpeg-static", "ffmpeg");
  return path !== null && runnable(path) ? path : null;
}

/** The ffprobe that lies in the package for this system, runnable or not yet; null where there is none. */
export function packagedFfprobe() {
  return ofPackage("@ffprobe-installer", `${process.platform}-${process.arch}`, "ffprobe");
}

/**
 * @param {string} variable @param {Found | null} bundled @param {readonly string[]} names @param {readonly string[]} places
 * @returns {Found | null}
 */
function find(variable, bundled, names, places = []) {
  const named = process.env[variable];
  if (named) return runnable(named) ? { path: named, source: "named by you" } : null;
  if (bundled && runnable(bundled.path)) return bundled;
  for (const name of names) {
    const path = onPath(name);
    if (path) return { path, source: "found on this machine" };
  }
  const place = places.find(runnable);
  return place ? { path: place, source: "found on this machine" } : null;
}

const BROWSER_PLACES = [
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
  ...["PROGRAMFILES", "PROGRAMFILES(X86)", "LOCALAPPDATA"]
    .map((name) => process.env[name])
    .filter((folder) => folder !== undefined)
    .flatMap((folder) => [
      join(folder, "Google", "Chrome", "Application", "chrome.exe"),
      join(folder, "Microsoft", "Edge", "Application", "msedge.exe"),
    ]),
];

/**
 * Order for each: named by the user (an environment variable; a wrong path counts as missing), the binary that a package
 * brings, PATH, the usual places.
 * @returns {{ ffmpeg: Found | null, ffprobe: Found | null, chromium: Found | null }}
 */
export function findTools() {
  const ffmpeg = staticFfmpeg();
  const ffprobe = packagedFfprobe();
  return {
    ffmpeg: find("FOLLOWCAR_FFMPEG", ffmpeg === null ? null : { path: ffmpeg, source: "ffmpeg-static" }, ["ffmpeg"]),
    ffprobe: find("FOLLOWCAR_FFPROBE", ffprobe === null ? null : { path: ffprobe, source: "ffprobe-installer" }, [
      "ffprobe",
    ]),
    chromium: find(
      "FOLLOWCAR_CHROMIUM",
      null,
      ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "microsoft-edge"],
      BROWSER_PLACES,
    ),
  };
}

/** True where `program` is on PATH; for tools that only tests and benches use. @param {string} program */
export function isOnPath(program) {
  return onPath(program) !== null;
}

/** The command that brings ffmpeg (with ffprobe) to this system, for messages. */
export function ffmpegRemedy() {
  if (process.platform === "darwin") return "Run: brew install ffmpeg";
  if (process.platform === "win32") return "Run: winget install ffmpeg";
  return "Run: sudo apt-get install ffmpeg";
}
