import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { makeGlyphs } from "../../main/setup/makeGlyphs.mjs";
import { hasOutlines, missingCharacters, textWidthPx } from "../../overlay/drawText.ts";
import { mediumGlyphs, strongGlyphs } from "../../overlay/glyphs.ts";
import { phrasesFor } from "../../overlay/words/phrases.ts";
import { testCanvas } from "../support/canvas.ts";

test("the outlines are those of the licensed font: made anew they are the same", async () => {
  expect(await makeGlyphs()).toBe(readFileSync("overlay/glyphs.ts", "utf8"));
}, 60_000);

test("figures are as wide as each other", () => {
  for (const face of [mediumGlyphs, strongGlyphs])
    expect(new Set(Object.values(face.figures).map(([advance]) => advance)).size).toBe(1);
  expect(textWidthPx("1:11:11", { sizePx: 50, weight: "strong", tabular: true })).toBe(
    textWidthPx("8:08:00", { sizePx: 50, weight: "strong", tabular: true }),
  );
});

test("widths are those that the font gives when a canvas sets the same text", () => {
  const { context } = testCanvas(10, 10);
  for (const text of ["heart rate", "Trittfrequenz", "at like power", "Pressure off over the top"]) {
    context.font = '500 100px "Barlow Semi Condensed"';
    expect(textWidthPx(text, { sizePx: 100, weight: "medium" })).toBeCloseTo(context.measureText(text).width, 0);
  }
});

test("every fixed word has outlines, and what no bundled font draws is named", () => {
  for (const language of ["en", "de"] as const) {
    const { panels, units, chart } = phrasesFor(language);
    for (const text of [panels, units, chart].flatMap((part) => Object.values(part)))
      expect(hasOutlines(text), text).toBe(true);
  }
  expect(hasOutlines("Łucja")).toBe(false);
  expect(missingCharacters("Łucja Müller")).toEqual([]);
  expect(missingCharacters("Мария 山")).toEqual(["М", "а", "р", "и", "я", "山"]);
});
