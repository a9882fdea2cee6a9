import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { ByteSource } from "../../../main/footage/mp4/byteSource.ts";
import { topBoxes } from "../../../main/footage/mp4/boxes.ts";
import { parseMovie } from "../../../main/footage/mp4/parseMovie.ts";
import { sampleOffsets } from "../../../main/footage/mp4/sampleOffsets.ts";
import { streamForm, streamPicture } from "../../../main/footage/signals/keyframeStream.ts";
import { testTools } from "../../support/tools.ts";
import { ffmpeg, scratchFolder } from "../makeClip.ts";

const inMemory = (bytes: Uint8Array): ByteSource => ({
  size: bytes.length,
  read: (offset, length) => Promise.resolve(bytes.subarray(offset, offset + length)),
});

const folder = scratchFolder();

describe("keyframes taken out of their container", () => {
  it.each([
    ["libx264", ["-bf", "2"]],
    ["libx264", ["-x264-params", "open-gop=1:bframes=2"]],
    ["libx265", ["-tag:v", "hvc1", "-x265-params", "log-level=error:open-gop=1"]],
  ])("by %s %s decode to the pictures that ffmpeg finds in the file", async (codec, more) => {
    const path = join(folder, `${codec}${more.length}${more[1]!.length}.mp4`);
    ffmpeg(
      "-f",
      "lavfi",
      "-i",
      "testsrc2=size=192x108:rate=25:duration=4",
      "-c:v",
      codec,
      "-preset",
      "ultrafast",
      "-g",
      "12",
      "-pix_fmt",
      "yuv420p",
      ...more,
      "-y",
      path,
    );
    const bytes = new Uint8Array(readFileSync(path));
    const moov = (await topBoxes(inMemory(bytes))).find(({ type }) => type === "moov")!;
    const track = parseMovie(bytes.subarray(moov.start, moov.end))!.tracks[0]!;
    const { offsets, sizes } = sampleOffsets(track.samples);
    const form = streamForm(track.entry!)!;
    const pictures = [...track.syncSamples!].map((k) =>
      streamPicture(bytes.subarray(offsets[k], offsets[k]! + sizes[k]!), form)!,
    );
    const shape = ["-vf", "scale=64:36:flags=area,format=gray", "-fps_mode", "passthrough", "-f", "rawvideo", "-"];
    const found = execFileSync(testTools().ffmpeg, ["-v", "error", "-f", form.format, "-i", "pipe:0", ...shape], {
      input: Buffer.concat([form.head, ...pictures]),
    });
    const wanted = execFileSync(testTools().ffmpeg, ["-v", "error", "-skip_frame", "nokey", "-i", path, ...shape]);
    expect(pictures.length).toBeGreaterThan(5);
    expect(found.equals(wanted)).toBe(true);
  });

  it("is not tried where the description is damaged or of another coding", () => {
    expect(streamForm({ format: "mp4v", bytes: new Uint8Array(100) })).toBeNull();
    const lying = new Uint8Array(70 + 8 + 8);
    lying.set([0, 0, 0, 16, 0x61, 0x76, 0x63, 0x43, 1, 66, 0, 30, 255, 225, 255, 255], 70);
    expect(streamForm({ format: "avc1", bytes: lying })).toBeNull();
    expect(
      streamPicture(Uint8Array.of(0, 0, 0, 99, 1), { format: "h264", head: new Uint8Array(0), lengthBytes: 4 }),
    ).toBeNull();
  });
});
