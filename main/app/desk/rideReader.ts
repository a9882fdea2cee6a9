import { Worker } from "node:worker_threads";
import { Failure } from "../../contract/failure.ts";
import type { Ride } from "../../contract/ride.ts";
import type { KnownOfRider } from "../../journey/judge.ts";
import { projectFile } from "../../host/projectFile.edge.ts";
import type { Judged, JudgedParts, RideAnswer, RideQuestion } from "./rideMessages.ts";

type Asked<Q> = Q extends RideQuestion ? Omit<Q, "id"> : never;

/** Reads and judges rides in a worker thread of its own, started when first asked. */
export class RideReader {
  private worker: Worker | null = null;
  private asked = 0;
  private readonly open = new Map<number, { resolve: (answer: RideAnswer) => void; reject: (error: Error) => void }>();

  /** A ride from its file. Failures as `readRide`. */
  async read(rideId: string, path: string): Promise<Ride> {
    const answer = await this.ask({ kind: "read", rideId, path });
    if (!("ride" in answer)) throw new Error("unexpected answer");
    return answer.ride;
  }

  /** A ride read before, judged by a document and what is known of the rider. */
  async judge(rideId: string, { plan, overrides, ownMoments }: JudgedParts, known: KnownOfRider): Promise<Judged> {
    const answer = await this.ask({ kind: "judge", rideId, document: { plan, overrides, ownMoments }, known });
    if (!("judged" in answer)) throw new Error("unexpected answer");
    return answer.judged;
  }

  /** Drops the rides read so far but these. */
  async keep(rideIds: readonly string[]): Promise<void> {
    if (this.worker !== null) await this.ask({ kind: "keep", rideIds });
  }

  async close(): Promise<void> {
    const worker = this.worker;
    this.worker = null;
    await worker?.terminate();
  }

  private ask(question: Asked<RideQuestion>): Promise<RideAnswer> {
    const worker = (this.worker ??= this.start());
    const id = ++this.asked;
    return new Promise((resolve, reject) => {
      this.open.set(id, { resolve, reject });
      worker.postMessage({ id, ...question });
    });
  }

  private start(): Worker {
    const worker = new Worker(projectFile("dist", "rideWorker.mjs"));
    worker.unref();
    worker.on("message", (answer: RideAnswer) => {
      const waiting = this.open.get(answer.id);
      this.open.delete(answer.id);
      if ("failure" in answer)
        waiting?.reject(new Failure(answer.failure.code, answer.failure.sentence, answer.failure.remedy));
      else waiting?.resolve(answer);
    });
    const ended = (why: string): void => {
      if (this.worker === worker) this.worker = null;
      for (const { reject } of this.open.values())
        reject(
          new Failure(
            "internal",
            `Reading the ride was broken off: ${why}.`,
            "Open the files again; if it stays, report it with the line above.",
          ),
        );
      this.open.clear();
    };
    worker.on("error", (error) => ended(error instanceof Error ? error.message : String(error)));
    worker.on("exit", () => ended("its thread ended"));
    return worker;
  }
}
