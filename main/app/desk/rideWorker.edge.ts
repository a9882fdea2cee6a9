// Reads and judges rides away from the program's event loop. It keeps the rides it has read, by id.
import { parentPort } from "node:worker_threads";
import type { Ride } from "../../contract/ride.ts";
import { judgeDebrief } from "../../journey/standing.ts";
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
  if (question.kind === "keep") {
    for (const rideId of rides.keys()) if (!question.rideIds.includes(rideId)) rides.delete(rideId);
    return { id, kept: true };
  }
  const ride = rides.get(question.rideId);
  if (ride === undefined) throw new Error(`ride ${question.rideId} was not read`);
  const { plan, reading, summary, json, lines } = judgeDebrief(ride, question.document, question.known);
  return { id, judged: { plan, reading, summary, json, lines } };
}

parentPort?.on("message", (question: RideQuestion) => {
  answer(question)
    .catch((error: unknown): RideAnswer => ({ id: question.id, failure: failureData(error) }))
    .then((reply) => parentPort?.postMessage(reply))
    .catch(() => undefined);
});
