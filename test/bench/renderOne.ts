/**
 * One job of the render bench, in a process of its own so that all its processor time can be counted: the frames of a
 * clip encoded as `share` does or only decoded, with panels or without. Arguments: clip, frames, `plain` or `panels`,
 * `x264` or `none`.
 */
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { encodingFor } from "../../main/render/encoding.ts";
import { startPaintClient } from "../../main/render/paintClient.edge.ts";
import { planPart } from "../../main/render/planFilm.ts";
import { PRESETS } from "../../main/contract/presets.ts";
import { paintSetup, panelJob } from "../../main/render/renderFilm.edge.ts";
import { preparedGraph, runGraph, scratchFiles } from "../../main/render/renderPart.edge.ts";
import { layoutFor } from "../../overlay/layout/layout.ts";
import { countingRide, filmOf, layoutOptionsFor, shotOf } from "../render/filmFixtures.ts";
import { testTools } from "../support/tools.ts";

const [path = "", frameCount = "0", kind = "plain", encoder = "x264"] = process.argv.slice(2);
const frames = Number(frameCount);
const tools = testTools();
const clip = await probeClip(path, "c1", tools);
const film = filmOf(clip, [shotOf(clip, 0, (frames * clip.frameRate.den) / clip.frameRate.num)]);
const job = {
  film,
  clips: [clip],
  columns: countingRide(600),
  preset: PRESETS.share,
  layoutOptions: layoutOptionsFor(film.widthPx, film.heightPx),
};
const setup = paintSetup(job);
const layout = layoutFor(setup.layoutOptions);
const { signal } = new AbortController();
const part = { startFrame: 0, frames, pieces: [{ item: 0, firstFrame: 0, frames, crossfadeFrames: 0 }] };
const planned = planPart({ ...panelJob(job, layout), hasPanels: kind === "panels" }, part);
const paint =
  kind === "panels"
    ? startPaintClient(setup, {}, signal)
    : {
        paint: () => Promise.reject(new Error("nothing to paint")),
        guard: () => () => undefined,
        close: () => undefined,
      };
const graph = await preparedGraph({ film, plan: planned, layout, fit: "pad", paint }, scratchFiles(path), null, tools);
await runGraph({
  job: { film, plan: planned, paint, signal },
  pixels: "yuva420p",
  graph,
  outputOptions: [
    "-map",
    `[${graph.videoLabel}]`,
    ...(encoder === "none" ? [] : encodingFor(PRESETS.share, "libx264", 1).options),
    "-f",
    "null",
  ],
  output: "-",
  frames,
  onFrames: () => undefined,
  tools,
});
paint.close();
