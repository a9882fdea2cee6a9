import { describe, expect, it } from "vitest";
import { wrapText } from "../../../overlay/drawText.ts";
import { keepUnits } from "../../../overlay/words/keepUnits.ts";

describe("keepUnits", () => {
  it("keeps a figure with its unit, and nothing else", () => {
    expect(keepUnits("off for 40 s at 39 km/h, 191 W before it")).toBe(
      "off for 40\u00a0s at 39\u00a0km/h, 191\u00a0W before it",
    );
    expect(keepUnits("1 h 20 min, between 1 h 00 and 1 h 16")).toBe(
      "1\u00a0h\u00a020\u00a0min, between 1\u00a0h\u00a000 and 1\u00a0h\u00a016",
    );
    expect(keepUnits("7 of 13 rises, 3 stops, 2 hours, 5 Wochen")).toBe("7 of 13 rises, 3 stops, 2 hours, 5 Wochen");
    expect(keepUnits("um 6 Schl\u00e4ge h\u00f6her")).toBe("um 6\u00a0Schl\u00e4ge h\u00f6her");
  });

  it("lets no painted line begin with a unit", () => {
    const text = "Surge on a rise: 13 s at 275 W, 90 W over the target, peak 292 W, then 21 km/h over the top for 18 s";
    for (let widthPx = 120; widthPx <= 900; widthPx += 13) {
      const lines = wrapText(text, { sizePx: 30, weight: "medium" }, widthPx);
      expect(lines.join(" ")).toBe(text);
      for (const line of lines) expect(line).not.toMatch(/^(W|s|km\/h)\b/);
    }
  });
});
