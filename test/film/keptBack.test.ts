// Words a coach wrote, and what a lesson for others must not hold of them.
import { describe, expect, test } from "vitest";
import { saysTooMuch } from "../../main/film/keptBack.ts";

const names = ["Ines", "Jörg Großmann", "Großmann", "Łukasz", "Al", "Three Valleys"];
const says = (words: string, asPercent = false): boolean => saysTooMuch(words, names, asPercent);

describe("a lesson leaves out", () => {
  test.each([
    "INES, press on",
    "Ines' elbows",
    "#inesfalk rides low",
    "grossmann am Hinterrad",
    "GROSSMANNS Linie",
    "das ist Joerg Großmann",
    "lukasz brakes late",
    "look, it is ŁUKASZ",
    "G r o s s m a n n",
    "for the threevalleys",
    "Al holds it",
  ])("a name however it is written: %s", (words) => {
    expect(says(words)).toBe(true);
  });

  test.each(["on 16 May", "am 16. Mai", "16.05.2026", "2026-05-16", "5/16/26", "May 16th", "am 3.4."])(
    "a day: %s",
    (words) => {
      expect(says(words)).toBe(true);
    },
  );

  test("watts only where they are to be said as shares", () => {
    expect(says("hold 230 W", true)).toBe(true);
    expect(says("hold 230 W")).toBe(false);
  });
});

test.each([
  "Elbows in, look through the bend",
  "watch the lines",
  "also: keep rolling",
  "all the way to the top",
  "16 mares in the field",
  "16 marks",
  "at 1:54:00, 7.5 % for 3 min",
  "may you hold it 3 times",
  "3/4 of the rise",
])("what says neither who nor when stays: %s", (words) => {
  expect(says(words)).toBe(false);
});
