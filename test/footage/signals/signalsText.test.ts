import { describe, expect, it } from "vitest";
import { parseSignals, SIGNALS_VERSION, signalsText } from "../../../main/footage/signals/signalsText.ts";

const signals = {
  clipId: "a",
  count: 3,
  motion: Float64Array.of(-3.5, NaN, -6),
  sound: null,
  turning: Float64Array.of(0.01, -0.02, NaN),
  bytesRead: 7,
  lacks: ["sound"] as const,
};

describe("signalsText", () => {
  it("comes back as it was, missing values and all, under the id asked for", () => {
    expect(parseSignals(signalsText(signals), "b")).toEqual({ ...signals, clipId: "b" });
  });

  it.each([
    "",
    "{}",
    "null",
    signalsText(signals).replace(`"version":${SIGNALS_VERSION}`, '"version":0'),
    signalsText({ ...signals, count: 4 }),
  ])("gives null for what it is not: %s", (text) => {
    expect(parseSignals(text, "a")).toBeNull();
  });
});
