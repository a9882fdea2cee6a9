// The document: its form, to text and back, and what is refused.
import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import fc from "fast-check";
import { beforeEach, describe, expect, test } from "vitest";
import { Failure } from "../../main/contract/failure.ts";
import { loadDebrief, saveDebrief } from "../../main/debrief/debriefStore.edge.ts";
import { filmMark } from "../../main/debrief/filmMark.ts";
import { debriefText, migrate, parseDebrief } from "../../main/debrief/parseDebrief.ts";
import { failureSaid } from "../support/said.ts";
import { withFilm, failureOf, debriefFolder } from "./debriefParts.ts";

let folder: string;
beforeEach(async () => {
  folder = await debriefFolder();
});

describe("the document", () => {
  test("goes to text and back, its film's columns and gaps included", () => {
    const document = withFilm();
    const back = parseDebrief(debriefText(document), "debrief.json");
    expect(back.readOnly).toBeNull();
    expect(debriefText(back.document)).toBe(debriefText(document));
    const chart = back.document.film!.items.find((item) => item.id === "heart");
    if (chart?.type !== "card" || chart.card.kind !== "chart") throw new Error("no chart");
    expect(chart.card.series.power30sW).toBeInstanceOf(Float64Array);
    expect(chart.card.series.heartRateBpm![10]).toBeGreaterThan(100);
    expect(chart.card.series.altitude).toBeInstanceOf(Float64Array);
    expect(chart.card.marks.shots?.length).toBeGreaterThan(0);
    const gap = JSON.stringify(JSON.parse(debriefText(document))).includes("null");
    expect(gap).toBe(true);
  });

  test("a shot may be slowed to an eighth, as 240 pictures a second are in a film at 30", () => {
    const made = withFilm();
    const slowed = (speed: number): string => {
      const items = made.film!.items.map((item) => (item.type === "shot" ? { ...item, speed } : item));
      return debriefText({ ...made, film: { ...made.film!, items } });
    };
    const { items } = parseDebrief(slowed(0.125), "debrief.json").document.film!;
    expect(items.flatMap((item) => (item.type === "shot" ? item.speed : []))).toContain(0.125);
    expect(() => parseDebrief(slowed(0.1), "debrief.json")).toThrow();
  });

  test("a newer schema opens read-only and is never overwritten", async () => {
    const newer = { ...JSON.parse(debriefText(withFilm())), schema: 7, somethingNew: true };
    await writeFile(join(folder, "debrief.json"), JSON.stringify(newer));
    const opened = await loadDebrief(folder);
    expect(opened.readOnly?.kind).toBe("newer version");
    const failure = await failureOf(saveDebrief(folder, opened.document));
    expect(failure.code).toBe("debrief-not-usable");
    expect(JSON.parse(await readFile(join(folder, "debrief.json"), "utf8"))).toEqual(newer);
  });

  test("a kind of moment that had another name is known by today's, and the program's film stays the program's", () => {
    const document = withFilm();
    const [shot, ...others] = document.film!.items.filter((item) => item.type === "shot");
    const about = { kind: "hardUpCoastOver", startS: 600, endS: 660 };
    const film = { ...document.film!, items: [{ ...shot!, momentKey: about }, ...others] };
    const choice = {
      kind: "hardUpCoastOver",
      startS: 600,
      endS: 660,
      keep: true,
      span: null,
      name: null,
      note: "ours",
    };
    const asWritten = {
      ...document,
      film,
      choices: [choice],
      filmSetBy: "computed" as const,
      filmMark: filmMark(film),
    };
    const opened = parseDebrief(debriefText(asWritten), "debrief.json").document;
    expect(opened.choices[0]).toMatchObject({ kind: "riseThenOff", note: "ours" });
    expect(opened.film!.items[0]!.momentKey?.kind).toBe("riseThenOff");
    expect(opened.filmSetBy).toBe("computed");
    const changed = { ...asWritten, film: { ...film, items: [{ ...film.items[0]!, speed: 0.5 }, ...others] } };
    expect(parseDebrief(debriefText(changed), "debrief.json").document.filmSetBy).toBe("coach");
  });

  test("migrations run one after the other, and a missing one is an error", () => {
    const steps = {
      1: (old: Record<string, unknown>) => ({ ...old, a: 1 }),
      2: (old: Record<string, unknown>) => ({ ...old, b: old["a"] }),
    };
    expect(migrate({ schema: 1 }, 1, 3, steps)).toEqual({ schema: 3, a: 1, b: 1 });
    expect(() => migrate({ schema: 1 }, 1, 4, steps)).toThrow("schema 3");
  });

  test.each([
    ["", "not JSON"],
    ['{"schema": 1', "not JSON"],
    ["[]", "which schema"],
    ['{"schema": "1"}', "which schema"],
    ['{"schema": 1}', "revision"],
    ["null", "which schema"],
  ])("refuses %j in one sentence that names the file", (text, what) => {
    try {
      parseDebrief(text, "out/debrief.json");
      throw new Error("was taken");
    } catch (error) {
      expect(error).toBeInstanceOf(Failure);
      expect(failureSaid(error).sentence).toContain("out/debrief.json");
      expect(failureSaid(error).sentence).toContain(what);
    }
  });

  test("any JSON at all is either a debrief or a Failure, never another error", () => {
    fc.assert(
      fc.property(fc.json(), (text) => {
        try {
          parseDebrief(text, "x");
          return true;
        } catch (error) {
          return error instanceof Failure;
        }
      }),
    );
  });
});
