// The supply chain: every package is locked, of an allowed licence, with a reason, and told where the program goes.
import { readFileSync, readdirSync } from "node:fs";
import { expect, test } from "vitest";
import { licenceFaults, packageNotices, packagesOf } from "../../main/setup/licences.mjs";

interface Locked {
  readonly version: string;
  readonly integrity?: string;
  readonly resolved?: string;
  readonly deprecated?: string;
}
const lock = JSON.parse(readFileSync("package-lock.json", "utf8")) as { packages: Record<string, Locked> };
const project = JSON.parse(readFileSync("package.json", "utf8")) as {
  readonly dependencies: Record<string, string>;
  readonly devDependencies: Record<string, string>;
};
const developers = readFileSync("DEVELOPERS.md", "utf8");
/** Rows `| package | … |` below the heading. */
const rows = (heading: string): string[] =>
  (developers.split(`\n### ${heading}\n`)[1] ?? "")
    .split("\n#")[0]!
    .split("\n")
    .flatMap((line) => {
      const [, names, why] = /^\| (`[^|]+`) \| ([^|]{10,})/.exec(line) ?? [];
      return names === undefined || why === undefined ? [] : [...names.matchAll(/`([^`]+)`/g)].map(([, name]) => name!);
    });

test("every licence is allowed; another, or none, is named", () => {
  expect(packagesOf(lock).length).toBeGreaterThan(100);
  expect(licenceFaults(packagesOf(lock))).toEqual([]);
  const planted = (name: string, license: string | undefined, dev: boolean) =>
    licenceFaults(packagesOf({ packages: { [`node_modules/${name}`]: { version: "1.0.0", license, dev } } }));
  expect(planted("one", "AGPL-3.0", false)).toHaveLength(1);
  expect(planted("one", undefined, true)).toHaveLength(1);
  expect(planted("one", "UNLICENSED", true)).toHaveLength(1);
  expect(planted("one", "(GPL-2.0 OR MIT)", false)).toEqual([]);
  // An exception holds for its package alone, and what is for development only may not go with the program.
  expect(planted("another-ffmpeg", "GPL-3.0-or-later", false)).toHaveLength(1);
  expect(planted("axe-core", "MPL-2.0", true)).toEqual([]);
  expect(planted("axe-core", "MPL-2.0", false)).toHaveLength(1);
});

test("each package is locked by version and checksum, and no install script runs unasked", () => {
  for (const version of Object.values({ ...project.dependencies, ...project.devDependencies }))
    // One version and no range, also of a package under another name.
    expect(version).toMatch(/^(npm:[a-z-]+@)?\d+\.\d+\.\d+$/);
  const open = Object.entries(lock.packages).filter(([path, { integrity }]) => path !== "" && integrity === undefined);
  expect(open).toEqual([]);
  expect(readFileSync(".npmrc", "utf8")).toMatch(/^ignore-scripts=true$/m);
});

test("each package of ours has its reason in DEVELOPERS.md, and no other stands there", () => {
  const direct = Object.keys({ ...project.dependencies, ...project.devDependencies });
  expect(rows("Packages, and why").sort()).toEqual(direct.sort());
});

test("what is no longer looked after is named with the plan for it", () => {
  const named = rows("No longer looked after");
  const deprecated = Object.entries(lock.packages).filter(([, { deprecated }]) => deprecated !== undefined);
  const missing = deprecated
    .map(([path]) => path.split("node_modules/").at(-1)!)
    .filter((name) => !named.includes(name));
  expect(missing).toEqual([]);
  expect(named).toContain("fluent-ffmpeg");
  for (const name of named) expect(Object.keys(lock.packages)).toContain(`node_modules/${name}`);
});

test("the notice names every package that goes with the program, each under its licence's text", () => {
  const notice = packageNotices(".");
  const parts = notice.split(`\n${"-".repeat(80)}\n`);
  for (const { name, version, shipped } of packagesOf(lock)) {
    if (!shipped) continue;
    const part = parts.find((one) => one.includes(`${name} ${version} (`));
    expect(part, name).toBeDefined();
    expect(part!.length, name).toBeGreaterThan(600);
  }
  for (const text of ["GNU GENERAL PUBLIC LICENSE", "GNU LESSER GENERAL PUBLIC LICENSE", "SIL OPEN FONT LICENSE"])
    expect(notice).toContain(text);
  expect(notice).not.toContain(process.cwd());
  expect(readFileSync("electron-builder.yml", "utf8")).toContain("- dist/packages.txt");
  expect(readdirSync("dist")).toContain("packages.txt");
});
