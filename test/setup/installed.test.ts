// The installed command, from a folder that is not the project's.
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, expect, it } from "vitest";

const folder = mkdtempSync(join(tmpdir(), "followcar-installed-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it.skipIf(process.platform === "win32")("runs by a link from anywhere and sees paths from there", () => {
  const { bin } = JSON.parse(readFileSync("package.json", "utf8")) as { bin: { followcar: string } };
  const command = join(folder, "followcar");
  // What `npm install -g .` makes.
  symlinkSync(resolve(bin.followcar), command);
  writeFileSync(join(folder, "not-a-ride.csv"), "a;b\n1;2\n");
  const run = (...args: readonly string[]) => spawnSync(command, args, { cwd: folder, encoding: "utf8" });
  expect(run("--help")).toMatchObject({ status: 0 });
  const read = run("read", "not-a-ride.csv");
  expect(read.status).toBe(3);
  // The file was found and opened: it is refused for what is in it.
  expect(read.stderr).toContain("not-a-ride.csv");
  expect(read.stderr).not.toMatch(/is not there|does not exist|no such file/i);
  expect(run("read", "away.csv").stderr).toContain("away.csv");
});
