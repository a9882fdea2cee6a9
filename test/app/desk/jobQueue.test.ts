import { describe, expect, it } from "vitest";
import { JobQueue, type JobOrder } from "../../../main/app/desk/jobQueue.ts";
import { Failure } from "../../../main/contract/failure.ts";
import { Cancelled, type JobContext } from "../../../main/contract/job.ts";

function queue(): JobQueue {
  return new JobQueue({ changed: () => undefined, progressed: () => undefined });
}

function order(name: string, run: JobOrder["run"], more: Partial<JobOrder> = {}): JobOrder {
  return { what: "film", title: { of: "files", count: 1, first: name }, background: false, run, ...more };
}

/** Waits for the signal, as a long job does. */
function untilStopped({ signal }: JobContext): Promise<never> {
  return new Promise((_, reject) => signal.addEventListener("abort", () => reject(new Cancelled()), { once: true }));
}

describe("the queue of jobs", () => {
  it("runs one at a time, those a person waits for first, and light ones beside", async () => {
    const jobs = queue();
    const order_: string[] = [];
    let running = 0;
    const step = (name: string) => async (): Promise<void> => {
      running += 1;
      expect(running).toBe(1);
      order_.push(name);
      await new Promise((done) => setTimeout(done, 5));
      running -= 1;
    };
    const first = jobs.add(order("first", step("first")));
    jobs.add(order("behind", step("behind"), { background: true }));
    const asked = jobs.add(order("asked", step("asked")));
    const light = jobs.add(order("light", () => Promise.resolve(void order_.push("light")), { beside: true }));
    expect((await light.settled).state).toBe("done");
    await asked.settled;
    await first.settled;
    await expect.poll(() => order_).toEqual(["first", "light", "asked", "behind"]);
  });

  it("lets background work give way and begin again", async () => {
    const jobs = queue();
    let begun = 0;
    const behind = jobs.add(
      order("behind", async (context) => void (++begun === 1 ? await untilStopped(context) : undefined), {
        background: true,
      }),
    );
    const asked = jobs.add(
      order("asked", () => Promise.resolve({ folderId: "f", written: ["film.mp4"], warnings: [] })),
    );
    expect(await asked.settled).toMatchObject({ state: "done", folderId: "f", written: ["film.mp4"] });
    expect((await behind.settled).state).toBe("done");
    expect(begun).toBe(2);
  });

  it("makes what a person looks at beside a long job, one such at a time, and everything else after it", async () => {
    const jobs = queue();
    const begun: string[] = [];
    const ends = new Map<string, () => void>();
    const held = (name: string) => () =>
      new Promise<void>((done) => {
        begun.push(name);
        ends.set(name, done);
      });
    const film = jobs.add(order("film", held("film")));
    const strip = jobs.add(order("strip", held("strip"), { background: true }));
    const near = jobs.add(order("near", held("near"), { background: true, soon: true, what: "proxies" }));
    const far = jobs.add(order("far", held("far"), { background: true, soon: true, what: "proxies" }));
    jobs.add(order("like the film", held("like the film"), { background: true, soon: true }));
    expect(begun).toEqual(["film", "near"]);
    ends.get("near")!();
    await near.settled;
    await expect.poll(() => begun).toEqual(["film", "near", "far"]);
    ends.get("film")!();
    await film.settled;
    expect(begun).toEqual(["film", "near", "far"]);
    ends.get("far")!();
    await far.settled;
    await expect.poll(() => begun).toEqual(["film", "near", "far", "strip"]);
    expect(begun).not.toContain("like the film");
    ends.get("strip")!();
    expect((await strip.settled).state).toBe("done");
  });

  it("cancels what runs and what waits; a failure is data without a stack", async () => {
    const jobs = queue();
    const running = jobs.add(order("running", untilStopped));
    const waiting = jobs.add(order("waiting", () => Promise.reject(new Error("never begun"))));
    await jobs.cancel(waiting.id);
    await jobs.cancel(running.id);
    await jobs.cancel("unknown");
    expect([(await running.settled).state, (await waiting.settled).state]).toEqual(["cancelled", "cancelled"]);
    const failed = await jobs.add(order("failed", () => Promise.reject(new Failure("disk-full", { path: "/films" }))))
      .settled;
    expect(failed).toMatchObject({
      state: "failed",
      failure: { code: "disk-full", notice: { code: "disk-full", facts: { path: "/films" } }, causes: [] },
    });
    const broken = await jobs.add(order("broken", () => Promise.reject(new TypeError("x is not a function")))).settled;
    expect(JSON.stringify(broken)).not.toContain("at ");
    expect(broken.failure?.code).toBe("internal");
  });

  it("reports at most five times a second, however much there is to say", async () => {
    let nowMs = 7;
    const toldMs: number[] = [];
    const jobs = new JobQueue({ changed: () => undefined, progressed: () => void toldMs.push(nowMs) }, () => nowMs);
    await jobs.add(
      order("chatty", ({ report }) => {
        for (let k = 0; k < 300; k++, nowMs += 4) report({ done: k / 300, leftS: null, step: { what: "joining" } });
        return Promise.resolve();
      }),
    ).settled;
    expect(toldMs).toEqual([7, 207, 407, 607, 807, 1007]);
  });

  it("keeps the list of what is finished short", async () => {
    const jobs = queue();
    for (let k = 0; k < 40; k++) await jobs.add(order(String(k), () => Promise.resolve())).settled;
    expect(jobs.views().length).toBeLessThanOrEqual(20);
    expect(jobs.views().at(-1)?.title).toMatchObject({ first: "39" });
  });
});
