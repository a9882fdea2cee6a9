// Reads and judges rides away from the program's event loop. It keeps the rides it has read, by id.
import { parentPort } from "node:worker_threads";
import type { Ride } from "../../contract/ride.ts";
import { judgeDebrief } from "../../journey/debriefStanding.ts";
import { readTelemetry } from "../../footage/telemetry/readTelemetry.edge.ts";
import { placeClips } from "../../lineup/placeClips.ts";
import { readRide } from "../../ride/readRide.edge.ts";
import { failureData } from "./failureData.ts";
import type { RideAnswer, RideQuestion } from "./rideMessages.ts";

const rides = new Map<string, Ride>();

async function answer(question: RideQuestion): Promise<RideAnswer> {
  const { id } = question;
  if (question.kind === "read") {
    const ride = await readRide(question.path);
    rides.set(question.rideId, ride);
    return { id, ride };
  }
  if (question.kind === "forget") {
    rides.clear();
    return { id, forgotten: true };
  }
  const ride = rides.get(question.rideId);
  if (ride === undefined) throw new Error(`ride ${question.rideId} was not read`);
  if (question.kind === "place") {
    const { what } = question;
    const telemetry = [];
    for (const clip of what.clips) {
      const found = clip.hasTelemetry ? await readTelemetry(clip) : null;
      if (found) telemetry.push(found);
    }
    return { id, lineup: placeClips({ ride, ...what, telemetry }) };
  }
  const { plan, reading, summary, json, lines } = judgeDebrief(ride, question.document, question.known);
  return { id, judged: { plan, reading, summary, json, lines } };
}

parentPort?.on("message", (question: RideQuestion) => {
  answer(question)
    .catch((error: unknown): RideAnswer => ({ id: question.id, failure: failureData(error) }))
    .then((reply) => parentPort?.postMessage(reply))
    .catch(() => undefined);
});
