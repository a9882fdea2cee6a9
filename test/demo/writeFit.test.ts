import FitParser from "fit-file-parser";
import { describe, expect, it } from "vitest";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { SECOND_STARTS_S, secondRideFile } from "../../main/demo/secondRide.ts";
import { writeFit } from "../../main/demo/writeFit.ts";

interface Parsed {
  readonly records: readonly Record<string, number & Date>[];
  readonly laps: readonly Record<string, unknown>[];
  readonly sessions: readonly Record<string, unknown>[];
  readonly activity: Record<string, Date>;
  readonly events: readonly Record<string, unknown>[];
}

/** Read by a general library, not by our own decoder; `force: false` makes it refuse a wrong checksum. */
function parsed(bytes: Uint8Array): Promise<Parsed> {
  return new Promise((resolve, reject) => {
    const parser = new FitParser({ force: false, mode: "list", lengthUnit: "m", speedUnit: "m/s" });
    parser.parse(Buffer.from(bytes), (error: unknown, data: unknown) =>
      error ? reject(new Error(JSON.stringify(error))) : resolve(data as Parsed),
    );
  });
}

const truth = demoRide(20260516);

describe("the demo's ride file", () => {
  it("reads back with the truth's values", async () => {
    const { records, laps, sessions, activity, events } = await parsed(demoRideFile(truth));
    const r = truth.records;
    expect(records).toHaveLength(r.count);
    for (let k = 0; k < r.count; k += 37) {
      const one = records[k]!;
      expect(one["timestamp"]!.getTime()).toBe(truth.startUtcMs + k * 1000);
      expect(one["power"]).toBe(r.powerW[k]);
      expect(one["heart_rate"]).toBe(r.heartRateBpm[k]);
      expect(one["cadence"]).toBe(r.cadenceRpm[k]);
      expect(Math.abs(one["enhanced_speed"]! - r.speedMps[k]!)).toBeLessThan(6e-4);
      expect(Math.abs(one["distance"]! - r.distanceM[k]!)).toBeLessThan(6e-3);
      expect(Math.abs(one["enhanced_altitude"]! - r.altitudeM[k]!)).toBeLessThan(0.11);
      expect(Math.abs(one["position_lat"]! - r.latDeg[k]!)).toBeLessThan(1e-7);
      expect(Math.abs(one["position_long"]! - r.lonDeg[k]!)).toBeLessThan(1e-7);
    }
    expect(laps.map((l) => l["lap_trigger"])).toEqual(["manual", "session_end"]);
    expect((laps[0]!["timestamp"] as Date).getTime()).toBe(truth.startUtcMs + truth.lapPressesS[0]! * 1000);
    expect(sessions).toHaveLength(1);
    expect(sessions[0]!["total_elapsed_time"]).toBe(8640);
    expect(sessions[0]!["sport"]).toBe("cycling");
    expect(events.filter((e) => e["event"] === "timer").map((e) => e["event_type"])).toEqual(["start", "stop_all"]);
    expect((activity["local_timestamp"]!.getTime() - activity["timestamp"]!.getTime()) / 60_000).toBe(
      truth.utcOffsetMin,
    );
  });

  it("is refused by the library when a byte is damaged, so the checksum is a real one", async () => {
    const bytes = demoRideFile(truth);
    bytes[5000]! ^= 0x40;
    await expect(parsed(bytes)).rejects.toThrow();
  });

  it("writes a missing value as missing, not as 0", async () => {
    const { records } = await parsed(
      writeFit({
        records: [0, 1].map((k) => ({
          utcMs: truth.startUtcMs + k * 1000,
          latDeg: NaN,
          lonDeg: NaN,
          altitudeM: NaN,
          heartRateBpm: NaN,
          cadenceRpm: 80,
          distanceM: k * 8,
          speedMps: 8,
          powerW: NaN,
        })),
        lapPressesUtcMs: [],
        utcOffsetMin: 60,
      }),
    );
    expect(records[1]!["cadence"]).toBe(80);
    for (const name of ["power", "heart_rate", "position_lat", "enhanced_altitude"])
      expect(records[1]![name] ?? null).toBeNull();
  });

  it("has a second rider on the same road a few seconds behind, who began to record later", async () => {
    const { records } = await parsed(secondRideFile(truth));
    expect(records[0]!["timestamp"]!.getTime()).toBe(truth.startUtcMs + Math.ceil(SECOND_STARTS_S) * 1000);
    const k = 3000;
    const at = truth.course.positionAt(truth.records.distanceM[k]!);
    const her = records[k - Math.ceil(SECOND_STARTS_S)]!;
    const behindM =
      111_195 *
      Math.hypot(
        her["position_lat"]! - at.latDeg,
        (her["position_long"]! - at.lonDeg) * Math.cos((at.latDeg * Math.PI) / 180),
      );
    expect(behindM / truth.records.speedMps[k]!).toBeGreaterThan(2);
    expect(behindM / truth.records.speedMps[k]!).toBeLessThan(6);
  });
});
