// What help says of the panels is what a film has, whatever stands where in the list of names.
import { expect, it, vi } from "vitest";

vi.mock("../../overlay/layout/layout.ts", async (original) => ({
  ...(await original<object>()),
  defaultPanels: ["route", "power"],
}));

it("the default panels stand first, as many as there are, and every other panel behind them", async () => {
  const { lookOptionsHelp } = await import("../../main/cli/lookOptions.ts");
  const said = lookOptionsHelp.replace(/\n {25}/g, "");
  expect(said).toContain(
    "commas: route,power,heart-rate,cadence,speed,gradient,time,main-part,at-like-power; or none (default: the first 2)",
  );
});
