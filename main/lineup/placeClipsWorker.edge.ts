/**
 * The placing worker: places the clips of its `workerData` (a `PlaceClipsInput`) and answers with the `Lineup`.
 * Holding footage against a whole ride takes seconds, which a window does not have.
 */
import { parentPort, workerData } from "node:worker_threads";
import { placeClips, type PlaceClipsInput } from "./placeClips.ts";

parentPort?.postMessage(placeClips(workerData as PlaceClipsInput));
