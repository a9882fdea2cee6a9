// With German asked for nothing English is left: message, page, film, coach's page, and why each part is in the film.
import { describe, expect, it } from "vitest";
import { FIGURE_GROUPS, coachWords } from "../../overlay/words/coachWords.ts";
import { foreignLines, speaks } from "../support/foreignWords.ts";
import { ridesWithSensors, sensiblePlan, wordsOf } from "../support/rideWords.ts";

const rides = (await ridesWithSensors(["test/fixtures/rides"])).filter(({ ride }) => ride.grid.seconds >= 900);
const germanTitle = (ride: Parameters<typeof sensiblePlan>[0]) => ({
  ...sensiblePlan(ride),
  title: "Grundlage",
  eventName: "Drei Täler",
});

/** Every key of a value, all the way down. */
function keysOf(value: unknown): string[] {
  if (value === null || typeof value !== "object") return [];
  if (Array.isArray(value)) return value.flatMap(keysOf);
  return Object.entries(value).flatMap(([key, inner]) => [key, ...keysOf(inner)]);
}

describe("a German debrief", () => {
  it("of any ride has no English word in what anybody reads", async () => {
    expect(rides.length).toBeGreaterThanOrEqual(8);
    for (const { name, ride } of rides) {
      const said = await wordsOf(ride, germanTitle(ride), { language: "de", filmed: true });
      const { items, leftOut } = said.standing.film;
      const why = [...items.map((item) => item.why), ...leftOut].join("\n");
      for (const text of [said.message, said.page, said.film.join("\n"), said.coach, why]) {
        expect(foreignLines("de", text), name).toEqual([]);
        expect(speaks("de", text), name).toBe(true);
      }
    }
  });

  it("names every figure of the coach's page in German", async () => {
    const { ride } = rides.find(({ name }) => name === "long-power-heart.fit.gz")!;
    const { data } = await wordsOf(ride, germanTitle(ride), { language: "de" });
    const keys = new Set([
      ...FIGURE_GROUPS.flatMap((group) => keysOf(data.readJson[group])),
      ...data.reading.moments.flatMap(({ numbers }) => keysOf(numbers)),
    ]);
    keys.delete("firstPosition");
    keys.delete("lastPosition");
    keys.delete("lat");
    keys.delete("lon");
    expect(keys.size).toBeGreaterThan(60);
    const { label } = coachWords("de");
    const { label: english } = coachWords("en");
    const bare = (key: string) => key.replace(/(Mps|Percent|Beats|Bpm|Rpm|Deg|S|W|M)$/, "");
    const same = [...keys].map(bare).filter((key) => label(key) === english(key));
    expect(same.filter((key) => !["drift"].includes(key))).toEqual([]);
  });

  it("finds an English word where one stands", () => {
    expect(foreignLines("de", "Puls im Mittel 132\nheart rate 132")).toEqual(["heart, rate: heart rate 132"]);
  });
});
