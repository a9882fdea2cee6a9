// What a verb's help says: each option that the verb takes and no other, in whole sentences, on lines that a terminal shows.
import { describe, expect, it } from "vitest";
import { verbs } from "../../main/cli/verbs/verbs.ts";

/** Taken by every verb; the list of verbs tells of them. */
const COMMON = new Set(["json", "language", "help"]);
/** As wide as the widest line of a table of keys. */
const WIDEST = 132;

const all = await Promise.all(Object.values(verbs).map((load) => load()));

describe.each(all.map((verb) => [verb.name, verb] as const))("help of %s", (_name, { help, options }) => {
  it("names each option that there is, and no other", () => {
    const named = new Set([...help.matchAll(/^ {2}--([a-z-]+)|; --([a-z-]+)/gm)].map(([, one, two]) => one ?? two!));
    const there = Object.keys(options);
    expect(there.filter((name) => !COMMON.has(name) && !help.includes(`--${name}`))).toEqual([]);
    expect([...named].filter((name) => !COMMON.has(name) && !there.includes(name))).toEqual([]);
  });

  it("has every bracket closed where it was opened, and no line too wide", () => {
    for (const said of help.split(/\n(?= {2}\S)|\n\n/))
      for (const [opens, closes] of ["()", "[]", "{}"] as const)
        expect(said.split(closes!).length - said.split(opens!).length, said).toBe(0);
    expect(help.split("\n").filter((line) => line.length > WIDEST)).toEqual([]);
  });
});
