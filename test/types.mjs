// Types of every file, each under the flags of its own folder: `node test/types.mjs`.
// tsc checks all that a program imports under that program's flags. Here each tsconfig.json answers for its own files
// alone, so that numeric kernels which index their columns freely may be imported from where nothing else does.
import { readdirSync } from "node:fs";
import { dirname, relative, resolve, sep } from "node:path";
import { Worker, isMainThread, parentPort, workerData } from "node:worker_threads";
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
  return { folder: slashed(dirname(path)), fileNames: fileNames.map((name) => resolve(name)), errors, flags };
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

/** Read once for all programs of a thread. @type {Map<string, ts.SourceFile | undefined>} */
const read = new Map();

/** @param {ts.CompilerOptions} flags */
function hostFor(flags) {
  const host = ts.createCompilerHost(flags);
  const plain = host.getSourceFile;
  host.getSourceFile = (path, language, ...rest) => {
    const key = `${path} ${JSON.stringify(language)}`;
    if (!read.has(key)) read.set(key, plain(path, language, ...rest));
    return read.get(key);
  };
  return host;
}

/** What one program finds in its own files. */
function check(together) {
  const { flags } = together[0];
  const own = together.flatMap((one) => one.own);
  const program = ts.createProgram(own, flags, hostFor(flags));
  const found = [
    ...together.flatMap(({ errors }) => errors),
    ...program.getOptionsDiagnostics(),
    ...program.getGlobalDiagnostics(),
    ...own.flatMap((name) => {
      const file = program.getSourceFile(name);
      return [...program.getSyntacticDiagnostics(file), ...program.getSemanticDiagnostics(file)];
    }),
  ];
  const lines = found.map(({ file, start, code, messageText }) => {
    const at = file && `${slashed(file.fileName)}:${file.getLineAndCharacterOfPosition(start ?? 0).line + 1}: `;
    return `   ${at ?? ""}TS${code} ${textOf(messageText)}`;
  });
  const folders = together.map(({ folder }) => folder).sort();
  const free = flags.noUncheckedIndexedAccess === true ? "" : ", indexed freely";
  lines.push(`   ${folders.join(", ")}: ${own.length} files, ${found.length} errors${free}`);
  return { text: `${lines.join("\n")}\n`, ok: own.length > 0 && found.length === 0 };
}

if (isMainThread) {
  // The largest program takes about as long as all others: two threads, one for each.
  const others = new Worker(new URL(import.meta.url), { workerData: "others" });
  const rest = new Promise((done, failed) => others.once("message", done).once("error", failed));
  const results = [check(readPrograms()[0]), ...(await rest)];
  for (const { text } of results) process.stdout.write(text);
  process.exitCode = results.length > 1 && results.every(({ ok }) => ok) ? 0 : 1;
} else if (workerData === "others") {
  parentPort.postMessage(readPrograms().slice(1).map(check));
}
