import { join } from "node:path";
import { expect, test } from "vitest";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { PRESETS } from "../../main/contract/presets.ts";
import { renderFilm } from "../../main/render/renderFilm.edge.ts";
import { testTools } from "../support/tools.ts";
import { runProgram, scratchFolder, writeNumberedClip } from "../support/video.ts";
import { countingRide, filmOf, layoutOptionsFor, quietContext, shotOf } from "./filmFixtures.ts";

test("a drawing is on the picture while it is held, and neither before nor after", { timeout: 120_000 }, async () => {
  const tools = testTools();
  const scratch = await scratchFolder();
  try {
    const path = join(scratch.path, "clip.mp4");
    await writeNumberedClip(
      path,
      { widthPx: 640, heightPx: 360, frames: 90, rate: "30/1", sound: "anoisesrc=r=48000:d=3:a=0.1" },
      tools,
    );
    const clip = await probeClip(path, "c1", tools);
    const render = async (name: string, drawn: boolean): Promise<(frame: number) => Promise<Uint8Array>> => {
      const drawings = drawn
        ? [
            {
              shape: "ring" as const,
              points: [
                { x: 0.5, y: 0.35 },
                { x: 0.6, y: 0.35 },
              ],
              text: null,
              startS: 1,
              endS: 2,
            },
          ]
        : [];
      const film = filmOf(clip, [shotOf(clip, 0, 2, { freezes: [{ atMediaS: 1, durationS: 1 }], drawings })]);
      const outPath = join(scratch.path, `${name}.mp4`);
      const job = {
        film,
        clips: [clip],
        columns: countingRide(400),
        outPath,
        preset: PRESETS.draft,
        layoutOptions: layoutOptionsFor(film.widthPx, film.heightPx),
        cacheDir: join(scratch.path, "cache"),
      };
      const result = await renderFilm(job, tools, quietContext());
      if (result.kind !== "done") throw new Error(JSON.stringify(result));
      return (frame) =>
        runProgram(tools.ffmpeg, [
          "-v",
          "error",
          "-i",
          outPath,
          "-vf",
          `select=eq(n\\,${frame}),scale=64:36,format=gray`,
          "-frames:v",
          "1",
          "-f",
          "rawvideo",
          "pipe:1",
        ]);
    };
    const [plain, drawn] = [await render("plain", false), await render("drawn", true)];
    const apart = async (frame: number): Promise<number> => {
      const [a, b] = [await plain(frame), await drawn(frame)];
      return Math.max(...a.map((value, at) => Math.abs(value - b[at]!)));
    };
    for (const frame of [10, 25, 65, 85]) expect(await apart(frame), `frame ${frame}`).toBeLessThan(12);
    for (const frame of [33, 45, 57]) expect(await apart(frame), `frame ${frame}`).toBeGreaterThan(25);
  } finally {
    await scratch.remove();
  }
});
