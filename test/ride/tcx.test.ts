import { describe, expect, test } from "vitest";
import { parseRide } from "../../main/ride/parseRide.ts";
import { bytesOf, isoAt, range, tcxText, trackpoint } from "../support/trackText.ts";
import { said } from "../support/said.ts";

const read = (text: string) => parseRide(bytesOf(text), "ride.tcx");
const point = (s: number) =>
  trackpoint(
    s,
    `<Position><LatitudeDegrees>${47 + (s * 8) / 111_177}</LatitudeDegrees><LongitudeDegrees>11</LongitudeDegrees></Position>` +
      `<AltitudeMeters>400</AltitudeMeters><DistanceMeters>${s * 8}</DistanceMeters><HeartRateBpm><Value>140</Value></HeartRateBpm><Cadence>88</Cadence>` +
      `<Extensions><q:TPX><q:Speed>8.1</q:Speed><q:Watts>${210 + (s % 10)}</q:Watts></q:TPX></Extensions>`,
  );
const lap = (startS: number, tracks: readonly string[], trigger = "Manual", seconds = 60) =>
  `<Lap StartTime="${isoAt(startS)}"><TotalTimeSeconds>${seconds}` +
  "</TotalTimeSeconds><DistanceMeters>999</DistanceMeters><AverageHeartRateBpm><Value>99</Value></AverageHeartRateBpm>" +
  `<TriggerMethod>${trigger}</TriggerMethod>${tracks.map((t) => `<Track>${t}</Track>`).join("")}</Lap>`;
const points = (n: number, from = 0) => range(n, from).map(point).join("");

describe("TCX", () => {
  test("every channel of a track point, and nothing of the lap's own figures", () => {
    const { raw, warnings } = read(tcxText([lap(0, [points(60)])]));
    expect(raw.count).toBe(60);
    expect(raw.heartRateBpm.every((v) => v === 140)).toBe(true);
    expect(raw.powerW[5]).toBe(215);
    expect(raw.cadenceRpm[5]).toBe(88);
    expect(raw.speedMps[5]).toBe(8.1);
    expect(raw.distanceM[59]).toBe(472);
    expect(raw.altitudeM[5]).toBe(400);
    expect(said(warnings)).toEqual([]);
  });

  test("what was run is said, as the schema names it; Other may be a ride", () => {
    const warned = (sport: "Running" | "Biking" | "Other") =>
      said(read(tcxText([lap(0, [points(60)])], sport)).warnings);
    expect(warned("Running")).toEqual([
      'The file says "running", not cycling: if so, what is said of pedals, pressure and cadence means nothing. Take the file of a ride.',
    ]);
    expect([...warned("Biking"), ...warned("Other")]).toEqual([]);
  });

  test("of a run and a ride in one file only the ride is read", () => {
    const activity = (sport: string, fromS: number) =>
      `<Activity Sport="${sport}"><Id>${isoAt(fromS)}</Id>${lap(fromS, [points(60, fromS)], "Manual", 59)}</Activity>`;
    const both = tcxText([]).replace(/<Activity .*<\/Activity>/s, activity("Running", 0) + activity("Biking", 60));
    const { raw, startUtcMs, laps, warnings } = read(both);
    expect([raw.count, startUtcMs]).toEqual([60, Date.UTC(2026, 4, 17, 8, 1)]);
    expect(laps).toEqual([{ startS: 0, endS: 59, trigger: "manual" }]);
    expect(said(warnings)).toEqual(["The file holds 2 sessions (running, cycling); only what was ridden is read."]);
  });

  test("several tracks of a lap are pauses", () => {
    const ride = read(tcxText([lap(0, [points(60), points(60, 300)])]));
    expect(ride.gaps).toEqual([{ startS: 59, endS: 300, kind: "pause" }]);
    expect(ride.grid.timerS[359]).toBe(118);
  });

  test("laps follow each other without a pause, with who pressed", () => {
    const ride = read(tcxText([lap(0, [points(60)]), lap(60, [points(60, 60)], "Distance")]));
    expect(ride.gaps).toEqual([]);
    expect(ride.laps).toEqual([
      { startS: 0, endS: 60, trigger: "manual" },
      { startS: 60, endS: 119, trigger: "auto" },
    ]);
  });

  test("points with a time only, and repeated times at lap borders, do no harm", () => {
    const ride = read(tcxText([lap(0, [points(60) + trackpoint(59)]), lap(60, [points(60, 59)])]));
    expect(ride.raw.count).toBe(121);
    expect(ride.grid.seconds).toBe(119);
    expect(ride.grid.power?.value[59]).toBe(219);
  });

  test("cadence from the run extension", () => {
    const text = tcxText([
      lap(0, [
        range(20)
          .map((s) => trackpoint(s, `<Extensions><TPX><RunCadence>80</RunCadence></TPX></Extensions>`))
          .join(""),
      ]),
    ]);
    expect(read(text).raw.cadenceRpm[3]).toBe(80);
  });

  test("an entity bomb is neither expanded nor fatal", () => {
    const bomb = `<!DOCTYPE lolz [<!ENTITY a "aaaaaaaaaa">${range(12)
      .map((i) => `<!ENTITY b${i} "${(i ? `&b${i - 1};` : "&a;").repeat(10)}">`)
      .join("")}]>`;
    const ride = read(
      tcxText([lap(0, [points(30)])])
        .replace("?>", `?>${bomb}`)
        .replace("<Cadence>88", "<Cadence>&b11;"),
    );
    expect(ride.raw.count).toBe(30);
    // The entity stands for nothing, so the value is missing; all others are there.
    expect(ride.raw.cadenceRpm[0]).toBeNaN();
    expect(ride.raw.cadenceRpm.slice(1).every((v) => v === 88)).toBe(true);
  });

  test("a course and two activities are said", () => {
    const text = tcxText([lap(0, [points(30)])]);
    expect(said(read(text.replaceAll("Activity", "Course")).warnings)).toContain(
      "The file says that it is a course, not a ride.",
    );
    const two = text.replace(
      "</Activity></Activities>",
      `</Activity><Activity>${lap(60, [points(30, 60)])}</Activity></Activities>`,
    );
    expect(said(read(two).warnings)).toContain("The file holds 2 activities; they are read as one ride.");
  });
});
