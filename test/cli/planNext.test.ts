// `plan` ends with what to do next, and each of these steps can be done as told.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { runProgram } from "../support/runProgram.ts";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "followcar-plan-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const lines = async (...args: readonly string[]): Promise<string[]> => {
  const { code, stdout, stderr } = await runProgram(["plan", ...args], { cwd: folder });
  expect(code, stderr).toBe(0);
  return stdout.trimEnd().split("\n");
};

it("without a target the plan is to be filled in, then the page is made of it", async () => {
  const said = await lines();
  expect(said).toEqual([
    "Written:",
    "  plan.json",
    "  plan.html",
    "",
    'Next: fill in plan.json, the target first, like "target": 160. followcar plan --help explains every key.',
    "Then make the athlete's page of it: followcar plan --plan plan.json --out FOLDER",
    "After the ride: followcar debrief RIDE --plan plan.json",
  ]);
  const path = join(folder, "plan.json");
  writeFileSync(path, readFileSync(path, "utf8").replace("{", '{ "target": 160,'));
  const again = await lines("--plan", "plan.json", "--out", "for Ida");
  expect(again.slice(4)).toEqual([
    "Before the ride: give for Ida/plan.html to the athlete.",
    'After the ride: followcar debrief RIDE --plan "for Ida/plan.json"',
  ]);
  expect(readFileSync(join(folder, "for Ida", "plan.html"), "utf8")).toMatch(/148\sto\s172\sW/);
  const heart = join(folder, "heart.json");
  writeFileSync(heart, readFileSync(path, "utf8").replace('"target": 160', '"heartBand": [120, 140]'));
  expect((await lines("--plan", heart, "--out", "heart"))[4]).toMatch(/^Before the ride/);
});

it("says the same in German, and with a target of its own what comes before the ride", async () => {
  const said = await lines("--target", "160", "--out", "de", "--language", "de");
  expect(said.slice(4)).toEqual([
    "Vor der Fahrt: de/plan.html dem Sportler geben.",
    "Nach der Fahrt: followcar debrief RIDE --plan de/plan.json",
  ]);
  expect((await lines("--out", "bare", "--language", "de"))[4]).toContain("zuerst die Zielleistung");
  const json = JSON.parse((await lines("--out", "json", "--json")).join("\n")) as object;
  expect(json).toEqual({ written: ["json/plan.json", "json/plan.html"], warnings: [] });
});
