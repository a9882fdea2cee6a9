// The command line speaks one language at a time: no English word where German was asked for, no German one in English.
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Language } from "../../main/contract/languageAndUnits.ts";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { runProgram } from "../support/runProgram.ts";
import { testTools } from "../support/tools.ts";

/** Words that every longer text of a language has, and the other language never: common practice, no source. */
const MARKS: Readonly<Record<Language, readonly string[]>> = {
  en: (
    "the and of is are with from that this not for at by which it has have but to or into than there where when about " +
    "against could can no on as its their been only cannot without after before between its all each"
  ).split(" "),
  de: (
    "der das dem des und ist sind nicht mit von vom für ein eine einer eines auf zu nach wird wurde auch oder aus bei " +
    "im zum zur keine kein noch nur über unter dass ohne zwischen vor"
  ).split(" "),
};

/** What was said, without names, codes and paths. */
function words(text: string): string[] {
  return text
    .replace(
      /`[^`]*`|"[^"]*"|„[^“]*“|--[\w-]+(=\S+)?|\S*[/\\]\S*|\S+\.(fit|mp4|png|html|json|txt|pdf|csv|vtt|otio)\b/g,
      " ",
    )
    .toLowerCase()
    .split(/[^\p{L}]+/u);
}

let folder = "";
const at = (name: string) => join(folder, name);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "followcar-language-"));
  writeFileSync(at("ride.fit"), demoRideFile(demoRide(7)));
  const source = "testsrc2=size=160x90:rate=25:duration=6";
  const coding = ["-c:v", "libx264", "-preset", "ultrafast", "-pix_fmt", "yuv420p"];
  execFileSync(testTools().ffmpeg, [...["-v", "error", "-f", "lavfi", "-i", source, ...coding, "-y"], at("bar.mp4")]);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** What is said of one ride and of wrong command lines; each with its exit code. */
const SAID: readonly (readonly [name: string, args: readonly string[], code: number])[] = [
  ["read", ["read", "ride.fit", "--target", "185", "--tolerance", "12", "--breaks"], 0],
  ["read without a target", ["read", "ride.fit"], 0],
  ["lineup", ["lineup", "ride.fit", "bar.mp4", "--anchor", "bar.mp4@0:01=1:08:05"], 0],
  ["lineup that stays open", ["lineup", "ride.fit", "bar.mp4"], 4],
  ["still past the end", ["still", "ride-debrief", "--at", "9:00", "--out", "a.png"], 2],
  ["an unknown verb", ["brief"], 2],
  ["an unknown option", ["read", "ride.fit", "--planet"], 2],
  ["a value with a dash", ["read", "ride.fit", "--target", "-5"], 2],
  ["a wrong number", ["read", "ride.fit", "--target", "much"], 2],
  ["a wrong choice", ["debrief", "ride.fit", "--preset", "tiny"], 2],
  ["a missing file", ["read", "none.fit"], 3],
  ["an anchor that is none", ["lineup", "ride.fit", "bar.mp4", "--anchor", "noon"], 2],
];

describe.each(["de", "en"] as const)("%s", (language) => {
  it.each(SAID)("%s", async (_name, args, code) => {
    const run = await runProgram([...args, "--language", language], { cwd: folder });
    const said = `${run.stdout}\n${run.stderr}`;
    expect(run.code, said).toBe(code);
    const other = MARKS[language === "de" ? "en" : "de"];
    const foreign = said.split("\n").filter((line) => words(line).some((word) => other.includes(word)));
    expect(foreign).toEqual([]);
    if (said.trim() !== "" && words(said).length > 12)
      expect(
        words(said).some((word) => MARKS[language].includes(word)),
        said,
      ).toBe(true);
  });
});

it("says a language it does not have in English, with those it has", async () => {
  const { code, stderr } = await runProgram(["read", "ride.fit", "--language", "fr"], { cwd: folder });
  expect(code).toBe(2);
  expect(stderr).toContain("en, de");
});
