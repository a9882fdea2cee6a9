import { copyFileSync, existsSync, readFileSync, truncateSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { Failure } from "../../main/contract/failure.ts";
import { fingerprintFile } from "../../main/footage/fingerprint.edge.ts";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { testTools } from "../support/tools.ts";
import { ffmpeg, ffprobePackets, scratchFolder } from "./makeClip.ts";
import { failureSaid } from "../support/said.ts";

const folder = scratchFolder();
const at = (name: string) => join(folder, name);
const tools = testTools();
const probe = (path: string) => probeClip(path, "1", tools);
const picture = (rate: string, s = 2, size = "128x72") => [
  "-f",
  "lavfi",
  "-i",
  `testsrc2=size=${size}:rate=${rate}:duration=${s}`,
];
/** ffmpeg's sources make 240 of 240000/1001: its frames are timed one by one. */
const TIMED_BY_HAND = [
  ...picture("240", 1),
  ..."-vf settb=1001/240000,setpts=N -fps_mode passthrough -enc_time_base 1001:240000".split(" "),
  ..."-video_track_timescale 240000".split(" "),
];
const x264 = ["-c:v", "libx264", "-preset", "ultrafast", "-pix_fmt", "yuv420p"];

async function sameAsFfprobe(path: string): Promise<void> {
  const clip = await probe(path);
  const expected = ffprobePackets(path);
  expect(Array.from(clip.frames.ticks)).toEqual(expected.ticks);
  expect(Array.from(clip.frames.keyframes)).toEqual(expected.keys);
}

async function failureOf(path: string): Promise<Failure> {
  try {
    await probe(path);
  } catch (error) {
    expect(error).toBeInstanceOf(Failure);
    return error as Failure;
  }
  throw new Error("no failure");
}

describe("frame times equal ffprobe's packet list", () => {
  it.each(["30000/1001", "24000/1001", "25", "60", "60000/1001", "240", "240000/1001"])(
    "at %s frames a second, with B-frames and an edit list",
    async (rate) => {
      const path = at(`rate ${rate.replace("/", "-")}.mp4`);
      // medium preset: B-frames, hence composition offsets and an edit list that takes the delay back
      const coded = ["-c:v", "libx264", "-preset", "medium", "-g", "12", "-pix_fmt", "yuv420p", path];
      ffmpeg(...(rate === "240000/1001" ? TIMED_BY_HAND : picture(rate, 1)), ...coded);
      await sameAsFfprobe(path);
      const clip = await probe(path);
      const [num, den = "1"] = rate.split("/");
      expect(clip.frameRate).toEqual({ num: Number(num), den: Number(den) });
      expect(clip.variableRate).toBe(false);
      expect(clip.frames.ticks[0]).toBe(0);
    },
  );

  it("of a clip cut without re-coding, whose edit list drops frames at the front", async () => {
    const whole = at("whole.mp4");
    ffmpeg(...picture("25", 3), "-c:v", "libx264", "-g", "25", "-pix_fmt", "yuv420p", whole);
    const cut = at("cut.mp4");
    ffmpeg("-ss", "1.52", "-i", whole, "-c", "copy", cut);
    await sameAsFfprobe(cut);
  });

  it("of a clip whose picture starts late (an empty edit)", async () => {
    const path = at("late.mp4");
    ffmpeg(
      "-f",
      "lavfi",
      "-i",
      "sine=duration=2",
      ...picture("25", 1),
      "-map",
      "1:v",
      "-map",
      "0:a",
      "-vf",
      "setpts=PTS+0.4/TB",
      "-fps_mode",
      "passthrough",
      ...x264,
      "-c:a",
      "aac",
      path,
    );
    await sameAsFfprobe(path);
    expect((await probe(path)).frames.ticks[0]! / (await probe(path)).frames.timescale).toBeCloseTo(0.4, 2);
  });

  it("of a clip with frames at uneven times, which is found to be of variable rate", async () => {
    const path = at("uneven.mp4");
    ffmpeg(
      ...picture("50", 2),
      "-vf",
      "select='not(mod(n*n\\,7))+not(mod(n\\,5))'",
      "-fps_mode",
      "vfr",
      ...x264,
      "-video_track_timescale",
      "90000",
      path,
    );
    await sameAsFfprobe(path);
    expect((await probe(path)).variableRate).toBe(true);
  });

  it("of a clip on a coarse time base, which is still of constant rate", async () => {
    const path = at("coarse.mp4");
    ffmpeg(...picture("30000/1001", 2), ...x264, "-video_track_timescale", "1000", path);
    await sameAsFfprobe(path);
    expect(await probe(path)).toMatchObject({ variableRate: false, frameRate: { num: 30000, den: 1001 } });
  });

  it("of a MOV with its index at the end and 64-bit offsets", async () => {
    const path = at("index-last.mov");
    ffmpeg(...picture("30", 1), ...x264, path);
    await sameAsFfprobe(path);
  });
});

describe("what the container says", () => {
  it("reads time, sound, colour and size", async () => {
    const path = at("said.mp4");
    ffmpeg(
      ...picture("30", 1),
      "-f",
      "lavfi",
      "-i",
      "sine=duration=1:sample_rate=48000",
      ...x264,
      "-c:a",
      "aac",
      "-color_primaries",
      "bt709",
      "-color_trc",
      "bt709",
      "-colorspace",
      "bt709",
      "-metadata",
      "creation_time=2024-06-01T10:10:37Z",
      path,
    );
    expect(await probe(path)).toMatchObject({
      createdUtcMs: Date.UTC(2024, 5, 1, 10, 10, 37),
      audio: { codec: "aac", sampleRateHz: 48000, channels: 1 },
      colour: { primaries: "bt709", transfer: "bt709", matrix: "bt709", bitDepth: 8, hdr: false, range: "tv" },
      widthPx: 128,
      heightPx: 72,
      rotationDeg: 0,
      mirrored: false,
      videoCodec: "h264",
      hasTelemetry: false,
      camera: null,
      timecode: null,
      warnings: [],
    });
  });

  it("recognises high dynamic range and ten bits", async () => {
    const path = at("hlg.mp4");
    ffmpeg(
      ...picture("30", 1),
      "-c:v",
      "libx264",
      "-pix_fmt",
      "yuv420p10le",
      "-color_primaries",
      "bt2020",
      "-color_trc",
      "arib-std-b67",
      "-colorspace",
      "bt2020nc",
      path,
    );
    expect((await probe(path)).colour).toMatchObject({
      hdr: true,
      bitDepth: 10,
      transfer: "arib-std-b67",
      primaries: "bt2020",
    });
  });

  it("reads pixel shape, and shows its size with square pixels", async () => {
    const path = at("wide-pixels.mp4");
    ffmpeg(...picture("30", 1, "96x72"), "-vf", "setsar=4/3", ...x264, path);
    expect(await probe(path)).toMatchObject({
      pixelAspect: { num: 4, den: 3 },
      widthPx: 128,
      heightPx: 72,
      codedWidthPx: 96,
    });
  });

  it.each([
    // a, b, c, d of the track matrix (ISO/IEC 14496-12, 8.3.2), turn clockwise, mirrored
    [[0, 1, -1, 0], 90, false],
    [[-1, 0, 0, -1], 180, false],
    [[0, -1, 1, 0], 270, false],
    [[-1, 0, 0, 1], 0, true],
    [[0, 1, 1, 0], 270, true],
  ] as const)("reads the turn of matrix %j", async (matrix, rotationDeg, mirrored) => {
    const path = at("turned.mp4");
    ffmpeg(...picture("30", 1), ...x264, path);
    const bytes = readFileSync(path);
    const tkhd = bytes.indexOf("tkhd") + 4 + 40;
    [0, 1, 3, 4].forEach((place, k) => bytes.writeInt32BE(matrix[k]! * 65536, tkhd + 4 * place));
    writeFileSync(path, bytes);
    const sideways = rotationDeg === 90 || rotationDeg === 270;
    expect(await probe(path)).toMatchObject({
      rotationDeg,
      mirrored,
      widthPx: sideways ? 72 : 128,
      heightPx: sideways ? 128 : 72,
      codedWidthPx: 128,
    });
  });

  it("reads a timecode track against its own division, not by frames per second", async () => {
    const path = at("timecode.mov");
    ffmpeg(...picture("30000/1001", 1), ...x264, "-timecode", "10:00:00:00", path);
    // 10 h on the label of 30 frames is frame 1 080 000, which is 1001/30000 s each: 36 036 s since midnight
    expect((await probe(path)).timecode).toEqual({ frameNumber: 1_080_000, timeOfDayS: 36_036, dropFrame: false });
  });

  it.each(["with space.mp4", "'quoted' \"twice\".mp4", "-leading.mp4", "100%d done.mp4", "\u00dcbung am Berg.mp4"])(
    "opens %s",
    async (name) => {
      const path = at(name);
      ffmpeg(...picture("30", 1), ...x264, at("plain.mp4"));
      copyFileSync(at("plain.mp4"), path);
      expect((await probe(path)).fileName).toBe(name);
    },
  );

  it("keeps its fingerprint after a move", async () => {
    ffmpeg(...picture("30", 1), ...x264, at("here.mp4"));
    copyFileSync(at("here.mp4"), at("there.mp4"));
    expect((await probe(at("there.mp4"))).fingerprint).toBe((await probe(at("here.mp4"))).fingerprint);
  });

  it.each([6, 40])("of %d MB differs where a file of the same size and ends was put in its place", async (mb) => {
    const size = mb * 1024 * 1024;
    const other = Buffer.alloc(size, 1);
    // A frame's worth of bytes in a small file, the whole middle in a large one.
    other.fill(2, size / 2, size / 2 + (mb < 10 ? 5000 : 4 * 1024 * 1024));
    writeFileSync(at("one.bin"), Buffer.alloc(size, 1));
    writeFileSync(at("two.bin"), other);
    const [one, two] = [await fingerprintFile(at("one.bin")), await fingerprintFile(at("two.bin"))];
    expect(one).not.toBe(two);
    // What earlier versions wrote down is the part of it that is the same for both.
    expect(one.slice(0, 32)).toBe(two.slice(0, 32));
  });
});

describe("what cannot be used", () => {
  it("is said in one sentence with a remedy", async () => {
    writeFileSync(at("empty.mp4"), "");
    writeFileSync(at("text.mp4"), "this is not a film, whatever it is called\n".repeat(20));
    ffmpeg(...picture("30", 1), ...x264, at("good.mp4"));
    const good = readFileSync(at("good.mp4"));
    writeFileSync(at("no-index.mp4"), good.subarray(0, good.indexOf("moov") - 4));
    writeFileSync(at("half-index.mp4"), good.subarray(0, good.indexOf("moov") + 200));
    ffmpeg("-f", "lavfi", "-i", "sine=duration=1", "-c:a", "aac", at("sound-only.mp4"));
    ffmpeg(...picture("30", 1), ...x264, "-movflags", "frag_keyframe+empty_moov", at("fragments.mp4"));
    const cases: [string, string, RegExp][] = [
      ["empty.mp4", "clip-not-usable", /is empty/],
      ["text.mp4", "clip-not-usable", /not an MP4/],
      ["no-index.mp4", "clip-not-usable", /no usable index/],
      ["half-index.mp4", "clip-not-usable", /no usable index/],
      ["sound-only.mp4", "clip-not-usable", /no video track/],
      ["fragments.mp4", "clip-not-usable", /fragments/],
      ["absent.mp4", "file-unreadable", /does not exist/],
      [".", "file-unreadable", /is a folder/],
    ];
    for (const [name, code, sentence] of cases) {
      const failure = await failureOf(at(name));
      expect(failure.code).toBe(code);
      expect(failureSaid(failure).sentence).toMatch(sentence);
      if (name !== ".") expect(failureSaid(failure).sentence).toContain(name);
      expect(failureSaid(failure).remedy.length).toBeGreaterThan(10);
    }
  });

  it("a still picture is told as one, without a remedy that makes a clip of it", async () => {
    ffmpeg("-f", "lavfi", "-i", "testsrc2=size=64x36", "-frames:v", "1", "-c:v", "png", "-f", "image2", at("png.mp4"));
    ffmpeg(
      "-f",
      "lavfi",
      "-i",
      "testsrc2=size=64x36",
      "-frames:v",
      "1",
      "-c:v",
      "mjpeg",
      "-f",
      "image2",
      at("jpg.mov"),
    );
    for (const name of ["png.mp4", "jpg.mov"]) {
      const failure = await failureOf(at(name));
      expect(failure.code).toBe("clip-not-usable");
      expect(failureSaid(failure).sentence).toBe(`${name} is a still picture, not a film.`);
      expect(failureSaid(failure).remedy).not.toContain("ffmpeg");
    }
    writeFileSync(at("short.mp4"), "\x89P");
    expect(failureSaid(await failureOf(at("short.mp4"))).sentence).toMatch(/not an MP4/);
  });

  it("is used as far as it goes where only its end is missing", async () => {
    const path = at("cut-off.mp4");
    ffmpeg(...picture("30", 2), ...x264, "-movflags", "faststart", path);
    const size = readFileSync(path).length;
    truncateSync(path, Math.floor(size * 0.7));
    const clip = await probe(path);
    expect(clip.durationS).toBeGreaterThan(0.5);
    expect(clip.durationS).toBeLessThan(1.9);
    expect(clip.warnings.map(({ code }) => code)).toContain("clip-cut-off");
  });

  it("never crashes on damaged tables", async () => {
    ffmpeg(...picture("30", 1), ...x264, at("sound.mp4"));
    const good = readFileSync(at("sound.mp4"));
    const moov = good.indexOf("moov");
    let seed = 7;
    for (let round = 0; round < 60; round++) {
      const bytes = Buffer.from(good);
      for (let k = 0; k < 4; k++) {
        seed = (seed * 1_103_515_245 + 12_345) % 2 ** 31;
        bytes[moov + (seed % (good.length - moov))] = seed >> 8;
      }
      writeFileSync(at("damaged.mp4"), bytes);
      try {
        const clip = await probe(at("damaged.mp4"));
        expect(clip.frames.ticks.every(Number.isFinite)).toBe(true);
      } catch (error) {
        expect(error).toBeInstanceOf(Failure);
      }
    }
  });
});

// Real clips may lie in a folder named by FOLLOWCAR_DATA; they are not part of the project.
const data = process.env["FOLLOWCAR_DATA"] ? join(process.env["FOLLOWCAR_DATA"], "camera") : "";
describe.skipIf(!data || !existsSync(data))("real clips", () => {
  it("have ffprobe's frame times: with an edit list, at a variable rate, and from a camera", async () => {
    for (const name of ["editlist.mp4", "variable-frame-rate.mp4", "karma.mp4"]) await sameAsFfprobe(join(data, name));
    expect((await probe(join(data, "variable-frame-rate.mp4"))).variableRate).toBe(true);
  });

  it("have the timecode that the camera's clock and the GPS beside it confirm", async () => {
    const clip = await probe(join(data, "karma.mp4"));
    expect(clip.timecode!.timeOfDayS).toBeCloseTo(70_078.1415, 3);
    expect(clip).toMatchObject({
      hasTelemetry: true,
      frameRate: { num: 30000, den: 1001 },
      createdUtcMs: Date.UTC(2017, 3, 17, 19, 27, 57),
    });
  });
});
