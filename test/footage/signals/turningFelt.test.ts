// A camera whose own sensors tell how it turns spares the decoding of pictures for that.
import { join } from "node:path";
import { expect, test } from "vitest";
import { cachedSignals, keptSignals } from "../../../main/footage/signals/cachedSignals.edge.ts";
import { probeClip } from "../../../main/footage/probeClip.edge.ts";
import { testTools } from "../../support/tools.ts";
import { ffmpeg, scratchFolder } from "../makeClip.ts";

const folder = scratchFolder();

test("of a long clip keyframes alone are looked at, and what was seen so is kept apart", async () => {
  const path = join(folder, "long.mp4");
  const source = "testsrc2=size=128x72:rate=10:duration=640,crop=96:54:16+12*sin(t):9";
  const coding = ["-c:v", "libx264", "-preset", "ultrafast", "-g", "10", "-pix_fmt", "yuv420p"];
  ffmpeg("-f", "lavfi", "-i", source, "-f", "lavfi", "-i", "anoisesrc=d=640:r=8000", ...coding, "-c:a", "aac", path);
  const tools = testTools();
  const clip = await probeClip(path, "a", tools);
  const cache = join(folder, "cache");
  const seen = await cachedSignals(clip, tools, cache, { turningFelt: false });
  const felt = await cachedSignals(clip, tools, cache, { turningFelt: true });
  expect(seen.signals.turning!.filter(Number.isFinite).length).toBeGreaterThan(1000);
  expect(felt.kept).toBe(false);
  expect(felt.signals.turning).toBeNull();
  expect(felt.signals.motion).toEqual(seen.signals.motion);
  expect(felt.signals.sound!.filter(Number.isFinite).length).toBeGreaterThan(2000);
  expect(felt.signals.bytesRead!).toBeLessThan(0.8 * seen.signals.bytesRead!);
  expect((await keptSignals(clip, cache, true))?.turning).toBeNull();
  expect((await keptSignals(clip, cache, false))?.turning).not.toBeNull();
});
