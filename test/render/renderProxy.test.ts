import { readdir } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { filmstripCount, filmstripThere, renderFilmstrip } from "../../main/render/renderFilmstrip.edge.ts";
import { renderProxy } from "../../main/render/renderProxy.edge.ts";
import { testTools } from "../support/tools.ts";
import { frameNumber, lumaFrames, scratchFolder, writeNumberedClip, type NumberedClip } from "../support/video.ts";

const tools = testTools();
const signal = new AbortController().signal;
const CLIPS: Readonly<Record<string, NumberedClip>> = {
  "25 a second with sound": { widthPx: 320, heightPx: 192, frames: 90, rate: "25", sound: "sine=frequency=400" },
  "29.97 a second": { widthPx: 320, heightPx: 192, frames: 90, rate: "30000/1001" },
  "variable rate": { widthPx: 320, heightPx: 192, frames: 90, rate: "25", times: "N*3600+mod(N,3)*700" },
};

describe("a proxy of a run of frames", () => {
  let scratch: Awaited<ReturnType<typeof scratchFolder>>;
  beforeAll(async () => (scratch = await scratchFolder()));
  afterAll(() => scratch.remove());

  for (const [name, made] of Object.entries(CLIPS)) {
    it.each([
      [0, 90],
      [0, 25],
      [31, 40],
      [89, 1],
    ])(
      `shows exactly those frames, each a keyframe, at their own times: ${name}, from %i, %i`,
      async (firstFrame, frames) => {
        const path = join(scratch.path, "clip.mp4");
        await writeNumberedClip(path, made, tools);
        const clip = await probeClip(path, "clip1", tools);
        const outPath = join(scratch.path, "proxies", "one.mp4");
        await renderProxy({ clip, firstFrame, frames, outPath, signal, onFrames: () => undefined }, tools);
        const proxy = await probeClip(outPath, "proxy", tools);
        expect(proxy.frames.keyframes.length).toBe(frames);
        const startS = clip.frames.ticks[firstFrame]! / clip.frames.timescale;
        for (let k = 0; k < frames; k++) {
          const wanted = clip.frames.ticks[firstFrame + k]! / clip.frames.timescale - startS;
          expect(Math.abs(proxy.frames.ticks[k]! / proxy.frames.timescale - wanted)).toBeLessThan(1e-4);
        }
        const shown = (await lumaFrames(outPath, 320, 192, tools)).map((luma) => frameNumber(luma, 320));
        expect(shown).toEqual(Array.from({ length: frames }, (_, k) => firstFrame + k));
        expect((await readdir(join(scratch.path, "proxies"))).filter((file) => file !== "one.mp4")).toEqual([]);
      },
    );
  }

  it("leaves nothing when it is stopped", async () => {
    const path = join(scratch.path, "clip.mp4");
    await writeNumberedClip(path, CLIPS["29.97 a second"]!, tools);
    const clip = await probeClip(path, "clip1", tools);
    const abort = new AbortController();
    abort.abort();
    const outPath = join(scratch.path, "stopped", "one.mp4");
    await expect(
      renderProxy({ clip, firstFrame: 0, frames: 90, outPath, signal: abort.signal, onFrames: () => undefined }, tools),
    ).rejects.toMatchObject({ name: "Cancelled" });
    expect(await readdir(join(scratch.path, "stopped"))).toEqual([]);
  });

  it("small pictures come one each step, counted as they come", async () => {
    const path = join(scratch.path, "clip.mp4");
    await writeNumberedClip(path, { widthPx: 320, heightPx: 192, frames: 125, rate: "25" }, tools);
    const clip = await probeClip(path, "clip1", tools);
    const folder = join(scratch.path, "strip");
    const counts: number[] = [];
    expect(await filmstripThere(folder)).toBeNull();
    await renderFilmstrip(clip, folder, tools, { signal, report: () => undefined }, (count) => counts.push(count));
    expect(await filmstripThere(folder)).toBe(filmstripCount(clip.durationS));
    expect(counts.at(-1)).toBe(5);
    expect(counts).toEqual([...counts].sort((a, b) => a - b));
  });
});
