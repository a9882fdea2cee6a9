import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { windowWords } from "../../../main/app/desk/windowWords.ts";

/** Sentences of the sources that speak of an option, as far as they reach the window. */
function sentencesWithOptions(): string[] {
  const rooms = [
    "main/reading",
    "main/lineup",
    "main/footage",
    "main/ride",
    "main/debrief",
    "main/weeks",
    "main/handover",
    "main/render",
  ];
  const texts = rooms.flatMap((room) =>
    readdirSync(room, { recursive: true, encoding: "utf8" })
      .filter((name) => name.endsWith(".ts"))
      .map((name) => readFileSync(join(room, name), "utf8")),
  );
  // A sentence begins with a capital; options given to programs do not.
  return texts
    .flatMap((text) =>
      [
        ...text.matchAll(
          /(["'`])((?:There|Choose|If|Ask|Give|Set|Open|Correct|Write|Free|Check|Name)\b(?:(?!\1)[^\n\\]|\\.)*?)\1/g,
        ),
      ].map((match) => match[2].replaceAll('\\"', '"')),
    )
    .filter((said) => /(^|[\s(`])--[a-z]|followcar /.test(said));
}

describe("words of the command line", () => {
  it("are the window's own in the window", () => {
    expect(
      windowWords("There is no target power: time in, below and above the band and surges need one (--target 185)."),
    ).toBe("There is no target power: time in, below and above the band and surges need one, under What was asked.");
    expect(windowWords("Free some space, or choose another folder with --out.")).toBe(
      "Free some space, or choose another folder.",
    );
    expect(windowWords("Correct it; `followcar athlete --help` shows the form.")).toBe("Correct it.");
    expect(
      windowWords(
        "Set one anchor at something you see, e.g. --anchor bars-0001.mp4@0:12=1:08:05, or take it as it is with --accept-unsure.",
      ),
    ).toBe("Set one anchor at something you see, or agree that it is shown as it is.");
  });

  it("ask nobody to type a command", () => {
    const texts = readdirSync("main", { recursive: true, encoding: "utf8" })
      .filter((name) => /^(footage|ride|render|handover)\W.*\.ts$/.test(name))
      .map((name) => readFileSync(join("main", name), "utf8"));
    const found = texts.flatMap((text) =>
      [...text.matchAll(/^\s*(["`])([A-Z].*?ffmpeg -.*?)\1,$/gm)].map((match) => match[2].replaceAll("\\`", "`")),
    );
    expect(found.length).toBeGreaterThan(1);
    for (const said of found) expect(windowWords(said), said).not.toMatch(/ffmpeg|`/);
  });

  it("leave every other sentence alone", () => {
    for (const said of [
      "Held without drift: between 56 min and 1 h 13.",
      "It lies -- so the file says -- outside (of the ride).",
    ])
      expect(windowWords(said)).toBe(said);
  });

  it("name no option in any sentence of the steps", () => {
    const found = sentencesWithOptions();
    // Fewer by each room whose sentences are notices: those are asked for both doors by everyNotice.test.ts.
    expect(found.length).toBeGreaterThan(2);
    for (const said of found) expect(windowWords(said), said).not.toMatch(/(^|[\s(`])--[a-z]|followcar /);
  });
});
