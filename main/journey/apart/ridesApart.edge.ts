import { Worker } from "node:worker_threads";
import { basename } from "node:path";
import { Failure } from "../../contract/failure.ts";
import { Cancelled } from "../../contract/job.ts";
import type { Ride } from "../../contract/ride.ts";
import type { JudgedParts, RideWork } from "../host.ts";
import type { RoadBefore } from "../../contract/roads.ts";
import type { EarlierRide } from "../earlierRides.ts";
import type { KnownOfRider, ReadOutcome } from "../judge.ts";
import { projectFile } from "../../host/projectFile.edge.ts";
import type { RideAnswer, RideQuestion } from "./rideMessages.ts";

type Asked<Q> = Q extends RideQuestion ? Omit<Q, "id"> : never;
/** A question about a ride, which is put in. */
type AskedOf<Q> = Q extends { readonly ride: unknown } ? Omit<Q, "of" | "ride"> : never;

/** What the thread may hold beside a ride's columns, MB: a file that needs more is made to fill the memory. */
const MOST_HEAP_MB = 800;

/** Reads and judges rides in a worker thread of its own, started when first asked; it is ended by the signal, whatever it works on. */
export class RidesApart implements RideWork {
  private worker: Worker | null = null;
  private asked = 0;
  /** By what number the worker knows a ride. */
  private readonly numbers = new WeakMap<Ride, number>();
  private rides = 0;
  private readonly open = new Map<
    number,
    { resolve: (answer: RideAnswer) => void; reject: (error: Error) => void; path: string | null }
  >();

  /** @param mostHeapMb for tests */
  constructor(
    private readonly signal: AbortSignal | null = null,
    private readonly mostHeapMb = MOST_HEAP_MB,
  ) {
    signal?.addEventListener("abort", () => {
      this.rejectAll(() => new Cancelled());
      void this.close();
    });
  }

  /** A ride from its file. Failures as `readRide`. */
  async read(path: string): Promise<Ride> {
    const of = ++this.rides;
    const answer = await this.ask({ kind: "read", path, of });
    if (!("ride" in answer)) throw new Error("unexpected answer");
    this.numbers.set(answer.ride, of);
    return answer.ride;
  }

  /** Just this ride, whatever lies at its path by now, judged by a document and what is known of the rider. */
  async judge(
    path: string,
    ride: Ride,
    { plan, overrides, ownMoments }: JudgedParts,
    known: KnownOfRider,
  ): Promise<ReadOutcome> {
    const answer = await this.askOf(ride, { kind: "judge", path, document: { plan, overrides, ownMoments }, known });
    if (!("judged" in answer)) throw new Error("unexpected answer");
    return { ...answer.judged, ride };
  }

  /** Earlier rides over the roads of this one. */
  async roads(path: string, ride: Ride, earlier: readonly EarlierRide[]): Promise<readonly RoadBefore[]> {
    const asked = earlier.map(({ document: { plan, overrides, ownMoments }, ...rest }) => ({
      ...rest,
      document: { plan, overrides, ownMoments },
    }));
    const answer = await this.askOf(ride, { kind: "roads", path, earlier: asked });
    if (!("roads" in answer)) throw new Error("unexpected answer");
    return answer.roads;
  }

  /** Asks about a ride, which is sent along where the worker does not have it. */
  private async askOf(ride: Ride, question: AskedOf<Asked<RideQuestion>>): Promise<RideAnswer> {
    const before = this.numbers.get(ride);
    const of = before ?? ++this.rides;
    this.numbers.set(ride, of);
    const answer = await this.ask({ ...question, of, ride: before === undefined ? ride : null });
    return "kept" in answer ? this.ask({ ...question, of, ride }) : answer;
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
    if (this.signal?.aborted) return Promise.reject(new Cancelled());
    const worker = (this.worker ??= this.start());
    // The program stays as long as it waits for an answer.
    worker.ref();
    const id = ++this.asked;
    return new Promise((resolve, reject) => {
      this.open.set(id, { resolve, reject, path: "path" in question ? question.path : null });
      worker.postMessage({ id, ...question });
    });
  }

  private start(): Worker {
    const worker = new Worker(projectFile("dist", "rideWorker.mjs"), {
      resourceLimits: { maxOldGenerationSizeMb: this.mostHeapMb },
    });
    worker.unref();
    worker.on("message", (answer: RideAnswer) => {
      const waiting = this.open.get(answer.id);
      this.open.delete(answer.id);
      if (this.open.size === 0) worker.unref();
      if ("failure" in answer) waiting?.reject(Failure.from(answer.failure));
      else waiting?.resolve(answer);
    });
    const ended = (why: (path: string | null) => Failure): void => {
      if (this.worker !== worker) return;
      this.worker = null;
      this.rejectAll(why);
    };
    const brokeOff = (said: string) => new Failure("ride-reading-broke-off", { said });
    worker.on("error", (error: Error & { code?: string }) =>
      ended((path) =>
        error.code === "ERR_WORKER_OUT_OF_MEMORY" && path !== null
          ? new Failure("ride-needs-memory", { fileName: basename(path) })
          : brokeOff(error.message),
      ),
    );
    worker.on("exit", () => ended(() => brokeOff("its thread ended")));
    return worker;
  }

  private rejectAll(why: (path: string | null) => Error): void {
    for (const { reject, path } of this.open.values()) reject(why(path));
    this.open.clear();
  }
}
