// What a person types or drops, and which clip shows it.
import { describe, expect, it } from "vitest";
import { keepUnits } from "../../overlay/words/keepUnits.ts";
import { durationText } from "../../overlay/words/numbers.ts";
import { secondsOf } from "../../renderer/look/secondsOf.ts";
import { droppedMatches } from "../../renderer/picker/droppedMatches.ts";
import { clipAt, firstFilmed, type PlacedClip } from "../../renderer/player/placedClips.ts";

describe("a length as typed", () => {
  it("is hours and minutes, with seconds if there are some, or minutes alone", () => {
    expect([secondsOf("3:30"), secondsOf(" 0:05:07 "), secondsOf("210")]).toEqual([12_600, 307, 12_600]);
  });
  it("is read as the program writes it", () => {
    for (const typed of ["75 min", "1 h 15 min", "1:15", "75", "1 h 15", "1h15min", "1.25 h", "1,25 h", "4500 s"])
      expect(secondsOf(typed), typed).toBe(4500);
    for (const seconds of [45, 90, 225, 600, 4500, 7200, 12_660])
      expect(secondsOf(keepUnits(durationText(seconds))), durationText(seconds)).toBe(seconds);
    expect(secondsOf("0 min", 0)).toBe(0);
  });
  it("is no time where it can't be one", () => {
    for (const typed of [
      "",
      "0",
      "3:60",
      "1:2:3",
      "-5",
      "1.5",
      "three",
      "h",
      "0 min",
      "0:00",
      "1 h 75 min",
      "5 km",
      "15 min 1 h",
    ])
      expect(secondsOf(typed), typed).toBeNaN();
  });
});

describe("files that were dropped", () => {
  const entry = (id: string, name: string, kind: "ride" | "folder", bytes: number) => ({
    id,
    name,
    kind,
    bytes,
    modifiedUtcMs: 0,
  });
  const listing = {
    id: "f",
    parentId: null,
    path: "/rides",
    entries: [entry("1", "a.fit", "ride", 10), entry("2", "a.fit", "ride", 11), entry("3", "rides", "folder", 0)],
  };
  it("are those of the same name and size; a folder goes by its name", () => {
    expect(
      droppedMatches(listing, [
        { name: "a.fit", bytes: 11 },
        { name: "rides", bytes: 4096 },
      ]),
    ).toEqual(["2", "3"]);
    expect(droppedMatches(listing, [{ name: "b.fit", bytes: 10 }])).toEqual([]);
  });
});

describe("what was filmed of a span", () => {
  const placed = [
    { clip: { id: "unsure" }, startS: 100, endS: 200, sure: false },
    { clip: { id: "sure" }, startS: 150, endS: 180, sure: true },
  ] as unknown as PlacedClip[];
  it("is its start, else its first picture, else nothing", () => {
    expect(firstFilmed(placed, 120, 130)).toBe(120);
    expect(firstFilmed(placed, 90, 130)).toBe(100);
    expect(firstFilmed(placed, 90, 100)).toBeNull();
    expect(firstFilmed(placed, 200, 300)).toBeNull();
  });
  it("comes from a sure clip where there is one", () => {
    expect(clipAt(placed, 160)?.clip.id).toBe("sure");
    expect(clipAt(placed, 190)?.clip.id).toBe("unsure");
  });
});
