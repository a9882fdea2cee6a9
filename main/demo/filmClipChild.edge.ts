/**
 * The filming child: films the clip that its first message describes. A process of its own, so that two clips are drawn
 * at once and the memory allocator can be told to keep picture-sized buffers. Started by `filmClips`; ends early when
 * its line does.
 */
import { Failure } from "../contract/failure.ts";
import { ownLine } from "../host/ownLine.edge.ts";
import { filmClip } from "./filmClip.edge.ts";
import type { FilmOrder, FilmReport } from "./filmOrder.ts";
import { demoRide } from "./rideModel.ts";

const FRAMES_A_REPORT = 15;

const line = ownLine();
const messages = line.messages[Symbol.asyncIterator]();
const first = await messages.next();
if (first.done === true) process.exit(1);
const order = JSON.parse(Buffer.from(first.value).toString("utf8")) as FilmOrder;
const stop = new AbortController();
// Nothing more is said; what comes is the end.
void messages.next().then(() => stop.abort());
process.once("SIGTERM", () => stop.abort());

const tell = (report: FilmReport): Promise<void> => line.send(Buffer.from(JSON.stringify(report), "utf8"));
let frames = 0;
let code = 0;
try {
  await filmClip(demoRide(order.seed), order.clip, order.outDir, order.picture, order.tools, stop.signal, () => {
    if (++frames % FRAMES_A_REPORT === 0) void tell({ frames });
  });
  await tell({ frames });
} catch (error) {
  if (error instanceof Failure) await tell({ failure: error.data() });
  else if (!stop.signal.aborted) console.error(error);
  code = 1;
}
process.exit(code);
