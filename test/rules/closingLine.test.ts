// The last line of `.ci/run` is read by people and machines: what it counts must be what the exit code says.
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, expect, test } from "vitest";

const folder = mkdtempSync(join(tmpdir(), "followcar-closing-line-"));
symlinkSync(resolve("node_modules"), join(folder, "node_modules"), "dir");
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface MadeFile {
  readonly name: string;
  readonly status: "passed" | "failed";
  readonly assertionResults: readonly { readonly status: string; readonly fullName: string }[];
}

function closingLine(...paths: readonly string[]): { line: string; status: number | null } {
  const { stdout, status } = spawnSync(process.execPath, ["test/run.mjs", "summary", ...paths], { encoding: "utf8" });
  return { line: stdout.trim(), status };
}

function ofReport(success: boolean, counts: readonly [number, number, number], testResults: readonly MadeFile[]) {
  const [numPassedTests, numFailedTests, numPendingTests] = counts;
  const path = join(folder, "report.json");
  writeFileSync(path, JSON.stringify({ numPassedTests, numFailedTests, numPendingTests, success, testResults }));
  return closingLine(path);
}

const made = (status: MadeFile["status"], ...results: readonly string[]): MadeFile => ({
  name: resolve("test", `${status}.test.ts`),
  status,
  assertionResults: results.map((result) => ({ status: result, fullName: `is ${result}` })),
});
const good = made("passed", "passed");

test("what passed, failed and was left out is counted, and what failed is named", () => {
  expect(ofReport(true, [1, 0, 0], [good])).toEqual({ line: "1 passed, 0 failed", status: 0 });
  const bad = made("failed", "failed", "skipped");
  const printed = `failed: ${join("test", "failed.test.ts")}: is failed\n1 passed, 1 failed, 1 skipped`;
  expect(ofReport(false, [1, 1, 1], [good, bad])).toEqual({ line: printed, status: 1 });
});

test("a file that did not load, and one whose set-up failed, count as failed", () => {
  const notLoaded = made("failed");
  const setUpFailed = made("failed", "skipped");
  expect(ofReport(false, [1105, 0, 0], [good, notLoaded])).toEqual({ line: "1105 passed, 1 failed", status: 1 });
  expect(ofReport(false, [3, 0, 1], [good, notLoaded, setUpFailed]).line).toBe("3 passed, 2 failed, 1 skipped");
});

test("a static check that failed is named and counts, whatever the tests did", () => {
  const path = join(folder, "report.json");
  const counts = { numPassedTests: 9, numFailedTests: 0, numPendingTests: 0, success: true, testResults: [good] };
  writeFileSync(path, JSON.stringify(counts));
  const checks = join(folder, "checks.json");
  writeFileSync(checks, JSON.stringify({ failed: ["lint", "form"] }));
  const printed = "failed: lint\nfailed: form\n9 passed, 2 failed";
  expect(closingLine(path, checks)).toEqual({ line: printed, status: 1 });
  expect(closingLine(join(folder, "none.json"), checks).line).toContain("\n0 passed, 3 failed");
});

test("an error outside every file counts, and nothing run is no pass", () => {
  expect(ofReport(false, [1, 0, 0], [good])).toEqual({ line: "1 passed, 1 failed", status: 1 });
  expect(ofReport(true, [0, 0, 0], []).status).toBe(1);
  expect(closingLine(join(folder, "none.json"))).toEqual({ line: "0 passed, 1 failed", status: 1 });
});

test("the runner's own report of a file that does not load is read so", () => {
  writeFileSync(join(folder, "good.test.mjs"), 'import { test } from "vitest"; test("x", () => undefined);');
  writeFileSync(join(folder, "broken.test.mjs"), 'import "./is-not-there.mjs";');
  const path = join(folder, "own.json");
  const vitest = resolve("node_modules/vitest/vitest.mjs");
  spawnSync(process.execPath, [vitest, "run", "--root", folder, "--reporter=json", `--outputFile.json=${path}`]);
  expect(JSON.parse(readFileSync(path, "utf8"))).toMatchObject({ numFailedTests: 0, success: false });
  expect(closingLine(path)).toEqual({ line: "1 passed, 1 failed", status: 1 });
});
