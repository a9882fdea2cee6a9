// Which drawing a pointer means.
import { describe, expect, it } from "vitest";
import { drawingAt } from "../../renderer/draw/shapes.ts";

describe("the drawing under the pointer", () => {
  const ring = (startS: number) => ({
    shape: "ring" as const,
    points: [
      { x: 0.5, y: 0.5 },
      { x: 0.6, y: 0.5 },
    ],
    text: null,
    startS,
    endS: startS + 4,
  });
  const drawings = [ring(0), ring(10)];
  it("is one that shows, though another lies over it at another time", () => {
    const rim = { x: 0.4, y: 0.5 };
    expect(drawingAt(drawings, ({ startS }) => startS === 0, rim, 16 / 9)).toBe(0);
    expect(drawingAt(drawings, () => true, rim, 16 / 9)).toBe(1);
    expect(drawingAt(drawings, () => false, rim, 16 / 9)).toBe(-1);
  });
  it("is words as far as they reach, in a wide picture and an upright one", () => {
    const words = {
      shape: "text" as const,
      points: [{ x: 0.1, y: 0.5 }],
      text: "Hands low, eyes up",
      startS: 0,
      endS: 4,
    };
    for (const [aspect, endX] of [
      [16 / 9, 0.37],
      [9 / 16, 0.69],
    ] as const) {
      // Painted, they reach from 0.10 to 0.38 and to 0.70 of the width.
      expect(
        drawingAt([words], () => true, { x: endX, y: 0.49 }, aspect),
        String(aspect),
      ).toBe(0);
      expect(
        drawingAt([words], () => true, { x: endX + 0.12, y: 0.49 }, aspect),
        String(aspect),
      ).toBe(-1);
    }
  });
  it("is taken by its rim, not by its middle", () => {
    expect(drawingAt(drawings, () => true, { x: 0.5, y: 0.5 }, 16 / 9)).toBe(-1);
  });
});
