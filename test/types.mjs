// Types of every file, each under the flags of its own folder: `node test/types.mjs`.
// tsc checks all that a program imports under that program's flags. Here each tsconfig.json answers for its own files
// alone, so that numeric kernels which index their columns freely may be imported from where nothing else does.
import { spawnSync } from "node:child_process";
import { mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { dirname, join, relative, resolve, sep } from "node:path";
import { fileURLToPath } from "node:url";
import ts from "typescript";

const ROOMS = ["main", "overlay", "renderer", "test"];
const slashed = (path) => relative(".", path).replaceAll(sep, "/");
const textOf = (message) => ts.flattenDiagnosticMessageText(message, "\n   ");

/** @param {string} path of a tsconfig.json */
function configurationAt(path) {
  const stop = ({ messageText }) => {
    throw new Error(`${path}: ${textOf(messageText)}`);
  };
  const host = { ...ts.sys, onUnRecoverableConfigFileDiagnostic: stop };
  const { fileNames, errors, options } = ts.getParsedCommandLineOfConfigFile(path, {}, host);
  const { configFilePath: _, ...flags } = options;
  return { path, folder: slashed(dirname(path)), fileNames: fileNames.map((name) => resolve(name)), errors, flags };
}

/** Every configuration with the files it answers for: of those that list a file the innermost does. */
function readConfigurations() {
  const found = ROOMS.flatMap((room) =>
    readdirSync(room, { recursive: true }).map((name) => resolve(room, name.toString())),
  );
  const configurations = found
    .filter((path) => path.endsWith(`${sep}tsconfig.json`))
    .map((path) => ({ ...configurationAt(path), own: /** @type {string[]} */ ([]) }))
    .sort((a, b) => b.folder.length - a.folder.length);
  const sources = found.filter((path) => /\.tsx?$/.test(path) && !slashed(path).startsWith("test/fixtures/"));
  const names = new Set([...sources, ...configurations.flatMap(({ fileNames }) => fileNames)]);
  for (const name of names) {
    const owner = configurations.find(({ fileNames }) => fileNames.includes(name));
    if (owner === undefined) throw new Error(`${slashed(name)}: no tsconfig.json answers for it`);
    owner.own.push(name);
  }
  return configurations;
}

/** Configurations with the same flags make one program; the one with the most files comes first. */
function readPrograms() {
  /** @type {Map<string, ReturnType<typeof readConfigurations>>} */
  const byFlags = new Map();
  for (const one of readConfigurations()) {
    const key = JSON.stringify(one.flags);
    byFlags.set(key, [...(byFlags.get(key) ?? []), one]);
  }
  const filesOf = (together) => together.reduce((sum, { own }) => sum + own.length, 0);
  return [...byFlags.values()].sort((a, b) => filesOf(b) - filesOf(a));
}

const FOLDER = resolve("dist", "types");
const TSC = fileURLToPath(new URL("bin/tsc", import.meta.resolve("typescript-native/package.json")));

/** What one program finds in its own files. */
function check(together, number) {
  const { path, flags } = together[0];
  const own = together.flatMap((one) => one.own);
  // The flags of the first for the files of all: a configuration of its own that extends it.
  const configuration = join(FOLDER, `${number}.json`);
  writeFileSync(configuration, JSON.stringify({ extends: path, include: [], files: own }));
  const args = ["-p", configuration, "--noEmit", "--pretty", "false"];
  const { stdout, stderr, error, status } = spawnSync(process.execPath, [TSC, ...args], { encoding: "utf8" });
  if (error !== undefined || stderr !== "") throw new Error(`tsc: ${error?.message ?? stderr}`);
  const owned = new Set(own.map(slashed));
  /** Each finding with the lines that go on about it; of imported files that another answers for there are none. */
  const found = [...together.flatMap(({ errors }) => errors.map(({ messageText }) => textOf(messageText)))];
  let listed = false;
  let all = 0;
  for (const line of stdout.split("\n").filter((one) => one !== "")) {
    if (/^\s/.test(line)) {
      if (listed) found[found.length - 1] += `\n   ${line}`;
      continue;
    }
    all++;
    const [, file, at, code, what] = /^(.+?)\((\d+),\d+\): error (TS\d+): (.*)$/.exec(line) ?? [];
    listed = file === undefined || owned.has(slashed(resolve(file)));
    if (listed) found.push(file === undefined ? line : `${slashed(resolve(file))}:${at}: ${code} ${what}`);
  }
  if (status !== 0 && all === 0) throw new Error(`tsc ended with ${status} and said nothing`);
  const lines = found.map((one) => `   ${one}`);
  const folders = together.map(({ folder }) => folder).sort();
  const free = flags.noUncheckedIndexedAccess === true ? "" : ", indexed freely";
  lines.push(`   ${folders.join(", ")}: ${own.length} files, ${found.length} errors${free}`);
  return { text: `${lines.join("\n")}\n`, ok: own.length > 0 && found.length === 0 };
}

mkdirSync(FOLDER, { recursive: true });
const results = readPrograms().map(check);
for (const { text } of results) process.stdout.write(text);
process.exitCode = results.length > 1 && results.every(({ ok }) => ok) ? 0 : 1;
