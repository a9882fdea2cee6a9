// Everything a fresh machine needs, in plain words: Node's version, the packages, ffmpeg and ffprobe, a browser, the
// bundles. It has no dependency of its own (it runs before `npm ci`), bounds each step in time, is safe to run again,
// and does nothing when there is nothing to do.
//
//   --quiet   say nothing unless something is done or missing
//   --tests   also bring the programs that only tests use
//   --no-browser  bring no browser (PDF pages are then left out)
//   --window  also bring Electron, the shell that the window is made for
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { accessSync, chmodSync, constants, existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { electronIsThere, fetchElectron, nodeIsAtLeast } from "./fetchElectron.mjs";
import { ffmpegRemedy, findTools, isOnPath, packagedFfprobe, staticFfmpeg } from "./tools.mjs";

const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
const quiet = process.argv.includes("--quiet");
const forTests = process.argv.includes("--tests");
const withoutBrowser = process.argv.includes("--no-browser");
const forWindow = process.argv.includes("--window");
/** `npm run setup` tries downloads again that failed before. */
const tryAgain = !quiet && process.env.npm_lifecycle_event === "setup";

const LEAST_NODE = /** @type {const} */ ([20, 19]);
const PACKAGES_LIMIT_MS = 600_000;
const DOWNLOAD_LIMIT_MS = 180_000;
const APT_LIMIT_MS = 600_000;

/** Set-up talks on stderr, so that a verb's --json on stdout stays clean. @param {string} line */
const say = (line) => process.stderr.write(`set-up: ${line}\n`);
/** @param {string} line */
const sayIfAsked = (line) => {
  if (!quiet) say(line);
};

/** @param {string} line @returns {never} */
function stop(line) {
  say(line);
  process.exit(1);
}

/**
 * Runs a program within a limit; its own chatter is shown only when it fails.
 * @param {string} program @param {readonly string[]} args @param {number} limitMs
 * @param {Record<string, string>} [env]
 */
function run(program, args, limitMs, env = {}) {
  const result = spawnSync(program, args, {
    cwd: root,
    timeout: limitMs,
    killSignal: "SIGKILL",
    encoding: "utf8",
    env: { ...process.env, ...env },
    shell: process.platform === "win32" && program === "npm",
  });
  const timedOut = result.error !== undefined && "code" in result.error && result.error.code === "ETIMEDOUT";
  return { ok: result.status === 0, timedOut, output: `${result.stdout ?? ""}${result.stderr ?? ""}`.trim() };
}

function checkNode() {
  if (!nodeIsAtLeast(process.versions.node, LEAST_NODE))
    stop(`Node ${process.versions.node} is too old. Install Node ${LEAST_NODE.join(".")} or newer.`);
}

/** Packages and bundles are written into this folder. Where they are there already it may be closed. */
function checkWritable() {
  for (const folder of ["node_modules", "dist"].map((name) => join(root, name))) {
    try {
      accessSync(existsSync(folder) ? folder : root, constants.W_OK);
    } catch {
      stop(`${root} can't be written. Copy the project into a folder of your own and run the command there.`);
    }
  }
}

/** Notes that something was tried; a folder that can't be written only means that it is tried again. @param {string} path */
function keepNote(path) {
  try {
    writeFileSync(path, new Date().toISOString());
  } catch {
    // Tried again at the next start.
  }
}

function installPackages() {
  const lock = readFileSync(join(root, "package-lock.json"));
  const stamp = createHash("sha256")
    .update(lock)
    .update(`${process.version} ${process.platform} ${process.arch}`)
    .digest("hex");
  const stampPath = join(root, "node_modules", ".followcar-stamp");
  if (existsSync(stampPath) && readFileSync(stampPath, "utf8") === stamp) return;
  say("installing the npm packages (the lock file is new or changed) …");
  const result = run("npm", ["ci", "--no-progress"], PACKAGES_LIMIT_MS);
  if (!result.ok) {
    const why = result.timedOut ? "npm did not finish in 10 minutes" : result.output.split("\n").slice(-4).join("\n");
    stop(`the npm packages could not be installed: ${why}\nCheck the network and run: npm run setup`);
  }
  writeFileSync(stampPath, stamp);
}

/** ffmpeg-static's download is tried once for each lock file; `npm run setup` tries again. */
function fetchStaticFfmpeg() {
  if (process.env.FOLLOWCAR_FFMPEG || staticFfmpeg()) return;
  const notePath = join(root, "node_modules", ".followcar-ffmpeg-tried");
  if (existsSync(notePath) && !tryAgain) return;
  say("fetching ffmpeg (package ffmpeg-static) …");
  const result = run(process.execPath, [join("node_modules", "ffmpeg-static", "install.js")], DOWNLOAD_LIMIT_MS);
  keepNote(notePath);
  if (!staticFfmpeg()) {
    say(`that download ${result.timedOut ? "took too long" : "failed"}; looking on this machine instead.`);
  }
}

/** Electron's download is tried once for each lock file (`npm ci` takes the note away); `npm run setup` tries again. */
function bringElectron() {
  if (process.env.ELECTRON_OVERRIDE_DIST_PATH || process.env.FOLLOWCAR_SHELL === "chromium") return;
  if (electronIsThere(join(root, "node_modules", "electron"))) return;
  const notePath = join(root, "node_modules", ".followcar-electron-tried");
  if (existsSync(notePath) && !tryAgain) return;
  say("fetching Electron, the window's own shell (about 120 MB, once) …");
  const why = fetchElectron(root, run, { node: process.versions.node, env: process.env });
  keepNote(notePath);
  if (why === null) return;
  const { chromium } = findTools();
  const instead = chromium
    ? `the window opens in ${chromium.path} instead`
    : "and no Chromium, Chrome or Edge was found: the command line works, the window needs one of them";
  say(`no Electron: ${why}; ${instead}. To try again: npm run setup`);
}

let aptRefreshed = false;

/** @param {readonly string[]} packages */
function aptInstall(packages) {
  const asRoot = process.platform === "linux" && process.getuid?.() === 0 && isOnPath("apt-get");
  if (!asRoot) return false;
  say(`installing from Debian: ${packages.join(", ")} …`);
  const env = { DEBIAN_FRONTEND: "noninteractive" };
  // Where another program installs just now, its end is waited for; the longest wait is a part of the limits.
  const wait = ["-o", "DPkg::Lock::Timeout=120"];
  if (!aptRefreshed) {
    run("apt-get", [...wait, "update", "-qq"], DOWNLOAD_LIMIT_MS, env);
    aptRefreshed = true;
  }
  const result = run(
    "apt-get",
    [...wait, "install", "-y", "-qq", "--no-install-recommends", ...packages],
    APT_LIMIT_MS,
    env,
  );
  if (!result.ok) say(`Debian's package manager failed: ${result.output.split("\n").slice(-2).join(" ")}`);
  return result.ok;
}

function bringTools() {
  for (const [variable, what] of [
    ["FOLLOWCAR_FFMPEG", "ffmpeg"],
    ["FOLLOWCAR_FFPROBE", "ffprobe"],
    ["FOLLOWCAR_CHROMIUM", "chromium"],
  ]) {
    const named = process.env[variable];
    if (named && !findTools()[what])
      stop(`${variable} names ${named}, which is not a program that can be run. Correct or unset it.`);
  }
  // Install scripts don't run here, so what one of them would do is done: the program is made one that can be started.
  const ffprobePath = packagedFfprobe();
  if (ffprobePath !== null && process.platform !== "win32") {
    try {
      accessSync(ffprobePath, constants.X_OK);
    } catch {
      chmodSync(ffprobePath, 0o755);
    }
  }
  fetchStaticFfmpeg();
  if (!findTools().ffmpeg || !findTools().ffprobe) aptInstall(["ffmpeg"]);
  const { ffmpeg, ffprobe } = findTools();
  if (!ffmpeg || !ffprobe)
    stop(`${ffmpeg ? "ffprobe" : "ffmpeg"} is missing. ${ffmpegRemedy()}, then run: npm run setup`);
  sayIfAsked(`ffmpeg: ${ffmpeg.path} (${ffmpeg.source}); ffprobe: ${ffprobe.path}`);

  const triedPath = join(root, "node_modules", ".followcar-browser-tried");
  if (!withoutBrowser && !findTools().chromium && !existsSync(triedPath)) {
    if (!aptInstall(["chromium"])) keepNote(triedPath);
  }
  const { chromium } = findTools();
  if (chromium) sayIfAsked(`browser: ${chromium.path}`);
  else
    sayIfAsked(
      "no Chromium, Chrome or Edge found: pages are written as HTML only. Remedy on Debian: sudo apt-get install chromium",
    );

  if (forTests) {
    const wanted = [
      ["tesseract", "tesseract-ocr"],
      ["pdftotext", "poppler-utils"],
      ["exiftool", "libimage-exiftool-perl"],
    ];
    const missing = wanted.filter(([program]) => !isOnPath(program)).map(([, name]) => name);
    if (missing.length > 0 && !aptInstall(missing)) {
      say(`tests that need ${missing.join(", ")} will be skipped. Remedy: sudo apt-get install ${missing.join(" ")}`);
    }
  }
}

const startedMs = performance.now();
checkNode();
checkWritable();
installPackages();
bringTools();
if (forWindow) bringElectron();
mkdirSync(join(root, "dist"), { recursive: true });
const { bundle } = await import("./bundle.mjs");
try {
  if (await bundle(root)) sayIfAsked("built dist/");
} catch (error) {
  stop(`the sources could not be bundled: ${error instanceof Error ? error.message : error}`);
}
sayIfAsked(`ready (${((performance.now() - startedMs) / 1000).toFixed(1)} s)`);
