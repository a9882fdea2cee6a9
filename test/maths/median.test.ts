import fc from "fast-check";
import { expect, test } from "vitest";
import { median } from "../../main/maths/median.ts";
import { slidingMedian } from "../../main/maths/slidingMedian.ts";

test("median of odd, even and empty lists, NaNs passed over", () => {
  expect(median([3, 1, 2])).toBe(2);
  expect(median([4, 1, NaN, 3, 2])).toBe(2.5);
  expect(median([NaN])).toBeNaN();
});

test("the sliding median is the median of every window", () => {
  const value = fc.oneof(fc.integer({ min: 0, max: 9 }), fc.constant(NaN));
  fc.assert(
    fc.property(fc.array(value, { maxLength: 80 }), fc.integer({ min: 0, max: 8 }), (list, half) => {
      const values = Float64Array.from(list);
      const expected = list.map((_, k) => median(values.subarray(Math.max(0, k - half), k + half + 1)));
      expect([...slidingMedian(values, half)]).toEqual(expected);
    }),
    { seed: 5 },
  );
});
