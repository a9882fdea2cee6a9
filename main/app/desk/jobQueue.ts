import { randomBytes } from "node:crypto";
import type { JobTitle, JobView } from "../../contract/debriefApi.ts";
import type { Notice } from "../../contract/notice.ts";
import { Cancelled, type JobContext, type Progress } from "../../contract/job.ts";
import { logEvent } from "../../host/log.edge.ts";
import { failureData } from "./failureData.ts";

/** Progress crosses to the window at most so often, ms. */
const REPORT_EVERY_MS = 200;
/** Finished jobs are listed up to so many. */
const FINISHED_KEPT = 20;

/** What a job leaves for the window. */
interface JobYield {
  readonly folderId: string | null;
  readonly written: readonly string[];
  readonly warnings: readonly Notice[];
}

export interface JobOrder {
  readonly what: JobView["what"];
  readonly title: JobTitle;
  /** Folder of the debrief that it goes on for when another comes on the desk. */
  readonly debriefFolder?: string;
  /** True: gives way to a job that a person waits for, and begins again after it; what it has made by then must stay. */
  readonly background: boolean;
  /** True, for background work: a person looks at what it makes, so it does not wait for a long job of another kind but runs beside it, one such at a time. */
  readonly soon?: boolean;
  /** True: light work that runs at once beside the queue. */
  readonly beside?: boolean;
  run(context: JobContext): Promise<JobYield | void>;
}

interface Job {
  readonly order: JobOrder;
  view: JobView;
  abort: AbortController;
  /** Told to give way, not cancelled. */
  yielding: boolean;
  readonly settled: Promise<JobView>;
  readonly settle: (view: JobView) => void;
}

/** One queue, one job at a time; those a person waits for come first, and beside one of them runs what a person looks at meanwhile. */
export class JobQueue {
  private readonly jobs: Job[] = [];
  private running: Job | null = null;
  private besideIt: Job | null = null;
  private readonly changed: () => void;
  private readonly progressed: (jobId: string, progress: Progress) => void;
  private readonly nowMs: () => number;

  /** @param nowMs a clock that only goes forward, ms */
  constructor(
    events: {
      readonly changed: () => void;
      readonly progressed: (jobId: string, progress: Progress) => void;
    },
    nowMs: () => number = () => performance.now(),
  ) {
    this.changed = events.changed;
    this.progressed = events.progressed;
    this.nowMs = nowMs;
  }

  views(): readonly JobView[] {
    return this.jobs.map((job) => job.view);
  }

  /** Puts a job in the queue. `settled` gives its last view: done, cancelled or failed. */
  add(order: JobOrder): { readonly id: string; readonly settled: Promise<JobView> } {
    let settle: (view: JobView) => void = () => undefined;
    const settled = new Promise<JobView>((resolve) => (settle = resolve));
    const view: JobView = {
      id: randomBytes(6).toString("hex"),
      what: order.what,
      title: order.title,
      debriefFolder: order.debriefFolder ?? null,
      state: "waiting",
      progress: null,
      failure: null,
      folderId: null,
      written: [],
      warnings: [],
    };
    this.jobs.push({ order, view, abort: new AbortController(), yielding: false, settled, settle });
    if (order.beside) {
      this.begin(this.jobs.at(-1)!);
      return { id: view.id, settled };
    }
    if (!order.background && this.running?.order.background) {
      this.running.yielding = true;
      this.running.abort.abort();
    }
    this.next();
    return { id: view.id, settled };
  }

  /** Ends a job that waits or runs; others are let be. Resolves when it has ended. */
  async cancel(jobId: string): Promise<void> {
    const job = this.jobs.find(({ view }) => view.id === jobId);
    if (job === undefined || (job.view.state !== "waiting" && job.view.state !== "running")) return;
    job.yielding = false;
    job.abort.abort();
    if (job.view.state === "waiting") this.end(job, { state: "cancelled" });
    await job.settled;
  }

  /** Ends every job of these kinds. */
  async cancelAll(kinds: readonly JobView["what"][] | null = null): Promise<void> {
    await Promise.all(
      this.jobs
        .filter(({ view }) => kinds === null || kinds.includes(view.what))
        .map(({ view }) => this.cancel(view.id)),
    );
  }

  private next(): void {
    const waiting = this.jobs.filter(({ view, order }) => view.state === "waiting" && !order.beside);
    if (this.running === null) {
      const asked = waiting.find(({ order }) => !order.background);
      if (asked === undefined && this.besideIt !== null) {
        // It goes on as the one job.
        this.running = this.besideIt;
        this.besideIt = null;
        return;
      }
      const job = asked ?? waiting.at(0);
      if (job === undefined) return;
      this.running = job;
      this.begin(job);
      return this.next();
    }
    if (this.running.order.background || this.besideIt !== null) return;
    // Two of a kind would make the same files.
    const { what } = this.running.order;
    const job = waiting.find(({ order }) => order.background && order.soon && order.what !== what);
    if (job === undefined) return;
    this.besideIt = job;
    this.begin(job);
  }

  private begin(job: Job): void {
    job.abort = new AbortController();
    job.view = { ...job.view, state: "running" };
    logEvent(`${job.order.what} running`);
    this.changed();
    void this.work(job);
  }

  private async work(job: Job): Promise<void> {
    let lastMs = -Infinity;
    const report = (progress: Progress): void => {
      job.view = { ...job.view, progress };
      const nowMs = this.nowMs();
      if (nowMs - lastMs < REPORT_EVERY_MS && progress.done < 1) return;
      lastMs = nowMs;
      this.progressed(job.view.id, progress);
    };
    let outcome: Partial<JobView>;
    try {
      const left = await job.order.run({ signal: job.abort.signal, report });
      outcome = { state: "done", ...left };
    } catch (error) {
      outcome =
        error instanceof Cancelled || job.abort.signal.aborted
          ? { state: "cancelled" }
          : { state: "failed", failure: failureData(error) };
    }
    if (this.running === job) this.running = null;
    if (this.besideIt === job) this.besideIt = null;
    if (outcome.state === "cancelled" && job.yielding) {
      job.yielding = false;
      job.view = { ...job.view, state: "waiting", progress: null };
      this.changed();
    } else this.end(job, outcome);
    this.next();
  }

  private end(job: Job, outcome: Partial<JobView>): void {
    job.view = { ...job.view, ...outcome };
    logEvent(`${job.order.what} ${job.view.state}`);
    const finished = this.jobs.filter(({ view }) => view.state !== "waiting" && view.state !== "running");
    for (const old of finished.slice(0, -FINISHED_KEPT)) this.jobs.splice(this.jobs.indexOf(old), 1);
    job.settle(job.view);
    this.changed();
  }
}
