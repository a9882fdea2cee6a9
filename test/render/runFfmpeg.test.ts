import { join } from "node:path";
import { expect, test } from "vitest";
import { Failure } from "../../main/contract/failure.ts";
import { runFfmpeg, type FfmpegRun } from "../../main/render/runFfmpeg.edge.ts";
import { Cancelled } from "../../main/contract/job.ts";
import { failureSaid } from "../support/said.ts";

const standIn = (name: string): string => join(process.cwd(), "test", "fixtures", "standins", `${name}.mjs`);

function run(name: string, more: Partial<FfmpegRun> = {}): Promise<number> {
  return runFfmpeg({
    ffmpeg: standIn(name),
    args: [],
    subject: { kind: "files", names: ["ride.mp4"] },
    signal: new AbortController().signal,
    ...more,
  });
}

async function failureOf(running: Promise<unknown>): Promise<Failure> {
  const error: unknown = await running.then(
    () => null,
    (reason: unknown) => reason,
  );
  expect(error).toBeInstanceOf(Failure);
  return error as Failure;
}

test("a program that stands still is ended and named", async () => {
  const failure = await failureOf(run("hang", { hungAfterS: 1 }));
  expect(failure.code).toBe("tool-hung");
  expect(failureSaid(failure).sentence).toContain("ride.mp4");
});

test("cancelling ends it at once", async () => {
  const controller = new AbortController();
  const guard = (): (() => void) => {
    setImmediate(() => controller.abort());
    return () => undefined;
  };
  const running = run("hang", { signal: controller.signal, guard });
  await expect(running).rejects.toBeInstanceOf(Cancelled);
});

test("a flood of messages neither blocks it nor fills memory", async () => {
  const before = process.memoryUsage().rss;
  expect(await run("flood")).toBe(7);
  expect(process.memoryUsage().rss - before).toBeLessThan(60e6);
});

test("what it died of is told in one sentence", async () => {
  expect(
    await failureOf(run("die", { args: ["av_interleaved_write_frame(): No space left on device"] })),
  ).toMatchObject({ code: "disk-full" });
  expect(await failureOf(run("die", { args: ["out.mp4: Permission denied"] }))).toMatchObject({
    code: "output-not-writable",
  });
  const odd = await failureOf(run("die", { args: ["Error while decoding"] }));
  expect(odd.code).toBe("tool-failed");
  expect(failureSaid(odd).sentence).toContain("Error while decoding");
});

test("a program that is not there is named with the remedy", async () => {
  const failure = await failureOf(
    runFfmpeg({
      ffmpeg: "/nowhere/ffmpeg",
      args: [],
      subject: { kind: "files", names: ["ride.mp4"] },
      signal: new AbortController().signal,
    }),
  );
  expect(failure.code).toBe("tool-missing");
  expect(failureSaid(failure).remedy).toBe("Run `npm run setup`, which finds or installs it.");
});

test("one that stops listening before all is sent has not failed", async () => {
  const frames = await run("deaf", {
    feed: async (stdin) => {
      const piece = new Uint8Array(1e6);
      for (let k = 0; k < 20; k += 1) {
        await new Promise<void>((resolve, reject) =>
          stdin.write(piece, (error) => (error ? reject(error) : resolve())),
        );
      }
    },
  });
  expect(frames).toBe(5);
});
