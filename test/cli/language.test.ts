// The command line speaks one language at a time: no English word where German was asked for, no German one in English.
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { foreignLines, plainWords, speaks } from "../support/foreignWords.ts";
import { pageText } from "../support/rideWords.ts";
import { runProgram } from "../support/runProgram.ts";
import { testTools } from "../support/tools.ts";

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
  ["read", ["read", "ride.fit", "--target", "162", "--tolerance", "12", "--breaks"], 0],
  ["read without a target", ["read", "ride.fit"], 0],
  ["lineup", ["lineup", "ride.fit", "bar.mp4", "--anchor", "bar.mp4@0:01=1:08:05"], 0],
  ["lineup that stays open", ["lineup", "ride.fit", "bar.mp4"], 4],
  ["a debrief that is not there", ["still", "ride-debrief", "--at", "9:00", "--out", "a.png"], 3],
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
    expect(foreignLines(language, said)).toEqual([]);
    if (plainWords(said).length > 12) expect(speaks(language, said), said).toBe(true);
  });
});

it("says a language it does not have in English, with those it has", async () => {
  const { code, stderr } = await runProgram(["read", "ride.fit", "--language", "fr"], { cwd: folder });
  expect(code).toBe(2);
  expect(stderr).toContain("en, de");
});

/** What stands in a written file for people to read: pages without their marks, of data the words alone. */
function readable(path: string): string {
  if (path.endsWith(".html")) return pageText(readFileSync(path, "utf8"));
  if (/\.(vtt|txt)$/.test(path)) return readFileSync(path, "utf8").replace(/^WEBVTT.*$|^NOTE.*$/gm, "");
  return "";
}

describe("German from a ride to what is handed over", () => {
  const de = ["--language", "de"];
  const small = ["--preset", "draft", "--length", "20"];
  // Films of cards, the smallest there are: what is asked here is what is said, not what is drawn.
  it("debrief, say, render, weeks, athlete, --batch and all that they write", { timeout: 600_000 }, async () => {
    const athlete = at("ines");
    mkdirSync(athlete);
    mkdirSync(at("squad"));
    writeFileSync(join(at("squad"), "ride.fit"), readFileSync(at("ride.fit")));
    const asked = ["--target", "162", "--tolerance", "12"];
    const steps: readonly (readonly string[])[] = [
      ["debrief", "ride.fit", ...asked, ...small, "--athlete", athlete, "--out", "ines/sonntag", "--why"],
      ["say", "ines/sonntag"],
      ["still", "ines/sonntag", "--at", "9:00", "--out", "a.png"],
      ["render", "ines/sonntag", "--hand-over", "--seen", "--why"],
      ["weeks", athlete],
      ["athlete", "files", athlete],
      ["debrief", "--batch", "squad", ...asked, ...small],
      ["demo", "--small", "--out", "vorschau"],
    ];
    for (const step of steps) {
      const run = await runProgram([...step, ...de], { cwd: folder });
      const said = `${run.stdout}\n${run.stderr}`;
      // A still past the film's end is wrong usage.
      expect(run.code, `${step.join(" ")}\n${said}`).toBe(step[0] === "still" ? 2 : 0);
      expect(foreignLines("de", said), step.join(" ")).toEqual([]);
    }
    const written = ["ines", "squad", "vorschau"].flatMap((name) =>
      readdirSync(at(name), { recursive: true, encoding: "utf8" }).map((path) => join(at(name), path)),
    );
    const texts = written.map((path) => ({ path, text: readable(path) })).filter(({ text }) => text !== "");
    expect(texts.map(({ path }) => path.split("/").at(-1))).toEqual(
      expect.arrayContaining(["debrief.html", "coach.html", "message.txt", "squad.html"]),
    );
    for (const { path, text } of texts) expect(foreignLines("de", text), path).toEqual([]);
  });
});
