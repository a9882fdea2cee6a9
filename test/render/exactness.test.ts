import { expect, test } from "vitest";
import { testTools } from "../support/tools.ts";
import { exactnessMatrix } from "./exactness.ts";

// A share of the matrix; all of it runs with `npm run verify:ffmpeg`.
const SHARE = [
  "29.97, cut",
  "23.976, cut",
  "60, cut",
  "variable, cut",
  "turned",
  "frozen twice",
  "8 times",
  "16 times",
  "one crossfade",
  "60000/1001 on a base of 90000",
  "24 on a base of 1000",
  "jittering, from a frame",
];

test(
  "every frame shows the picture asked for and the figures of that picture's instant",
  { timeout: 900_000 },
  async () => {
    const results = await exactnessMatrix(testTools(), { only: SHARE });
    expect(results).toHaveLength(SHARE.length);
    for (const result of results) {
      expect(result).toMatchObject({
        missingFrames: 0,
        wrongPictures: 0,
        wrongPanels: 0,
        unevenSteps: 0,
        unevenPackets: 0,
      });
      expect(result.frames).toBeGreaterThan(20);
    }
  },
);

test("the matrix sees panels that are one frame late", { timeout: 300_000 }, async () => {
  const [result] = await exactnessMatrix(testTools(), { only: ["29.97, cut"], plantedErrorS: -1001 / 30000 });
  expect(result?.wrongPictures).toBe(0);
  expect(result?.wrongPanels).toBe(result?.frames);
});
