#!/usr/bin/env node
// The installed command (`npm install -g .`) and `npm run followcar`: set-up, which does nothing when there is nothing to
// do, then the program, with paths seen from where it was called.
import { spawnSync } from "node:child_process";
import { realpathSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const root = dirname(dirname(here));
const program = join(root, "dist", "followcar.mjs");
// npm runs a script in the project's folder, and says in INIT_CWD where the person stands.
const { INIT_CWD, npm_lifecycle_event, npm_package_json } = process.env;
if (INIT_CWD && npm_lifecycle_event === "followcar" && npm_package_json) {
  try {
    if (realpathSync(npm_package_json) === join(realpathSync(root), "package.json")) process.chdir(INIT_CWD);
  } catch {
    // Gone meanwhile: what is named is then said to be missing, with the whole path that was looked for.
  }
}
const forWindow = process.argv[2] === "open" ? ["--window"] : [];
const { status } = spawnSync(process.execPath, [join(here, "setup.mjs"), "--quiet", ...forWindow], {
  stdio: ["ignore", "inherit", "inherit"],
});
if (status !== 0) process.exit(status ?? 1);
process.argv[1] = program;
await import(pathToFileURL(program).href);
