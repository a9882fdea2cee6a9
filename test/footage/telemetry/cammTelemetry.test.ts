import { join } from "node:path";
import { expect, it } from "vitest";
import { probeClip } from "../../../main/footage/probeClip.edge.ts";
import { readTelemetry } from "../../../main/footage/telemetry/readTelemetry.edge.ts";
import { ffmpeg, scratchFolder } from "../makeClip.ts";
import { testTools } from "../../support/tools.ts";
import { wrapTelemetry } from "./wrapTelemetry.ts";

const CREATED = "2024-06-01T08:00:00Z";

/** A packet of the camera motion metadata specification: reserved u16, type u16, then its fields; all little-endian. */
function packet(type: number, ...fields: readonly (readonly ["f" | "d" | "i", number])[]): Uint8Array {
  const bytes = Buffer.alloc(4 + fields.reduce((sum, [kind]) => sum + (kind === "d" ? 8 : 4), 0));
  bytes.writeUInt16LE(type, 2);
  let at = 4;
  for (const [kind, value] of fields) {
    if (kind === "d") bytes.writeDoubleLE(value, at);
    else if (kind === "f") bytes.writeFloatLE(value, at);
    else bytes.writeInt32LE(value, at);
    at += kind === "d" ? 8 : 4;
  }
  return bytes;
}

/** Type 6 at so many seconds of a ride north at 8 m/s; `timeS` in whatever epoch the writer uses. */
const fixAt = (s: number, timeS: number, fix = 3) =>
  packet(
    6,
    ["d", timeS],
    ["i", fix],
    ["d", 47 + (8 * s) / 111_195],
    ["d", 7.5],
    ...[300, 2, 3, 0, 8, 0, 0.2].map((v) => ["f", v] as const),
  );

async function read(packets: readonly Uint8Array[], name: string) {
  const folder = scratchFolder();
  const plain = join(folder, "plain.mp4");
  const picture = ["-f", "lavfi", "-i", "color=size=64x36:rate=10:duration=20", "-c:v", "libx264"];
  ffmpeg(...picture, "-preset", "ultrafast", "-metadata", `creation_time=${CREATED}`, plain);
  const path = join(folder, `${name}.mp4`);
  wrapTelemetry(plain, packets, path, 100, "camm");
  const clip = await probeClip(path, "1", testTools());
  expect(clip.hasTelemetry).toBe(true);
  return (await readTelemetry(clip))!;
}

const unixS = Date.parse(CREATED) / 1000;
const GPS_S = unixS - 315_964_800 + 18;

it.each([
  ["the specification's epoch", (s: number) => GPS_S + s],
  ["Unix seconds", (s: number) => unixS + s],
  ["Unix milliseconds", (s: number) => (unixS + s) * 1000],
])("reads places, time, turning and acceleration of a camera motion track with times in %s", async (_, timeOf) => {
  const packets = Array.from({ length: 200 }, (_unused, k) => {
    const s = k / 10;
    if (k % 4 === 1) return packet(2, ["f", 0.1], ["f", 0.2], ["f", k]);
    if (k % 4 === 2) return packet(3, ["f", 0], ["f", 9.81], ["f", 0]);
    if (k % 4 === 3) return packet(4, ["f", 1], ["f", 2], ["f", 3]);
    return fixAt(s, timeOf(s));
  });
  const found = await read(packets, "all");
  expect(found.lacks).toEqual([]);
  expect(found.positions!.latDeg).toHaveLength(50);
  expect(found.positions!.mediaS[1]).toBeCloseTo(0.4, 6);
  expect(found.positions!.latDeg[25]).toBeCloseTo(47 + 80 / 111_195, 9);
  expect(found.positions!.speedMps[3]).toBeCloseTo(8, 6);
  expect(found.utc!.source).toBe("CAMM");
  expect(Math.abs(found.utc!.startUtcMs - unixS * 1000)).toBeLessThan(1);
  expect(found.gyro!.axes[2][1]).toBe(5);
  expect(found.acceleration!.axes[1][0]).toBeCloseTo(9.81, 5);
});

it("reads plain places (type 5), and says what cannot be read and where there is no fix", async () => {
  const place = (k: number) => packet(5, ["d", 47 + k * 1e-5], ["d", 7.5], ["d", 300]);
  const plain = await read(
    Array.from({ length: 200 }, (_, k) => (k === 7 ? place(k).subarray(0, 9) : place(k))),
    "plain",
  );
  expect(plain.positions!.latDeg).toHaveLength(199);
  expect(plain.positions!.speedMps[0]).toBeNaN();
  expect(plain.lacks).toEqual([{ kind: "parts unread", unread: 1, parts: 200 }]);
  const none = await read(
    Array.from({ length: 200 }, (_, k) => fixAt(k / 10, GPS_S + k / 10, 0)),
    "none",
  );
  expect(none).toMatchObject({ positions: null, utc: null, lacks: [{ kind: "no fix" }] });
});
