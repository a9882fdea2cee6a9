// The strict flags of types are seen to fail in each room: a tree with the tsconfig.json files and a planted file in each.
import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { afterAll, expect, test } from "vitest";

/** What indexes columns freely; DEVELOPERS.md says the same. */
const KERNELS = ["main/footage/signals", "main/lineup/signals", "main/maths", "main/reading", "main/ride"];
const TOPS = ["main", "overlay", "renderer", "test"];

const PLANTED = [
  "export const first = (values: readonly number[]): number => values[0];",
  "export const said: { readonly word?: string } = { word: undefined };",
  'export const count: number = "one";',
  "export const none: number = 1;",
].join("\n");
const IN_KERNEL = [2, 3];
const ELSEWHERE = [1, 2, 3];

const names = TOPS.flatMap((top) =>
  readdirSync(top, { recursive: true, encoding: "utf8" }).map((name) => `${top}/${name.replaceAll("\\", "/")}`),
);
/** Each folder that holds sources. */
const rooms = [...new Set(names.filter((name) => /\.tsx?$/.test(name)).map((name) => dirname(name)))]
  .filter((room) => !room.startsWith("test/fixtures"))
  .sort();
const isKernel = (room: string) => KERNELS.some((kernel) => `${room}/`.startsWith(`${kernel}/`));

const tree = mkdtempSync(join(tmpdir(), "followcar-types-"));
afterAll(() => rmSync(tree, { recursive: true, force: true }));

/** Lines of the errors by file, and the exit code. */
function checked(): { found: Map<string, number[]>; status: number | null; said: string } {
  const { stdout, stderr, status } = spawnSync(process.execPath, [resolve("test/types.mjs")], {
    cwd: tree,
    encoding: "utf8",
  });
  const found = new Map<string, number[]>();
  for (const [, path, line] of stdout.matchAll(/^ {3}(\S+):(\d+): TS\d+ /gm))
    found.set(path!, [...(found.get(path!) ?? []), Number(line)]);
  return { found, status, said: stdout + stderr };
}

test("the kernels alone index freely; nothing else is let by anywhere", { timeout: 300_000 }, () => {
  // Nothing planted needs Node's own types, only that there are some.
  mkdirSync(join(tree, "node_modules/@types/node"), { recursive: true });
  writeFileSync(join(tree, "node_modules/@types/node/index.d.ts"), "export {};");
  for (const name of ["tsconfig.json", ...names.filter((one) => one.endsWith("/tsconfig.json"))])
    cpSync(name, join(tree, name));
  for (const room of rooms) {
    mkdirSync(join(tree, room), { recursive: true });
    writeFileSync(join(tree, room, "planted.ts"), PLANTED);
  }
  // What a kernel may do is let be where others import it, too.
  writeFileSync(join(tree, "main/film/imports.ts"), 'export { first } from "../maths/planted.ts";');
  const { found, status, said } = checked();
  console.log(`${rooms.length} folders, ${rooms.filter(isKernel).length} of them kernels'`);
  expect(status, said).toBe(1);
  expect(rooms.filter(isKernel).length).toBeGreaterThanOrEqual(KERNELS.length);
  expect([...found].sort()).toEqual(
    rooms.map((room) => [`${room}/planted.ts`, isKernel(room) ? IN_KERNEL : ELSEWHERE]).sort(),
  );

  // A file that no configuration lists is said, and not passed over.
  writeFileSync(
    join(tree, "overlay/tsconfig.json"),
    '{ "extends": "../tsconfig.json", "include": ["words"], "exclude": [] }',
  );
  const { status: unlisted, said: why } = checked();
  expect(unlisted, why).not.toBe(0);
  expect(why).toContain("overlay/planted.ts: no tsconfig.json answers for it");
});
