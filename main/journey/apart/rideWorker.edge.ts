// Reads and judges rides away from the program's event loop. It keeps the rides it has read, by path.
import { parentPort } from "node:worker_threads";
import type { Ride } from "../../contract/ride.ts";
import { judgeDebrief } from "../judge.ts";
import { readRide } from "../../ride/readRide.edge.ts";
import { Failure, firstLineOf, type FailureData } from "../../contract/failure.ts";
import type { RideAnswer, RideQuestion } from "./rideMessages.ts";

const rides = new Map<string, Ride>();
/** So many of the last are kept; one of before is read again. */
const MOST_KEPT = 8;

async function readAndKeep(path: string): Promise<Ride> {
  const ride = await readRide(path);
  rides.delete(path);
  rides.set(path, ride);
  const [oldest] = rides.keys();
  if (rides.size > MOST_KEPT && oldest !== undefined) rides.delete(oldest);
  return ride;
}

async function answer(question: RideQuestion): Promise<RideAnswer> {
  const { id } = question;
  if (question.kind === "read") {
    return { id, ride: await readAndKeep(question.path) };
  }
  if (question.kind === "keep") {
    for (const path of rides.keys()) if (!question.paths.includes(path)) rides.delete(path);
    return { id, kept: true };
  }
  const ride = rides.get(question.path) ?? (await readAndKeep(question.path));
  const { plan, reading, facts, summary } = judgeDebrief(ride, question.document, question.known);
  return { id, judged: { plan, reading, facts, summary } };
}

function dataOf(error: unknown): FailureData {
  if (error instanceof Failure) return error.data();
  return new Failure("internal", { said: firstLineOf(error) }, error).data();
}

parentPort?.on("message", (question: RideQuestion) => {
  answer(question)
    .catch((error: unknown): RideAnswer => ({ id: question.id, failure: dataOf(error) }))
    .then((reply) => parentPort?.postMessage(reply))
    .catch(() => undefined);
});
