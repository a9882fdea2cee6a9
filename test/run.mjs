// One driver for every check: `node test/run.mjs check | all | bench | torture | gallery | pictures | verify:ffmpeg | reference | try:electron | summary`.
// DEVELOPERS.md has the table of what each means and how to run it alone.
import { spawn, spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { join, relative } from "node:path";

const REPORT = join("dist", "test-report.json");
/** Titles of the static checks that failed, so that the closing line counts them. */
const CHECKS = join("dist", "check-report.json");
const bin = (name) => join("node_modules", ".bin", name);

/** Says what runs, whether it passed and how long it took. @param {string} title @param {() => boolean} run */
function step(title, run) {
  process.stdout.write(`\n== ${title}\n`);
  const startedMs = performance.now();
  const ok = run();
  process.stdout.write(`   ${ok ? "ok" : "FAILED"} (${((performance.now() - startedMs) / 1000).toFixed(1)} s)\n`);
  return ok;
}

/** @param {string} program @param {readonly string[]} args */
const runs = (program, args) => () =>
  spawnSync(program, args, { stdio: "inherit", shell: process.platform === "win32" }).status === 0;

/** @param {string} name of a program in node_modules/.bin @param {readonly string[]} args */
const tool = (name, args) => runs(bin(name), args);

/** dependency-cruiser exits 0 when it analysed nothing, so its count is read. */
function layers() {
  const rooms = ["main", "overlay", "renderer"].filter((room) => existsSync(room));
  const result = spawnSync(
    bin("depcruise"),
    ["--config", ".dependency-cruiser.cjs", "--output-type", "json", ...rooms],
    {
      encoding: "utf8",
      maxBuffer: 1 << 28,
      shell: process.platform === "win32",
    },
  );
  let summary;
  try {
    summary = JSON.parse(result.stdout).summary;
  } catch {
    process.stdout.write(`${result.stdout.slice(0, 2000)}${result.stderr}\n`);
    return false;
  }
  for (const { from, to, rule } of summary.violations) process.stdout.write(`   ${rule.name}: ${from} -> ${to}\n`);
  process.stdout.write(`   ${summary.totalCruised} files, ${summary.violations.length} violations\n`);
  return summary.totalCruised > 10 && summary.violations.length === 0;
}

/** Longest line of a source, letters: what Prettier leaves long (text, comments, styles) is broken by hand. */
const LONGEST_LINE = 160;
const SOURCES = /\.(ts|tsx|mjs|cjs|css|html)$/;
/** Written by programs, or the bytes of somebody's file. */
const NOT_BY_HAND = /^(overlay\/glyphs\.ts$|test\/fixtures\/)/;

function shortLines() {
  const below = ["main", "overlay", "renderer", "test"].flatMap((room) =>
    readdirSync(room, { recursive: true }).map((name) => `${room}/${name.replaceAll("\\", "/")}`),
  );
  const files = [...readdirSync("."), ...below].filter((name) => SOURCES.test(name) && !NOT_BY_HAND.test(name));
  const long = files.flatMap((name) =>
    readFileSync(name, "utf8")
      .split(/\r?\n/)
      .flatMap((line, index) => (line.length > LONGEST_LINE ? [`${name}:${index + 1}: ${line.length}`] : [])),
  );
  process.stdout.write(`${long.map((one) => `   ${one}\n`).join("")}   ${files.length} files, ${long.length} lines\n`);
  return files.length > 100 && long.length === 0;
}

/** What neither the program nor its own file uses is there for tests alone: it goes, or into test/. */
const ONLY_TESTS = ["--config", "test/exportsOfTests.knip.json", "--include", "exports,types,files"];

/** Rooms whose tests start no program and serve no page. */
const PURE_TESTS = [
  "test/contract",
  "test/maths",
  "test/ride",
  "test/reading",
  "test/lineup",
  "test/film",
  "test/overlay",
];
/** In them, those that simulate or damage by the hundred, draw or tell all there is, or start a browser: `npm test` runs them. */
const LONG_TESTS = [
  "test/film/storyNote.test.ts",
  "test/overlay/panels/paintPanels.test.ts",
  "test/overlay/thread/threadStates.test.ts",
  "test/reading/plantedLapses.test.ts",
  "test/lineup/lineupCases.test.ts",
  "test/lineup/doubtInherited.test.ts",
  "test/lineup/slowMotion.test.ts",
  "test/lineup/signals/solveGroup.test.ts",
  "test/reading/calibration.test.ts",
  "test/overlay/contrast.test.ts",
  "test/overlay/browserPixels.test.ts",
  "test/reading/contradictions.test.ts",
  "test/ride/hostileFiles.test.ts",
  "test/ride/mutation.test.ts",
  "test/overlay/gallery/**",
];

/**
 * Every static check, two at a time; what failed is named at the end and kept for the closing line.
 * @param {boolean} kept files that did not change since the last time are let be. Lint looks across files and may miss
 * what a change elsewhere does to one of them: the whole run looks at all.
 * @param {[string, string, string[]][]} beside what is no static check and runs among them: lint alone would leave a core idle
 */
async function check(kept, beside = []) {
  /** @param {string} name */
  const cache = (name) => (kept ? ["--cache", "--cache-location", join("dist", "kept", name)] : []);
  /** The longest first. @type {[string, string, string[]][]} */
  const programs = [
    ["lint", bin("eslint"), ["--max-warnings", "0", ...cache("lint"), "main", "overlay", "renderer", "test"]],
    ...beside,
    ["lint by types", bin("oxlint"), ["--type-aware", "--max-warnings", "0", "main", "overlay", "renderer", "test"]],
    ["types", process.execPath, ["test/types.mjs"]],
    ["form", bin("prettier"), ["--check", "--log-level", "warn", ...cache("form"), "."]],
    ["unused files and packages", bin("knip"), ["--no-progress"]],
    ["exports that tests alone use", bin("knip"), ["--no-progress", "--production", ...ONLY_TESTS]],
  ];
  const failed = [];
  const next = async () => {
    for (let one = programs.shift(); one !== undefined; one = programs.shift())
      if (!(await stepBeside(...one))) failed.push(one[0]);
  };
  await Promise.all([next(), next()]);
  /** @type {[string, () => boolean][]} */
  const own = [
    [`lines over ${LONGEST_LINE} letters`, shortLines],
    ["which way imports point", layers],
  ];
  failed.push(...own.filter(([title, run]) => !step(title, run)).map(([title]) => title));
  mkdirSync("dist", { recursive: true });
  const others = beside.map(([title]) => title);
  writeFileSync(CHECKS, JSON.stringify({ failed: failed.filter((title) => !others.includes(title)) }));
  return failed.length === 0;
}

/**
 * As `step`, for a program that runs beside another: what it says is printed when it ends.
 * @param {string} title @param {string} program @param {readonly string[]} args
 */
function stepBeside(title, program, args) {
  const startedMs = performance.now();
  return new Promise((resolve) => {
    const child = spawn(program, args, { shell: process.platform === "win32", stdio: ["ignore", "pipe", "pipe"] });
    /** @type {Buffer[]} */
    const said = [];
    for (const stream of [child.stdout, child.stderr]) stream.on("data", (bytes) => said.push(bytes));
    const ended = (ok) => {
      const tookS = ((performance.now() - startedMs) / 1000).toFixed(1);
      process.stdout.write(`\n== ${title}\n${Buffer.concat(said)}   ${ok ? "ok" : "FAILED"} (${tookS} s)\n`);
      resolve(ok);
    };
    child.once("error", (error) => {
      said.push(Buffer.from(`${error.message}\n`));
      ended(false);
    });
    child.once("close", (code) => ended(code === 0));
  });
}

/** @param {readonly string[]} folders @param {readonly string[]} more @returns {[string, string, string[]]} */
function vitest(folders, more = []) {
  mkdirSync("dist", { recursive: true });
  const reporters = ["--reporter=default", "--reporter=json", `--outputFile.json=${REPORT}`];
  return ["tests", bin("vitest"), ["run", ...reporters, ...more, ...folders]];
}

/**
 * The closing line, from the test runner's own report. A test file that failed without a failed test (it did not load,
 * or its set-up failed) counts as one that failed, and so does each static check that failed; those are named above it.
 * @param {string} report @param {string} checks what the static checks left, if they ran
 */
function summary(report = REPORT, checks = CHECKS) {
  /** @type {{ failed: string[] }} */
  const { failed: failedChecks } = existsSync(checks) ? JSON.parse(readFileSync(checks, "utf8")) : { failed: [] };
  for (const title of failedChecks) process.stdout.write(`failed: ${title}\n`);
  if (!existsSync(report)) {
    process.stdout.write(`0 passed, ${1 + failedChecks.length} failed\n`);
    return false;
  }
  const { numPassedTests, numFailedTests, numPendingTests, success, testResults } = JSON.parse(
    readFileSync(report, "utf8"),
  );
  const brokenFiles = testResults.filter(
    ({ status, assertionResults }) => status === "failed" && !assertionResults.some((one) => one.status === "failed"),
  ).length;
  // Named again beside the count: a log may be cut to its end.
  for (const { name, assertionResults } of testResults)
    for (const { status, fullName } of assertionResults)
      if (status === "failed") process.stdout.write(`failed: ${relative(".", name)}: ${fullName}\n`);
  // What broke outside every file (an error nobody caught) still is one failure.
  const failed = Math.max(numFailedTests + brokenFiles, success ? 0 : 1) + failedChecks.length;
  const skipped = numPendingTests > 0 ? `, ${numPendingTests} skipped` : "";
  process.stdout.write(`${numPassedTests} passed, ${failed} failed${skipped}\n`);
  return failed === 0 && numPassedTests > 0;
}

/** The window's tests in Electron itself, and a table of them: for a machine that has its binary. */
function tryElectron() {
  if (!existsSync(join("node_modules", "electron", "path.txt"))) {
    process.stderr.write(
      "try:electron: Electron's binary is not here, so nothing was tried (npm run setup says why).\n",
    );
    return false;
  }
  const path = join("dist", "electron-report.json");
  rmSync(path, { force: true });
  process.env.FOLLOWCAR_SHELL = "electron";
  const reporters = ["--reporter=default", "--reporter=json", `--outputFile.json=${path}`];
  const ok = step("the window's tests in Electron", tool("vitest", ["run", ...reporters, "test/renderer"]));
  if (!existsSync(path)) return false;
  for (const { name, assertionResults } of JSON.parse(readFileSync(path, "utf8")).testResults) {
    const count = (wanted) => assertionResults.filter(({ status }) => status === wanted).length;
    const counts = `${count("passed")} passed, ${count("failed")} failed, ${count("skipped")} skipped`;
    process.stdout.write(`${relative("test/renderer", name).padEnd(32)} ${counts}\n`);
  }
  return summary(path, "") && ok;
}

/** Bundles one TypeScript program of test/ and runs it. @param {string} file @param {readonly string[]} args */
async function program(file, args) {
  const { build } = await import("esbuild");
  const outfile = join("dist", "test", file.replace(/[\\/]/g, "-").replace(/\.ts$/, ".mjs"));
  await build({
    entryPoints: [file],
    outfile,
    bundle: true,
    platform: "node",
    target: "node20",
    format: "esm",
    packages: "external",
    sourcemap: true,
    logLevel: "error",
  });
  return step(file, runs(process.execPath, ["--enable-source-maps", "--expose-gc", outfile, ...args]));
}

const [verb = "all", ...rest] = process.argv.slice(2);
let ok = true;
if (verb === "check") {
  // Pure files leave nothing behind for the next, so they share what a worker has read.
  const more = ["--no-isolate", ...LONG_TESTS.flatMap((files) => ["--exclude", files])];
  rmSync(REPORT, { force: true });
  ok = await check(true, [vitest(PURE_TESTS, more)]);
  ok = summary() && ok;
} else if (verb === "all") {
  rmSync(REPORT, { force: true });
  const [title, program, args] = vitest(rest);
  ok = [await check(false), step(title, runs(program, args))].every(Boolean);
  process.stdout.write("\n");
  ok = summary() && ok;
} else if (verb === "try:electron") {
  ok = tryElectron();
} else if (verb === "summary") {
  // A report named by hand is read by itself, or with the checks named beside it.
  ok = rest[0] === undefined ? summary() : summary(rest[0], rest[1] ?? "");
} else {
  const programs = {
    bench: "test/bench/index.ts",
    torture: "test/torture/index.ts",
    gallery: "test/overlay/gallery/index.ts",
    pictures: "test/readme/pictures.ts",
    "verify:ffmpeg": "test/render/verifyFfmpeg.ts",
    reference: "test/reference.ts",
  };
  const file = programs[verb];
  if (!file) {
    process.stderr.write(
      `unknown: ${verb}. One of: check, all, summary, try:electron, ${Object.keys(programs).join(", ")}\n`,
    );
    process.exit(2);
  }
  ok = await program(file, rest);
}
process.exit(ok ? 0 : 1);
