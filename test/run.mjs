// One driver for every check: `node test/run.mjs check | all | bench | torture | gallery | verify:ffmpeg | reference | summary`.
// DEVELOPERS.md has the table of what each means and how to run it alone.
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";

const REPORT = join("dist", "test-report.json");
const bin = (name) => join("node_modules", ".bin", name);

/** @param {string} title @param {string} program @param {readonly string[]} args */
function step(title, program, args) {
  process.stdout.write(`\n== ${title}\n`);
  const startedMs = performance.now();
  const result = spawnSync(program, args, { stdio: "inherit", shell: process.platform === "win32" });
  process.stdout.write(
    `   ${result.status === 0 ? "ok" : "FAILED"} (${((performance.now() - startedMs) / 1000).toFixed(1)} s)\n`,
  );
  return result.status === 0;
}

/** dependency-cruiser exits 0 when it analysed nothing, so its count is read. */
function layers() {
  process.stdout.write("\n== which way imports point\n");
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
  process.stdout.write(`\n== lines over ${LONGEST_LINE} letters\n`);
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

const PURE_TESTS = [
  "test/ride",
  "test/reading",
  "test/maths",
  "test/lineup",
  "test/film",
  "test/debrief",
  "test/contract",
  "test/rules",
  "test/app",
];

function check() {
  return [
    step("types", bin("tsc"), ["-p", "."]),
    step("types of overlay (no Node, no DOM)", bin("tsc"), ["-p", "overlay"]),
    step("types of the window (no Node)", bin("tsc"), ["-p", "renderer"]),
    step("types of the window's tests", bin("tsc"), ["-p", "test/renderer"]),
    step("form", bin("prettier"), ["--check", "--log-level", "warn", "."]),
    step("lint", bin("eslint"), ["--max-warnings", "0", "main", "overlay", "renderer", "test"]),
    shortLines(),
    layers(),
    step("unused files and packages", bin("knip"), ["--no-progress"]),
  ].every(Boolean);
}

function vitest(folders) {
  mkdirSync("dist", { recursive: true });
  return step("tests", bin("vitest"), [
    "run",
    "--reporter=default",
    "--reporter=json",
    `--outputFile.json=${REPORT}`,
    ...folders,
  ]);
}

/**
 * The closing line, from the test runner's own report. A test file that failed without a failed test (it did not load,
 * or its set-up failed) counts as one that failed. @param {string} report
 */
function summary(report = REPORT) {
  if (!existsSync(report)) {
    process.stdout.write("0 passed, 1 failed\n");
    return false;
  }
  const { numPassedTests, numFailedTests, numPendingTests, success, testResults } = JSON.parse(
    readFileSync(report, "utf8"),
  );
  const brokenFiles = testResults.filter(
    ({ status, assertionResults }) => status === "failed" && !assertionResults.some((one) => one.status === "failed"),
  ).length;
  // What broke outside every file (an error nobody caught) still is one failure.
  const failed = Math.max(numFailedTests + brokenFiles, success ? 0 : 1);
  const skipped = numPendingTests > 0 ? `, ${numPendingTests} skipped` : "";
  process.stdout.write(`${numPassedTests} passed, ${failed} failed${skipped}\n`);
  return failed === 0 && numPassedTests > 0;
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
  return step(file, process.execPath, ["--enable-source-maps", "--expose-gc", outfile, ...args]);
}

const [verb = "all", ...rest] = process.argv.slice(2);
let ok = true;
if (verb === "check") {
  ok = [check(), vitest(PURE_TESTS.filter((folder) => existsSync(folder)))].every(Boolean);
  ok = summary() && ok;
} else if (verb === "all") {
  ok = [check(), vitest(rest)].every(Boolean);
  process.stdout.write("\n");
  ok = summary() && ok;
} else if (verb === "summary") {
  ok = summary(rest[0]);
} else {
  const programs = {
    bench: "test/bench/index.ts",
    torture: "test/torture/index.ts",
    gallery: "test/overlay/gallery/index.ts",
    "verify:ffmpeg": "test/render/verifyFfmpeg.ts",
    reference: "test/reference.ts",
  };
  const file = programs[verb];
  if (!file) {
    process.stderr.write(`unknown: ${verb}. One of: check, all, summary, ${Object.keys(programs).join(", ")}\n`);
    process.exit(2);
  }
  ok = await program(file, rest);
}
process.exit(ok ? 0 : 1);
