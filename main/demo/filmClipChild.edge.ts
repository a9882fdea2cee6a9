/**
 * The filming child: films the clip that its one argument describes. A process of its own, so that two clips are drawn
 * at once and the memory allocator can be told to keep picture-sized buffers. Started by `filmClips`; ends early when
 * its stdin does.
 */
import { Failure } from "../contract/failure.ts";
import { filmClip } from "./filmClip.edge.ts";
import type { FilmOrder, FilmReport } from "./filmOrder.ts";
import { demoRide } from "./rideModel.ts";

const FRAMES_A_REPORT = 15;

const order = JSON.parse(process.argv[2] ?? "null") as FilmOrder;
const stop = new AbortController();
process.stdin.resume().once("end", () => stop.abort());
process.once("SIGTERM", () => stop.abort());

const tell = (report: FilmReport): void => void process.stdout.write(`${JSON.stringify(report)}\n`);
let frames = 0;
try {
  await filmClip(demoRide(order.seed), order.clip, order.outDir, order.picture, order.tools, stop.signal, () => {
    if (++frames % FRAMES_A_REPORT === 0) tell({ frames });
  });
  tell({ frames });
} catch (error) {
  if (error instanceof Failure) tell({ failure: { code: error.code, sentence: error.sentence, remedy: error.remedy } });
  else if (!stop.signal.aborted) console.error(error);
  process.exitCode = 1;
}
process.stdin.destroy();
