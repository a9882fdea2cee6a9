// The program's two colours mean one thing each: blue that pressure was off, orange that it was above the plan. No other
// colour that is written anywhere comes near them; focus, choice, heart, readings, onset and route are of neutral ink.
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { darkInk, lightInk } from "../../overlay/theme.ts";

/** The invented road is painted as roads look; tests plant what they like. */
const PAINTED = /^main\/demo\//;
const MEANT = /\b(off|above): /;

/** Hue in degrees and chroma from 0 to 1 (HSL, CSS Color 4), of `#rrggbb`. */
function hueOf(colour: string): { readonly hueDeg: number; readonly chroma: number } {
  const [red, green, blue] = [1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16) / 255) as [
    number,
    number,
    number,
  ];
  const most = Math.max(red, green, blue);
  const chroma = most - Math.min(red, green, blue);
  if (chroma === 0) return { hueDeg: 0, chroma };
  const sixth =
    most === red
      ? ((green - blue) / chroma + 6) % 6
      : most === green
        ? (blue - red) / chroma + 2
        : (red - green) / chroma + 4;
  return { hueDeg: 60 * sixth, chroma };
}

/** Too near one of the two; greys that lean a little are neutral. */
function near(colour: string): "blue" | "orange" | null {
  const { hueDeg, chroma } = hueOf(colour);
  if (chroma < 0.18) return null;
  if (hueDeg > 180 && hueDeg < 260) return "blue";
  return hueDeg > 10 && hueDeg < 60 ? "orange" : null;
}

const files = ["overlay", "renderer", "main"].flatMap((room) =>
  readdirSync(room, { recursive: true, encoding: "utf8" })
    .map((path) => join(room, path).replaceAll("\\", "/"))
    .filter((path) => /\.(ts|tsx|mjs|css|html)$/.test(path) && !PAINTED.test(path)),
);

describe("the two colours", () => {
  it("are blue and orange in both inks", () => {
    for (const { off, above } of [lightInk, darkInk]) expect([near(off), near(above)]).toEqual(["blue", "orange"]);
  });

  it("are used for nothing else", () => {
    expect(files.length).toBeGreaterThan(500);
    const found = files.flatMap((path) =>
      readFileSync(path, "utf8")
        .split("\n")
        .filter((line) => !MEANT.test(line))
        .flatMap((line) => (line.match(/#[0-9a-f]{6}\b/gi) ?? []).filter((colour) => near(colour) !== null))
        .map((colour) => `${path}: ${colour}`),
    );
    expect(found).toEqual([]);
  });

  it("are told by their names wherever they are drawn", () => {
    // Who draws with them, and for what: another place is looked at before it is added here.
    const users = files.filter((path) =>
      /\btheme\.(off|above)\b|var\(--(off|above)\)/.test(readFileSync(path, "utf8")),
    );
    expect(users.sort()).toEqual([
      "overlay/panels/paintPanel.ts",
      "overlay/thread/paintThread.ts",
      "renderer/gather/StartThread.tsx",
      "renderer/skim/skim.css",
      "renderer/told/told.css",
    ]);
  });
});
