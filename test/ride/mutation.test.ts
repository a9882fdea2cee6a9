import { expect, test } from "vitest";
import { faultOf, mutationRun, mutationSeeds } from "./mutate.ts";

test("the unharmed files are read without fault", () => {
  for (const bytes of mutationSeeds()) expect(faultOf(bytes)).toBeNull();
});

test("2200 damaged files: no crash, no hang, no NaN where a number is promised", () => {
  expect(mutationRun(2200, 20260517)).toEqual([]);
});
