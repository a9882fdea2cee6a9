// A part of a film that an earlier version made is kept only where this one would make the same.
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { afterAll, expect, test } from "vitest";
import { filmRecipe } from "../../main/setup/bundle.mjs";

const folder = mkdtempSync(join(tmpdir(), "followcar-recipe-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function write(path: string, text: string): void {
  mkdirSync(dirname(join(folder, path)), { recursive: true });
  writeFileSync(join(folder, path), text);
}

test("what draws, sounds and encodes names the recipe, what does not leaves it", () => {
  const seen = new Set<string>();
  const named = [
    "overlay/thread/paintThread.ts",
    "main/render/partGraph.ts",
    "main/maths/geodesy.ts",
    "main/host/program.edge.ts",
    "assets/fonts/figures.woff2",
    "package-lock.json",
  ];
  for (const path of [...named, "main/cli/followcar.ts", "README.md"]) write(path, "1");
  seen.add(filmRecipe(folder));
  for (const path of named) {
    write(path, "2");
    seen.add(filmRecipe(folder));
  }
  expect(seen.size).toBe(1 + named.length);
  write("main/cli/followcar.ts", "2");
  write("README.md", "2");
  expect(seen.has(filmRecipe(folder))).toBe(true);
});

test("the program that runs carries the recipe of its sources", () => {
  const recipe = filmRecipe(resolve("."));
  const carriers = readdirSync("dist").filter(
    (name) => name.endsWith(".mjs") && readFileSync(join("dist", name), "utf8").includes(`"${recipe}"`),
  );
  expect(carriers).toHaveLength(1);
});
