import { mkdir } from "node:fs/promises";
import path from "node:path";
import { Failure } from "../contract/failure.ts";
import type { Language } from "../contract/languageAndUnits.ts";
import type { JobContext } from "../contract/job.ts";
import type { Tools } from "../contract/tools.ts";
import { writeAtomic } from "../host/writeAtomic.edge.ts";
import { demoClips, type DemoClip } from "./demoClips.ts";
import { demoPlan } from "./demoPlan.ts";
import { demoRideFile } from "./demoRideFile.ts";
import type { DemoTruth } from "./demoTruth.ts";
import { DEMO_FRAME_RATE } from "./filmClip.edge.ts";
import { filmClips } from "./filmClips.edge.ts";
import { demoRide } from "./rideModel.ts";
import { secondRideFile } from "./secondRide.ts";

/** Before this the speed is not known well enough to speak of time left. */
const LEFT_AFTER_MS = 3000;

/** The seed of the demo that people see. */
export const DEMO_SEED = 1;

export interface DemoOptions {
  /** For tests: three clips of 12 s at 320 x 180. */
  readonly small?: boolean;
  /** Also write the file of a rider who follows a few seconds behind. */
  readonly secondRider?: boolean;
  /** Whether the camera writes a telemetry track, from which the clips line up by themselves; default: not for the small ones. */
  readonly telemetry?: boolean;
  /** Of what the plan says; English where nothing is said. */
  readonly language?: Language;
  /** Default `DEMO_SEED`. */
  readonly seed?: number;
}

export interface Demo {
  readonly ridePath: string;
  /** The second rider's file; null unless asked for. */
  readonly secondRidePath: string | null;
  readonly clipPaths: readonly string[];
  readonly planPath: string;
  /** `CLIP@T=RIDE_T` as the command line takes it: the wheels stop at the closed crossing. */
  readonly anchor: string;
  /** What was filmed, in the order of `clipPaths`. */
  readonly clips: readonly DemoClip[];
  readonly truth: DemoTruth;
}

/**
 * Makes the demo's ride file, plan and clips in `outDir` (made if missing; older files of the same names are replaced).
 *
 * The same seed gives the same ride, pictures and sound. Progress counts frames.
 *
 * @throws Failure output-not-writable and what running ffmpeg may give; Cancelled after the signal.
 */
export async function makeDemo(
  outDir: string,
  tools: Tools,
  context: JobContext,
  options: DemoOptions = {},
): Promise<Demo> {
  const small = options.small ?? false;
  const truth = demoRide(options.seed ?? DEMO_SEED);
  const clips = demoClips(truth, small, options.telemetry);
  const ridePath = path.join(outDir, "ride.fit");
  const planPath = path.join(outDir, "plan.json");
  const secondRidePath = options.secondRider ? path.join(outDir, "ride-second.fit") : null;
  try {
    await mkdir(outDir, { recursive: true });
    await writeAtomic(ridePath, demoRideFile(truth));
    await writeAtomic(planPath, `${JSON.stringify(demoPlan(truth, options.language), null, 2)}\n`);
    if (secondRidePath) await writeAtomic(secondRidePath, secondRideFile(truth));
  } catch (cause) {
    throw new Failure("demo-not-written", { folder: outDir }, cause);
  }
  const picture = small ? { widthPx: 320, heightPx: 180 } : { widthPx: 640, heightPx: 360 };
  const total = clips.reduce(
    (sum, c) => sum + Math.round((c.durationS * DEMO_FRAME_RATE.num) / DEMO_FRAME_RATE.den),
    0,
  );
  const seed = truth.seed;
  const drawn = clips.map(() => 0);
  /** From the first frames on: what starting took is not how fast frames are drawn. */
  let first: { readonly atMs: number; readonly done: number } | null = null;
  let toldMs = 0;
  const orders = clips.map((clip) => ({ seed, clip, outDir, picture, tools }));
  const clipPaths = await filmClips(orders, context.signal, (index, frames) => {
    drawn[index] = frames;
    const nowMs = Date.now();
    if (nowMs - toldMs < 250) return;
    toldMs = nowMs;
    const done = drawn.reduce((a, b) => a + b, 0) / total;
    first ??= { atMs: nowMs, done };
    const known = nowMs - first.atMs > LEFT_AFTER_MS && done > first.done;
    const leftS = known ? ((nowMs - first.atMs) / 1000 / (done - first.done)) * (1 - done) : null;
    context.report({ done, leftS, step: { what: "demo clips", count: clips.length } });
  });
  context.report({ done: 1, leftS: 0, step: { what: "demo made" } });
  return { ridePath, secondRidePath, clipPaths, planPath, anchor: anchorOf(truth, clipPaths, clips), clips, truth };
}

/** The wheels stop at the gate: an instant that everybody sees in the picture and in the speed. */
function anchorOf(truth: DemoTruth, clipPaths: readonly string[], clips: readonly DemoClip[]): string {
  const stop = truth.events.find((e) => e.kind === "level crossing")!;
  const index = clips.findIndex((clip) => clip.startS <= stop.startS && stop.startS < clip.startS + clip.durationS);
  return `${clipPaths[index]}@${(stop.startS - clips[index]!.startS).toFixed(2)}=${clockText(stop.startS)}`;
}

function clockText(rideS: number): string {
  const h = Math.floor(rideS / 3600);
  const m = Math.floor((rideS % 3600) / 60);
  const s = (rideS % 60).toFixed(2).padStart(5, "0");
  return `${h}:${String(m).padStart(2, "0")}:${s}`;
}
