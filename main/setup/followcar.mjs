#!/usr/bin/env node
// The installed command (`npm install -g .`): set-up, which does nothing when there is nothing to do, then the program,
// with paths seen from where it was called.
import { spawnSync } from "node:child_process";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const program = join(dirname(dirname(here)), "dist", "followcar.mjs");
const forWindow = process.argv[2] === "open" ? ["--window"] : [];
const { status } = spawnSync(process.execPath, [join(here, "setup.mjs"), "--quiet", ...forWindow], {
  stdio: ["ignore", "inherit", "inherit"],
});
if (status !== 0) process.exit(status ?? 1);
process.argv[1] = program;
await import(pathToFileURL(program).href);
