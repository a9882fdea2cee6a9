import { dirname } from "node:path";
import { Failure } from "../contract/failure.ts";
import { fitFor } from "../contract/presets.ts";
import type { JobContext, JobResult } from "../contract/job.ts";
import type { Tools } from "../contract/tools.ts";
import { layoutFor } from "../../overlay/layout/layout.ts";
import { makeFolder } from "../host/makeFolder.edge.ts";
import { makeAtomic } from "../host/writeAtomic.edge.ts";
import { jobResult } from "./jobResult.edge.ts";
import { startPaintClient } from "./paintClient.edge.ts";
import { planPart } from "./planFilm.ts";
import { partAround } from "./planParts.ts";
import { checkClips, paintSetup, panelJob, type FilmJob } from "./renderFilm.edge.ts";
import { preparedGraph, runGraph, scratchFiles } from "./renderPart.edge.ts";

export interface StillJob extends Pick<
  FilmJob,
  "film" | "clips" | "columns" | "preset" | "layoutOptions" | "fit" | "paging"
> {
  /** Film time, s. */
  readonly atS: number;
  readonly outPath: string;
}

export interface RenderedStill {
  readonly path: string;
  readonly frame: number;
}

/** One frame of the film, drawn as the film draws it, as PNG. A time past either end takes the nearest frame. */
export function renderStill(job: StillJob, tools: Tools, context: JobContext): Promise<JobResult<RenderedStill>> {
  return jobResult(async () => {
    const { film, outPath } = job;
    if (film.items.length === 0) throw new Failure("film-empty", {});
    const { part, frame } = partAround(film, job.atS);
    await checkClips(job, tools);
    await makeFolder(dirname(outPath));
    const setup = paintSetup(job);
    const layout = layoutFor(setup.layoutOptions);
    const plan = planPart(panelJob(job, layout), part);
    const paint = startPaintClient(setup, tools, context.signal);
    const pick = `trim=start_frame=${frame - part.startFrame},scale=in_color_matrix=bt709:in_range=tv:out_range=pc,format=rgb24`;
    try {
      await makeAtomic(outPath, async (unfinished) => {
        const scratch = scratchFiles(unfinished);
        try {
          const fit = job.fit ?? fitFor(job.preset, null, null);
          const graph = await preparedGraph({ film, plan, layout, fit, paint }, scratch, null, tools);
          await runGraph({
            job: { film, plan, paint, signal: context.signal },
            pixels: "yuva420p",
            graph: {
              ...graph,
              filterGraph: `${graph.filterGraph};[${graph.videoLabel}]${pick}[still]`,
              videoLabel: "still",
            },
            outputOptions: ["-map", "[still]", "-frames:v", "1", "-c:v", "png", "-f", "image2pipe"],
            output: unfinished,
            frames: 1,
            onFrames: () => undefined,
            tools,
          });
        } finally {
          await scratch.remove();
        }
      });
    } finally {
      paint.close();
    }
    return { path: outPath, frame };
  });
}
