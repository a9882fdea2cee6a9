import { writeFile } from "node:fs/promises";
import { describe, expect, it } from "vitest";
import { openDesk } from "./openDesk.ts";

/** A day of riding, a record a second. */
function dayOfRiding(): string {
  const startMs = Date.UTC(2026, 5, 20, 4);
  const lines = ["time,power,heart_rate,cadence,speed"];
  for (let s = 0; s < 86_400; s++) {
    const off = s % 1200 < 45;
    lines.push(
      `${new Date(startMs + s * 1000).toISOString()},${off ? 0 : 170 + ((s * 7919) % 41)},` +
        `${130 + Math.floor(s / 8640)},${off ? 0 : 88},${(8 + Math.sin(s / 100)).toFixed(2)}`,
    );
  }
  return lines.join("\n");
}

describe("a ride of 24 hours", () => {
  it("leaves the program free while it is read and judged", async () => {
    const open = await openDesk();
    try {
      const path = open.path("day.csv");
      await writeFile(path, dayOfRiding());
      let ticks = 0;
      const timer = setInterval(() => (ticks += 1), 10);
      await open.api.addFiles([open.id(path)]);
      const whileRead = ticks;
      ticks = 0;
      const { document, edit } = open.view();
      await open.api.edit(
        { part: "plan", value: { ...document.plan, targetW: 190, toleranceW: 10 }, label: "target" },
        edit,
      );
      clearInterval(timer);
      expect(open.view().reading?.bandW?.target).toBe(190);
      // Held up, a timer fires once or twice in all that time, however long it takes.
      expect(whileRead).toBeGreaterThan(20);
      expect(ticks).toBeGreaterThan(8);
    } finally {
      await open.close();
    }
  }, 120_000);
});
