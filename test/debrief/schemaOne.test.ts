// A debrief of schema 1 opens with all that was decided in it.
import { readFileSync } from "node:fs";
import { readFile, readdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { beforeEach, describe, expect, test } from "vitest";
import { choicesOn } from "../../main/debrief/choicesOn.ts";
import { loadDebrief, saveDebrief } from "../../main/debrief/debriefStore.edge.ts";
import { debriefText, parseDebrief } from "../../main/debrief/parseDebrief.ts";
import { read } from "../../main/reading/read.ts";
import { parseRide } from "../../main/ride/parseRide.ts";
import { debriefFolder } from "./debriefParts.ts";

let folder: string;
beforeEach(async () => {
  folder = await debriefFolder();
});

describe("a debrief of schema 1", () => {
  const old = readFileSync(join(import.meta.dirname, "../fixtures/debriefs/schema-1.json"), "utf8");

  test("opens with every decision in it, in the form of today", () => {
    const { document, schema, readOnly } = parseDebrief(old, "debrief.json");
    const before = JSON.parse(old) as Record<string, unknown> &
      Record<"plan" | "words" | "figures", Record<string, unknown>>;
    expect([schema, document.schema, readOnly]).toEqual([1, 2, null]);
    expect(document.overrides).toEqual([
      { what: "counted", set: { startS: 900, endS: 5000 }, reason: "traffic before" },
      { what: "first", set: 1500, reason: null },
      { what: "last", set: 4700, reason: "heat" },
      { what: "onset", set: null, reason: "felt the same" },
      { what: "break", startS: 893, endS: null, set: "corner", reason: null },
      { what: "break", startS: 1199, endS: null, set: { coach: "a dog on the road" }, reason: "seen on the film" },
    ]);
    const { overrides: _o, choices: _c, schema: _s, ...rest } = JSON.parse(debriefText(document)) as typeof before;
    const { overrides: _oo, choices, schema: _ss, ...restBefore } = before;
    // What was not asked for then is unsaid, and the usual limit holds.
    expect(rest).toEqual({
      ...restBefore,
      plan: { ...restBefore.plan, driftLimitBeats: 5, eventDate: null },
      words: { ...restBefore.words, nextS: null },
      figures: { ...restBefore.figures, inMainPercent: null, askedS: null, driftCanTell: null },
    });
    expect(document.choices.map(({ endS: _, ...one }) => one)).toEqual(choices);
    expect(parseDebrief(debriefText(document), "debrief.json").document).toEqual(document);
  });

  test("finds its reasons and choices on the ride as it is read today, asking nothing", () => {
    const { document } = parseDebrief(old, "debrief.json");
    const saved = readFileSync(join(import.meta.dirname, "../fixtures/debriefs/schema-1-ride.fit.gz"));
    const ride = parseRide(new Uint8Array(saved), "sunday.fit.gz");
    const { overrides, unsureOverrides, moments, breaks } = read(ride, document.plan, document.overrides);
    expect(overrides).toHaveLength(6);
    expect(unsureOverrides).toEqual([]);
    // The first was cut by the coach's own counted part, which begins at 900: by its exact start it was lost until now.
    expect(breaks.filter(({ setBy }) => setBy === "coach").map(({ startS }) => startS)).toEqual([900, 1199]);
    const { of, asked } = choicesOn([...moments, ...document.ownMoments], document.choices);
    expect(asked).toEqual([]);
    expect(of.filter((one) => one !== null)).toHaveLength(document.choices.length);
  });

  test("is kept beside before the first save, once, and no other file is written over for it", async () => {
    await writeFile(join(folder, "debrief.json"), old);
    await writeFile(join(folder, "debrief.schema-1.json"), "an earlier one");
    const first = await saveDebrief(folder, (await loadDebrief(folder)).document);
    await saveDebrief(folder, first);
    expect(await readFile(join(folder, "debrief.schema-1.json"), "utf8")).toBe("an earlier one");
    expect(await readFile(join(folder, "debrief.schema-1-2.json"), "utf8")).toBe(old);
    expect((await readdir(folder)).sort()).toEqual([
      "debrief.json",
      "debrief.json.bak",
      "debrief.schema-1-2.json",
      "debrief.schema-1.json",
    ]);
  });

  test("what held for nothing in it is left out, not half read", () => {
    const text = JSON.stringify({
      ...(JSON.parse(old) as object),
      overrides: [
        { what: "weather", set: 1, reason: null },
        { what: "counted", set: 5, reason: null },
        { what: "break@12x", set: "corner", reason: null },
        { what: "break@12", set: " ", reason: null },
        { what: "first", set: { startS: 100, endS: 200 } },
        null,
      ],
    });
    expect(parseDebrief(text, "x").document.overrides).toEqual([{ what: "first", set: 150, reason: null }]);
  });
});
