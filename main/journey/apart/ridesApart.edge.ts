import { Worker } from "node:worker_threads";
import { Failure } from "../../contract/failure.ts";
import type { FailureNotice } from "../../contract/notice.ts";
import type { Ride } from "../../contract/ride.ts";
import type { JudgedParts, RideWork } from "../host.ts";
import type { KnownOfRider, ReadOutcome } from "../judge.ts";
import { projectFile } from "../../host/projectFile.edge.ts";
import type { RideAnswer, RideQuestion } from "./rideMessages.ts";

type Asked<Q> = Q extends RideQuestion ? Omit<Q, "id"> : never;

/** Reads and judges rides in a worker thread of its own, started when first asked. */
export class RidesApart implements RideWork {
  private worker: Worker | null = null;
  private asked = 0;
  private readonly open = new Map<number, { resolve: (answer: RideAnswer) => void; reject: (error: Error) => void }>();

  /** A ride from its file. Failures as `readRide`. */
  async read(path: string): Promise<Ride> {
    const answer = await this.ask({ kind: "read", path });
    if (!("ride" in answer)) throw new Error("unexpected answer");
    return answer.ride;
  }

  /** A ride read before, judged by a document and what is known of the rider. */
  async judge(
    path: string,
    ride: Ride,
    { plan, overrides, ownMoments }: JudgedParts,
    known: KnownOfRider,
  ): Promise<ReadOutcome> {
    const answer = await this.ask({ kind: "judge", path, document: { plan, overrides, ownMoments }, known });
    if (!("judged" in answer)) throw new Error("unexpected answer");
    return { ...answer.judged, ride };
  }

  /** Drops the rides read so far but these. */
  async keep(paths: readonly string[]): Promise<void> {
    if (this.worker !== null) await this.ask({ kind: "keep", paths });
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
      if ("failure" in answer) waiting?.reject(failureFrom(answer.failure));
      else waiting?.resolve(answer);
    });
    const ended = (why: string): void => {
      if (this.worker === worker) this.worker = null;
      for (const { reject } of this.open.values()) reject(new Failure("ride-reading-broke-off", { said: why }));
      this.open.clear();
    };
    worker.on("error", (error) => ended(error instanceof Error ? error.message : String(error)));
    worker.on("exit", () => ended("its thread ended"));
    return worker;
  }
}

/** A notice that crossed a thread as the Failure it was. */
function failureFrom({ code, facts }: FailureNotice): Failure {
  return new Failure(...([code, facts] as unknown as ConstructorParameters<typeof Failure>));
}
