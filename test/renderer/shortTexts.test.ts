// Texts that are made to fit: when a file was written, a sentence over the strip.
import { describe, expect, it } from "vitest";
import { dayText } from "../../renderer/look/dayText.ts";
import { shortened } from "../../renderer/strip/momentsLane.ts";

describe("when a file was written", () => {
  it("is said as today or yesterday where it was, else by its date", () => {
    const nowMs = Date.UTC(2026, 10, 29, 9);
    expect(dayText(Date.UTC(2026, 10, 29, 8, 5), nowMs)).toBe("today, 08:05");
    expect(dayText(Date.UTC(2026, 10, 28, 23, 59), nowMs)).toBe("yesterday, 23:59");
    expect(dayText(Date.UTC(2026, 10, 27, 12, 0), nowMs)).toBe("27 Nov 2026, 12:00");
  });
});

describe("a moment's sentence over the strip", () => {
  it("ends after a whole word where the strip's buttons begin", () => {
    const said = "above the plan uphill, no pressure over the top: 7 of 12 rises";
    expect(shortened(said, 100, (one) => one.length)).toBe(said);
    expect(shortened(said, 30, (one) => one.length)).toBe("above the plan uphill, no \u2026");
    expect(shortened(said, 25, (one) => one.length)).toBe("above the plan uphill \u2026");
  });
});
