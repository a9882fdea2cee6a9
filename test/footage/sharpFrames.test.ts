import { join } from "node:path";
import { createCanvas, loadImage } from "@napi-rs/canvas";
import { beforeAll, describe, expect, it } from "vitest";
import type { Clip } from "../../main/contract/footage.ts";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { framePicture, sharpFrames } from "../../main/footage/sharpFrames.edge.ts";
import { sharpestFrames, sharpness } from "../../main/footage/sharpness.ts";
import { testTools } from "../support/tools.ts";
import { ffmpeg, scratchFolder } from "./makeClip.ts";

const { signal } = new AbortController();

describe("sharpness", () => {
  const checks = (every: number) =>
    Uint8Array.from({ length: 64 * 36 }, (_, k) => ((k % 64) % every < every / 2 ? 40 : 200));

  it("is 0 for a flat picture and for a straight slope, and grows with edges", () => {
    expect(sharpness(new Uint8Array(64 * 36).fill(90), 64, 36)).toBe(0);
    expect(
      sharpness(
        Uint8Array.from({ length: 64 * 36 }, (_, k) => 3 * (k % 64)),
        64,
        36,
      ),
    ).toBe(0);
    expect(sharpness(checks(4), 64, 36)).toBeGreaterThan(2 * sharpness(checks(16), 64, 36));
  });

  it("is that of a step worked out by hand", () => {
    // Four columns 0 0 10 10: the two inner ones bend by -10 and +10, in every inner row.
    const grey = Uint8Array.from({ length: 16 }, (_, k) => (k % 4 < 2 ? 0 : 10));
    expect(sharpness(grey, 4, 4)).toBe(100);
  });

  it("offers frames apart from each other", () => {
    const frames = [5, 9, 8, 1, 7].map((value, frame) => ({ frame, mediaS: frame / 10, sharpness: value }));
    expect(sharpestFrames(frames, 3, 0.15).map(({ frame }) => frame)).toEqual([1, 4]);
    expect(sharpestFrames(frames, 2, 0).map(({ frame }) => frame)).toEqual([1, 2]);
  });
});

describe("the sharpest frames of a clip", () => {
  const folder = scratchFolder();
  let clip: Clip;
  beforeAll(async () => {
    // Blurred, but for frames 97 and 98; with B-frames and keyframes a second apart.
    const path = join(folder, "bar.mp4");
    ffmpeg(
      ...[
        "-f",
        "lavfi",
        "-i",
        "testsrc2=size=320x180:rate=30:duration=6",
        "-vf",
        "gblur=sigma=6:enable='not(between(n,97,98))'",
      ],
      ...["-c:v", "libx264", "-preset", "veryfast", "-bf", "2", "-g", "30", "-pix_fmt", "yuv420p", path],
    );
    clip = await probeClip(path, "1", testTools());
  });

  it("are found where they are, with their media time", async () => {
    const found = await sharpFrames(clip, 3, testTools(), signal);
    const best = [...found].sort((a, b) => b.sharpness - a.sharpness)[0]!;
    expect([97, 98]).toContain(best.frame);
    expect(best.mediaS).toBeCloseTo(best.frame / 30, 4);
    expect(found.map(({ mediaS }) => mediaS)).toEqual(found.map(({ mediaS }) => mediaS).sort((a, b) => a - b));
    expect(found.every(({ mediaS }) => mediaS > 0.95 && mediaS < 5.05)).toBe(true);
  });

  it("come as pictures: that frame and no other", async () => {
    const edges = async (frame: number) => {
      const png = (await framePicture(clip, frame, testTools(), signal))!;
      const image = await loadImage(Buffer.from(png));
      expect([image.width, image.height]).toEqual([320, 180]);
      const canvas = createCanvas(image.width, image.height);
      canvas.getContext("2d").drawImage(image, 0, 0);
      const { data } = canvas.getContext("2d").getImageData(0, 0, image.width, image.height);
      const green = Uint8Array.from({ length: image.width * image.height }, (_, k) => data[4 * k + 1]!);
      return sharpness(green, image.width, image.height);
    };
    const [before, first, last, after] = [await edges(96), await edges(97), await edges(98), await edges(99)];
    expect(Math.min(first, last)).toBeGreaterThan(5 * Math.max(before, after));
  });

  it("near either end are those that there are", async () => {
    expect((await sharpFrames(clip, 0, testTools(), signal)).length).toBeGreaterThan(0);
    expect((await sharpFrames(clip, 6, testTools(), signal)).length).toBeGreaterThan(0);
  });
});
