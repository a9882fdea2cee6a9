import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { parseRide } from "../../main/ride/parseRide.ts";
import { rideSummary } from "../../main/ride/rideSummary.ts";
import { referenceTable } from "./referenceTable.ts";

// Figures of up to five independent decoders a file: test/fixtures/README.md says whose.
const lines = referenceTable("test/fixtures/rides");

test("the fixtures are there", () => {
  expect(lines.length).toBeGreaterThanOrEqual(30);
});

test.each(lines.map((l) => [l.file, l] as const))(
  "%s agrees with its figures, or differs for a stated reason",
  (_, line) => {
    expect(line.verdict, line.notes.join("; ")).not.toBe("differs");
  },
);

const read = (file: string) => lines.find((l) => l.file === file)!;

test.each([
  ["chain-copy-bad-crc.fit", /same ride twice/],
  ["bad-crc.fit", /checksum does not match/],
  ["cut-short.fit", /shorter than it says/],
  ["chain-broken-header.fit", /goes on after its ride/],
  ["compressed-relative-clock.fit", /no calendar date/],
  ["five-sessions.fit", /5 sessions \(swimming, transition, cycling, transition, running\)/],
  ["dead-heart-sensor.fit", /Heart rate is 0 throughout/],
  ["empty-places.tcx", /exactly 0,0/],
  ["variable-hills.fit", /chose its own steps/],
])("%s says what is odd", (file, warning) => {
  expect(read(file).warnings.some((w) => warning.test(w))).toBe(true);
});

// What the recorder itself summed up of the cycling session, as an independent reading of the session message has it.
test("of five sessions only the ride is read, and it agrees with the recorder's own sums", () => {
  const ride = parseRide(new Uint8Array(readFileSync("test/fixtures/rides/five-sessions.fit")), "five-sessions.fit");
  const { startTime, elapsedS, distanceM, heartRate } = rideSummary(ride, "road");
  expect(startTime).toBe("2018-05-27T08:08:58.000Z");
  expect(Math.abs(elapsedS - 4422.14)).toBeLessThanOrEqual(1);
  expect(Math.abs(distanceM! - 40_909.42)).toBeLessThan(0.001 * 40_909.42);
  expect(Math.abs(heartRate.meanBpm! - 172)).toBeLessThan(1);
});

test.each(["undefined-places.gpx", "no-times.gpx", "few-times.gpx", "bom-waypoints.gpx"])("%s is refused", (file) => {
  expect(read(file).read).toBe("refused");
});

test("a sound ride of every second has nothing to say", () => {
  expect(read("power-heart-1s.fit").warnings).toEqual([]);
});
