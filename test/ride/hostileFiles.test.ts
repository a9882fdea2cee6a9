// Small files that were made to stop the program.
import { spawnSync } from "node:child_process";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { parseMovie } from "../../main/footage/mp4/parseMovie.ts";
import { kindOfFile } from "../../main/app/picker/kindOfFile.ts";
import { sortFiles } from "../../main/journey/gather.ts";
import { parseRide } from "../../main/ride/parseRide.ts";
import { readRide } from "../../main/ride/readRide.edge.ts";

let folder = "";
beforeAll(async () => (folder = await mkdtemp(join(tmpdir(), "hostile "))));
afterAll(() => rm(folder, { recursive: true, force: true }));

test.skipIf(process.platform === "win32")(
  "a pipe that nobody writes to is no ride, and nothing waits for it",
  async () => {
    const pipe = join(folder, "ride.fit");
    const unnamed = join(folder, "camera");
    expect(spawnSync("mkfifo", [pipe, unnamed]).status).toBe(0);
    await expect(readRide(pipe)).rejects.toMatchObject({ notice: { code: "ride-no-ordinary-file" } });
    expect((await sortFiles([unnamed])).clipPaths).toEqual([]);
    expect(await kindOfFile(unnamed)).toBe("other");
  },
  10_000,
);

test("eight megabytes of opened tags are refused at once", () => {
  const deep = `<?xml version="1.0"?><gpx>${"<a>".repeat(2_700_000)}`;
  const beganMs = performance.now();
  expect(() => parseRide(new TextEncoder().encode(deep), "deep.gpx")).toThrow(/gpx-without-points/);
  const points = `<?xml version="1.0"?><gpx><trk><trkseg>${'<trkpt lat="1" lon="2">'.repeat(350_000)}`;
  expect(() => parseRide(new TextEncoder().encode(points), "points.gpx")).toThrow(/gpx-without/);
  expect(performance.now() - beganMs).toBeLessThan(5000);
}, 120_000);

/** A box of ISO/IEC 14496-12: its length, its type, its payload. */
function box(type: string, ...payload: readonly Buffer[]): Buffer {
  const inside = Buffer.concat(payload);
  const head = Buffer.alloc(8);
  head.writeUInt32BE(8 + inside.length);
  head.write(type, 4, "latin1");
  return Buffer.concat([head, inside]);
}

function words(...values: readonly number[]): Buffer {
  const bytes = Buffer.alloc(values.length * 4);
  values.forEach((value, k) => bytes.writeInt32BE(value, 4 * k));
  return bytes;
}

/** A movie's index with so many edits over so many samples. */
function index(edits: number, samples: number): Buffer {
  const list = Array.from({ length: edits }, () => words(1_000_000, 0, 0x10000));
  return Buffer.concat([
    box("mvhd", words(0, 0, 0, 1000, 0), Buffer.alloc(80)),
    box(
      "trak",
      box("tkhd", words(0, 0, 0, 1, 0, 0), Buffer.alloc(60)),
      box("edts", box("elst", words(0, edits), ...list)),
      box(
        "mdia",
        box("mdhd", words(0, 0, 0, 1000, 0, 0)),
        box("hdlr", words(0, 0), Buffer.from("vide"), Buffer.alloc(12)),
        box("minf", box("stbl", box("stsz", words(0, 1, samples)), box("stts", words(0, 1, samples, 1)))),
      ),
    ),
  ]);
}

test("thousands of edits over a million samples are damage; a few are a movie", () => {
  expect(parseMovie(index(5000, 1_000_000))).toBeNull();
  expect(parseMovie(index(3, 1_000_000))?.tracks[0]).toMatchObject({ samples: { count: 1_000_000 } });
});
