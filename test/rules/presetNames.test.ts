// The names of presets are written in main/contract/presets.ts alone: a new one is one line there and its words.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { PRESET_NAMES, PRESETS_BY_USE, USUAL_PRESET } from "../../main/contract/presets.ts";

/** Some of the names are words of other lists too: such a one counts where something of a preset stands before it. */
function namesIn(code: string): string[] {
  const own = PRESET_NAMES.filter((name) => name !== "share").join("|");
  return code
    .split("\n")
    .filter((line) => new RegExp(`"(${own})"|preset.*"(${PRESET_NAMES.join("|")})"`, "i").test(line));
}

test("stand in one file", () => {
  const found = ["main", "overlay", "renderer"].flatMap((room) =>
    readdirSync(room, { recursive: true, encoding: "utf8" })
      .filter((name) => /\.tsx?$/.test(name) && !/contract[\\/]presets\.ts$/.test(name))
      .flatMap((name) => namesIn(readFileSync(join(room, name), "utf8")).map((line) => `${room}/${name}: ${line}`)),
  );
  expect(found).toEqual([]);
});

test("are found where one is written once more", () => {
  expect(namesIn('const preset = "share";')).toHaveLength(1);
  expect(namesIn('const all = ["draft"];')).toHaveLength(1);
  expect(namesIn('if (story.kind === "share") return;')).toEqual([]);
});

test("are all offered, the usual one first", () => {
  expect([...PRESETS_BY_USE].sort()).toEqual([...PRESET_NAMES].sort());
  expect(PRESETS_BY_USE[0]).toBe(USUAL_PRESET);
});
