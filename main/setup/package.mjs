// `npm run package`: the installers that this machine can build, and for each other one in a sentence why it can't.
// electron-builder does the work, by electron-builder.yml, one target a run, so that one that fails says so alone.
import { existsSync, readdirSync, statSync } from "node:fs";
import { dirname, join } from "node:path";
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { electronIsThere } from "./fetchElectron.mjs";

/** @typedef {{ target: string, files: RegExp, system: NodeJS.Platform, args: readonly string[], needs: string }} Installer */

/** @type {readonly Installer[]} */
export const INSTALLERS = [
  { target: "AppImage", files: /\.AppImage$/, system: "linux", args: ["--linux", "AppImage"], needs: "Linux" },
  { target: "deb", files: /\.deb$/, system: "linux", args: ["--linux", "deb"], needs: "Linux" },
  { target: "dmg", files: /\.dmg$/, system: "darwin", args: ["--mac", "dmg", "--universal"], needs: "a Mac" },
  { target: "nsis", files: /\.exe$/, system: "win32", args: ["--win", "nsis"], needs: "Windows" },
];

/** What a packer's failure came of, as it words them. @type {readonly [RegExp, string][]} */
const CAUSES = [
  [
    /ENOTFOUND|EAI_AGAIN|ECONNREFUSED|ETIMEDOUT|ECONNRESET|dial tcp|no such host|status code 40[34]/,
    "a part of it could not be downloaded (no network, or its server is not reached from here)",
  ],
  [/ENOSPC/, "the disk is full"],
  [/EACCES|EROFS|EPERM/, "its folder can't be written"],
  [/timed out/, "it did not end in 15 minutes"],
];
const LIMIT_MS = 900_000;

/** The folder with Electron's own binary: one that the user names, or the one that set-up fetched; null where there is none. */
export function electronFolder(root, env = process.env) {
  if (env.ELECTRON_OVERRIDE_DIST_PATH) return env.ELECTRON_OVERRIDE_DIST_PATH;
  const folder = join(root, "node_modules", "electron");
  return electronIsThere(folder) ? join(folder, "dist") : null;
}

/**
 * One sentence on a failure, from what the packer printed.
 * @param {string} output
 */
export function packFailure(output) {
  const known = CAUSES.find(([pattern]) => pattern.test(output));
  if (known !== undefined) return known[1];
  const lines = output.split("\n").filter((line) => /⨯|error/i.test(line));
  return (lines[0] ?? output.trim().split("\n").at(-1) ?? "it gave no reason").trim();
}

/**
 * @param {string} root project folder
 * @param {{ system: NodeJS.Platform, out: string, electron: string | null,
 *   run: (args: readonly string[]) => { ok: boolean, output: string } }} machine
 * @returns {readonly { target: string, path: string | null, bytes: number, why: string | null }[]}
 */
export function packAll(root, { system, out, electron, run }) {
  const found = (files) => {
    const name = existsSync(out) ? readdirSync(out).find((one) => files.test(one)) : undefined;
    return name === undefined ? null : join(out, name);
  };
  return INSTALLERS.map(({ target, files, system: asked, args, needs }) => {
    const none = { target, path: null, bytes: 0 };
    if (system !== asked) return { ...none, why: `it is built on ${needs}` };
    const dist = electron === null ? [] : [`-c.electronDist=${electron}`];
    const { ok, output } = run([...args, "--publish", "never", `-c.directories.output=${out}`, ...dist]);
    const path = ok ? found(files) : null;
    if (path === null) return { ...none, why: ok ? "the packer ended well and left no file" : packFailure(output) };
    return { target, path, bytes: statSync(path).size, why: null };
  });
}

/** @param {ReturnType<typeof packAll>} made */
export function packLines(made) {
  return made.map(({ target, path, bytes, why }) =>
    path === null
      ? `${target.padEnd(9)} not built: ${why}`
      : `${target.padEnd(9)} ${path} (${(bytes / 1e6).toFixed(0)} MB)`,
  );
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
  const electron = electronFolder(root);
  if (electron === null)
    process.stderr.write(
      "package: Electron's binary is not here (npm run setup says why); the packer fetches its own.\n",
    );
  const made = packAll(root, {
    system: process.platform,
    out: join(root, "dist", "installers"),
    electron,
    run(args) {
      const result = spawnSync(process.execPath, [join("node_modules", "electron-builder", "cli.js"), ...args], {
        cwd: root,
        encoding: "utf8",
        timeout: LIMIT_MS,
        killSignal: "SIGKILL",
        maxBuffer: 1 << 26,
      });
      const late = result.error !== undefined && "code" in result.error && result.error.code === "ETIMEDOUT";
      return {
        ok: result.status === 0,
        output: `${result.stdout ?? ""}${result.stderr ?? ""}${late ? "timed out" : ""}`,
      };
    },
  });
  process.stdout.write(`${packLines(made).join("\n")}\n`);
  process.exit(made.some(({ path }) => path !== null) ? 0 : 1);
}
