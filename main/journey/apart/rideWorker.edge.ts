// Reads and judges rides away from the program's event loop. It keeps the rides it was asked about last.
import { parentPort } from "node:worker_threads";
import type { Ride } from "../../contract/ride.ts";
import { judgeDebrief } from "../judge.ts";
import { roadsBefore } from "../roadsBefore.ts";
import { readRide } from "../../ride/readRide.edge.ts";
import { Failure, firstLineOf, type FailureData } from "../../contract/failure.ts";
import type { RideAnswer, RideQuestion } from "./rideMessages.ts";

const rides = new Map<number, { readonly path: string; readonly ride: Ride }>();
/** So many of the last are kept. */
const MOST_KEPT = 8;

function keep(of: number, path: string, ride: Ride): Ride {
  rides.delete(of);
  rides.set(of, { path, ride });
  const [oldest] = rides.keys();
  if (rides.size > MOST_KEPT && oldest !== undefined) rides.delete(oldest);
  return ride;
}

async function answer(question: RideQuestion): Promise<RideAnswer> {
  const { id } = question;
  if (question.kind === "read") {
    return { id, ride: keep(question.of, question.path, await readRide(question.path)) };
  }
  if (question.kind === "keep") {
    for (const [of, { path }] of rides) if (!question.paths.includes(path)) rides.delete(of);
    return { id, kept: true };
  }
  const ride = question.ride ?? rides.get(question.of)?.ride;
  if (ride === undefined) return { id, kept: false };
  keep(question.of, question.path, ride);
  if (question.kind === "roads") return { id, roads: await roadsBefore(ride, question.earlier, judgeDebrief) };
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
