import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";

/** Rooms whose sentences people read. */
const rooms = ["overlay/words", "renderer", "main/weeks", "main/handover", "main/cli", "main/reading/plan"];

/** What nothing says, and why. */
const forbidden: readonly (readonly [RegExp, string])[] = [
  [/\blet(ting)? go\b/i, "may mean the bars: say `no pressure on the pedals`"],
  [/\bUnterbrechung/, "a break in pressure is a `Druckpause`"],
  [/\bcranks?\b|\bAussetzer/i, "pressure is on the pedals; German `Druckpausen`"],
  [/\byour heart should\b/i, "the ladder is a rule of thumb"],
  [/\bGleiche Fahrten\b/, "rides are `ähnlich`"],
  [/\bAusreißer im Puls\b|\bkurz losgelassen\b|\blosgelassen\b/i, "`kein Druck auf den Pedalen`"],
  [/\bhard up\b|\bcoast(ing)? over\b|\bhart hinauf/i, "`above the plan uphill, no pressure over the top`"],
  [/\bcoasting along\b|\bmain block\b/i, "one word for one thing: freewheel, main part"],
];

function sources(folder: string): string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    if (statSync(path).isDirectory()) return sources(path);
    return /\.tsx?$/.test(name) ? [path] : [];
  });
}

/** A source without its comments, line numbers kept. */
const spoken = (text: string): string =>
  text.replace(/\/\*[\s\S]*?\*\//g, (comment) => comment.replace(/[^\n]/g, "")).replace(/(^|\s)\/\/.*$/gm, "$1");

/** Where one of the words stands. */
function found(path: string, text: string): string[] {
  return spoken(text)
    .split("\n")
    .flatMap((line, index) =>
      forbidden.filter(([word]) => word.test(line)).map(([, why]) => `${path}:${index + 1} ${line.trim()}: ${why}`),
    );
}

describe("what people read", () => {
  it("has none of the words that a coach would stumble over, in either language", () => {
    const files = rooms.flatMap(sources);
    expect(files.length).toBeGreaterThan(60);
    expect(files.flatMap((path) => found(path, readFileSync(path, "utf8")))).toEqual([]);
  });

  it("finds one where it stands, and passes over comments", () => {
    expect(found("a.ts", 'const a = "Do not let go";\n// let go\n/* Aussetzer */')).toHaveLength(1);
    expect(found("a.ts", "drei Aussetzer")).toHaveLength(1);
  });
});
