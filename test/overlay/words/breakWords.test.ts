import { expect, it } from "vitest";
import { breakLines } from "../../../overlay/words/breakWords.ts";

it("every break of 10 s or more is told with when, how long and why; shorter ones are not", () => {
  const breaks = [
    { startS: 100, endS: 104, reason: "corner", excused: true, lapse: false, setBy: "computed" },
    { startS: 947, endS: 966, reason: "steep descent", excused: true, lapse: false, setBy: "computed" },
    { startS: 3110, endS: 3123, reason: "unexplained", excused: false, lapse: true, setBy: "computed" },
    { startS: 4000, endS: 4085, reason: { coach: "traffic" }, excused: true, lapse: false, setBy: "coach" },
    { startS: 5000, endS: 5010, reason: "cannot tell", excused: null, lapse: false, setBy: "computed" },
  ] as const;
  expect(breakLines(breaks, "en")).toEqual([
    "Breaks of 10 s or more: 4.",
    "  0:15:47  19 s, steep descent",
    "  0:51:50  13 s, unexplained: a lapse",
    "  1:06:40  1 min 25 s, traffic (set by coach)",
    "  1:23:20  10 s, cannot tell",
  ]);
  expect(breakLines([], "en")).toEqual(["No break of 10 s or more."]);
  expect(breakLines(breaks, "de").slice(1)).toEqual([
    "  0:15:47  19 s, steile Abfahrt",
    "  0:51:50  13 s, ohne sichtbaren Grund: der Druck war weg",
    "  1:06:40  1 min 25 s, traffic (vom Trainer gesetzt)",
    "  1:23:20  10 s, nicht zu sagen",
  ]);
});
