// Small files that were made to stop the program.
import { spawnSync } from "node:child_process";
import { mkdtemp, rm, truncate, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import { parseMovie } from "../../main/footage/mp4/parseMovie.ts";
import { kindOfFile } from "../../main/app/picker/kindOfFile.ts";
import { Cancelled } from "../../main/contract/job.ts";
import { RidesApart } from "../../main/journey/apart/ridesApart.edge.ts";
import { sortFiles } from "../../main/journey/gather.ts";
import { parseRide } from "../../main/ride/parseRide.ts";
import { readRide } from "../../main/ride/readRide.edge.ts";
import { plainFit } from "../support/fitBytes.ts";
import { movieIndex } from "../support/movieBytes.ts";

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

test("thousands of edits over a million samples are damage; a few are a movie", () => {
  expect(parseMovie(movieIndex(5000, 1_000_000))).toBeNull();
  expect(parseMovie(movieIndex(3, 1_000_000))?.tracks[0]).toMatchObject({ samples: { count: 1_000_000 } });
});

const csv = (text: string) => parseRide(new TextEncoder().encode(text), "hostile.csv");

test("a line of nothing but separators, and more lines than any ride has, cost no memory", () => {
  const beforeMb = process.memoryUsage().rss / 2 ** 20;
  expect(() => csv(`time,power,hr\n${",".repeat(60_000_000)}`)).toThrow(/csv-without-times/);
  expect(() => csv(`time,power,hr\n${"1,2,3\n".repeat(10_000_000)}`)).toThrow(/ride-too-many-records/);
  expect(process.memoryUsage().rss / 2 ** 20 - beforeMb).toBeLessThan(700);
}, 120_000);

test("one open quote swallows nothing, and what is behind it is read", () => {
  const lines = Array.from({ length: 100_000 }, (_, k) => `${k},${k === 500 ? '"' : ""}200,140`);
  expect(csv(`time,power,hr\n${lines.join("\n")}`).raw.count).toBe(100_000);
}, 60_000);

test("a million lines of another length than the first are read in seconds, with quotation marks and without", () => {
  for (const line of ["1,2,3\n", '"1","a ""b"", c",3\n']) {
    const beganMs = process.cpuUsage().user / 1000;
    expect(csv(`time,power\n"0",1\n${line.repeat(1_000_000)}2,7\n`).raw.powerW.at(-1)).toBe(7);
    expect(process.cpuUsage().user / 1000 - beganMs).toBeLessThan(5000);
  }
}, 120_000);

test("a long line is passed over and counted; the lines behind it are read", () => {
  const ride = csv(`time,power,hr\n1,200,140\n2,${"9".repeat(200_000)},140\n3,210,141\n4,220,142`);
  expect([...ride.raw.powerW]).toEqual([200, 210, 220]);
});

test("an archive that unpacks to more than any ride, and a document type that multiplies itself", () => {
  const bomb = gzipSync(Buffer.alloc(200_000_000));
  expect(() => parseRide(bomb, "bomb.gpx.gz")).toThrow(/ride-gzip-too-large/);
  const entities = Array.from({ length: 30 }, (_, k) => `<!ENTITY e${k + 1} "${`&e${k};`.repeat(10)}">`).join("");
  const points = Array.from(
    { length: 20 },
    (_, k) => `<trkpt lat="47" lon="11.0${k}"><time>2026-05-17T08:00:${10 + k}Z</time><name>&e30;</name></trkpt>`,
  ).join("");
  const text = `<?xml version="1.0"?><!DOCTYPE g [<!ENTITY e0 "x">${entities}]><gpx><trk><trkseg>${points}</trkseg></trk></gpx>`;
  expect(parseRide(new TextEncoder().encode(text), "bomb.gpx").raw.count).toBe(20);
}, 60_000);

test("a track of ten million points, plain and packed, is refused by its size before it is read", async () => {
  const point = '<trkpt lat="47" lon="11"><time>2026-05-17T08:00:00Z</time></trkpt>';
  const path = join(folder, "points.gpx");
  await writeFile(path, `<gpx><trk><trkseg>${point.repeat(1000)}`);
  // The rest is a hole: whether there are points in it is not looked at.
  await truncate(path, 10_000_000 * point.length);
  const beganMs = performance.now();
  await expect(readRide(path)).rejects.toMatchObject({ notice: { code: "ride-file-too-large" } });
  expect(performance.now() - beganMs).toBeLessThan(1000);
  // RFC 1952, 2.2: a file may be many members, one after the other.
  const some = gzipSync(point.repeat(100_000));
  const packed = Buffer.concat([gzipSync("<gpx><trk><trkseg>"), ...Array.from({ length: 100 }, () => some)]);
  expect(packed.length).toBeLessThan(5e6);
  const beforeMb = process.memoryUsage().rss / 2 ** 20;
  expect(() => parseRide(packed, "points.gpx.gz")).toThrow(/ride-gzip-too-large/);
  expect(process.memoryUsage().rss / 2 ** 20 - beforeMb).toBeLessThan(700);
}, 60_000);

test("a chain of files without end, a size of 4 GB in the header, ten years between two points", () => {
  const one = plainFit(5);
  const chain = Buffer.concat(Array.from({ length: 100_000 }, () => one));
  expect(parseRide(chain, "chain.fit").warnings.map(({ code }) => code)).toContain("fit-many-parts");
  const claims = Buffer.from(one);
  claims.writeUInt32LE(0xfffffff0, 4);
  expect(parseRide(claims, "claims.fit").raw.count).toBe(5);
  const days = Array.from({ length: 3650 }, (_, k) => new Date(Date.UTC(2016, 0, 1) + k * 40_000_000).toISOString());
  const gpx = `<gpx><trk><trkseg>${days.map((at) => `<trkpt lat="1" lon="2"><time>${at}</time></trkpt>`).join("")}</trkseg></trk></gpx>`;
  expect(() => parseRide(new TextEncoder().encode(gpx), "years.gpx")).toThrow(/ride-over-a-week/);
}, 60_000);

test("sums that no rider makes are named as damage", () => {
  const far = csv(
    `time,distance (m),power\n${Array.from({ length: 120 }, (_, k) => `${k},${k < 119 ? k * 8 : 32_000_000},200`).join("\n")}`,
  );
  expect(far.warnings).toContainEqual({
    code: "ride-absurd-sums",
    facts: { distanceM: 32_000_000, meanMps: 32_000_000 / 119, powerW: null },
  });
  const strong = csv(
    `time,power\n${Array.from({ length: 120 }, (_, k) => `${k},${k === 60 ? 16_000 : 200}`).join("\n")}`,
  );
  expect(strong.warnings).toContainEqual({
    code: "ride-absurd-sums",
    facts: { distanceM: null, meanMps: null, powerW: 16_000 },
  });
});

test("reading is ended within a second of the signal, and a file that needs all memory is refused by name", async () => {
  const big = join(folder, "big.csv");
  await writeFile(big, `time,power,hr\n${Array.from({ length: 1_500_000 }, (_, k) => `${k},200,140`).join("\n")}`);
  const stop = new AbortController();
  const rides = new RidesApart(stop.signal);
  // It is being read once half a second of work went into it, however long that takes here.
  const before = process.cpuUsage();
  const workedMs = (): number => {
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1000;
  };
  let ended = false;
  const reading = rides.read(big).finally(() => (ended = true));
  reading.catch(() => undefined);
  await vi.waitFor(() => expect(workedMs()).toBeGreaterThan(500), { timeout: 30_000, interval: 10 });
  expect(ended).toBe(false);
  const beganMs = performance.now();
  stop.abort();
  await expect(reading).rejects.toBeInstanceOf(Cancelled);
  expect(performance.now() - beganMs).toBeLessThan(1000);
  const small = new RidesApart(null, 40);
  await expect(small.read(big)).rejects.toMatchObject({ notice: { code: "ride-needs-memory" } });
  await small.close();
}, 60_000);
