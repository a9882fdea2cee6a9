// The installed command, from a folder that is not the project's.
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, realpathSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
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

it("runs by npm from anywhere and sees paths from where the person stands", () => {
  const place = mkdtempSync(join(folder, "rides "));
  writeFileSync(join(place, "not-a-ride.csv"), "a;b\n1;2\n");
  const npm = (more: Record<string, string>, ...args: readonly string[]) =>
    spawnSync("npm", ["run", "-s", "--prefix", resolve("."), "followcar", "--", ...args], {
      cwd: place,
      encoding: "utf8",
      env: { ...process.env, ...more },
      shell: process.platform === "win32",
    });
  const read = npm({}, "read", "not-a-ride.csv");
  expect(read.status, read.stderr).toBe(3);
  expect(read.stderr).toMatch(/not-a-ride\.csv is not a ride file/);
  expect(npm({}, "read", "away.csv").stderr).toContain(join(realpathSync(place), "away.csv"));
  // Every option with a path: the plan that is read, and the folder that is written into.
  expect(npm({}, "plan", "--target", "160", "--out", "plan").status).toBe(0);
  expect(existsSync(join(place, "plan", "plan.json"))).toBe(true);
  expect(npm({}, "plan", "--plan", "plan/plan.json", "--out", "again").status).toBe(0);
  expect(readFileSync(join(place, "again", "plan.json"), "utf8")).toContain("160");
}, 60_000);

it("takes names from its own folder where another program's script calls it", () => {
  const place = mkdtempSync(join(folder, "other "));
  const other = { INIT_CWD: tmpdir(), npm_lifecycle_event: "followcar", npm_package_json: join(place, "package.json") };
  const { stderr } = spawnSync(process.execPath, [resolve("main/setup/followcar.mjs"), "read", "away.csv"], {
    cwd: place,
    encoding: "utf8",
    env: { ...process.env, ...other },
  });
  expect(stderr).toContain(join(realpathSync(place), "away.csv"));
}, 60_000);
