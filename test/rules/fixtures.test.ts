// A recorded file in test/ names no maker, device or serial number where its format (GPX 1.0 and 1.1, TCX 2) can do without:
// namespaces and schemas alone are addresses of a maker's.
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";

const FOLDER = "test/fixtures/rides";
const files = readdirSync(FOLDER).filter((name) => /\.(gpx|tcx)$/.test(name));
/** What stands for a name, and where a number is asked for. */
const NEUTRAL = new Set(["recorder", "0", "000-00000-00"]);
const NAMES = [
  /\bcreator="([^"]*)"/g,
  /<link href="([^"]*)"/g,
  /<link href="[^"]*">\s*<text>([^<]*)</g,
  /<author>([^<\s][^<]*)</g,
  /<Name>([^<]*)</g,
  /<(?:UnitId|ProductID|PartNumber)>([^<]*)</g,
];

test.each(files)("%s", (name) => {
  const text = readFileSync(join(FOLDER, name), "utf8");
  for (const pattern of NAMES)
    for (const [whole, value] of text.matchAll(pattern)) expect(NEUTRAL.has(value!), whole).toBe(true);
});

test("there are recorded files that say who wrote them", () => {
  const texts = files.map((name) => readFileSync(join(FOLDER, name), "utf8"));
  expect(texts.filter((text) => NAMES.some((pattern) => text.search(pattern) >= 0)).length).toBeGreaterThanOrEqual(8);
});
