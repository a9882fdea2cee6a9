import { copyFileSync, mkdirSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { companionClip } from "../../main/footage/companionClip.edge.ts";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { cachedSignals } from "../../main/footage/signals/cachedSignals.edge.ts";
import { testTools } from "../support/tools.ts";
import { ffmpeg, scratchFolder } from "./makeClip.ts";

const folder = scratchFolder();
const made = (name: string, size: string, durationS = 4, created = "2026-05-16T10:00:00Z", rate = "30000/1001") => {
  ffmpeg(
    "-f",
    "lavfi",
    "-i",
    `testsrc2=size=${size}:rate=${rate}:duration=${durationS}`,
    "-c:v",
    "libx264",
    "-preset",
    "ultrafast",
    "-g",
    "15",
    "-pix_fmt",
    "yuv420p",
    "-metadata",
    `creation_time=${created}`,
    "-f",
    "mp4",
    "-y",
    join(folder, name),
  );
  return join(folder, name);
};

const big = await probeClip(made("bars0007.mp4", "1280x720"), "7", testTools());
made("bars0008.low", "320x180");
made("bars0007.two", "320x180", 4.5);
made("low0007.day", "320x180", 4, "2026-05-17T10:00:00Z");
made("bars0007.twin", "1280x720");

describe("the small clip beside a big one", () => {
  it("is not one of another number, length, day or of the same size", async () => {
    expect(await companionClip(big)).toBeNull();
  });

  it("is found by what it holds, whatever its ending, and read instead of the big one", async () => {
    const small = made("low0007.low", "320x180");
    expect(await companionClip(big)).toMatchObject({
      path: small,
      id: "7",
      fileName: "bars0007.mp4",
      codedWidthPx: 320,
      videoCodec: "h264",
      fingerprint: big.fingerprint,
    });
    const { signals, kept } = await cachedSignals(big, testTools(), join(folder, "cache"), { turningFelt: false });
    expect(kept).toBe(false);
    expect(signals).toMatchObject({ clipId: "7" });
    expect(signals.motion!.some(Number.isFinite)).toBe(true);
    // Less was read than the big clip holds.
    expect(signals.bytesRead!).toBeLessThan(big.bytes / 2);
  });

  it("is not a text of the same name", async () => {
    mkdirSync(join(folder, "apart"));
    copyFileSync(big.path, join(folder, "apart", "bars0007.mp4"));
    copyFileSync(join(import.meta.dirname, "makeClip.ts"), join(folder, "apart", "bars0007.txt"));
    expect(await companionClip({ ...big, path: join(folder, "apart", "bars0007.mp4") })).toBeNull();
  });
});
