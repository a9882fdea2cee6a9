// The demo's clips without a telemetry track, as read from the filmed clips (test/fixtures/signals).
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { demoClips } from "../../main/demo/demoClips.ts";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { DEMO_SEED } from "../../main/demo/makeDemo.edge.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { placeClips } from "../../main/lineup/placeClips.ts";
import { parseRide } from "../../main/ride/parseRide.ts";
import { madeClip } from "./madeClip.ts";

interface Read {
  readonly fileName: string;
  readonly durationS: number;
  readonly createdUtcMs: number;
  readonly timecodeS: number;
  readonly motion: (number | null)[];
  readonly sound: (number | null)[];
  readonly turning: (number | null)[];
}

const read = JSON.parse(readFileSync(join(import.meta.dirname, "../fixtures/signals/demo.json"), "utf8")) as Read[];
const truth = demoRide(DEMO_SEED);
const ride = parseRide(demoRideFile(truth), "ride.fit");
const column = (values: (number | null)[]) => Float64Array.from(values, (value) => value ?? NaN);
const clips = read.map(({ fileName, durationS, createdUtcMs, timecodeS }, k) =>
  madeClip(String(k), durationS, {
    fileName,
    createdUtcMs,
    frameRate: { num: 30000, den: 1001 },
    timecode: { frameNumber: 0, timeOfDayS: timecodeS, dropFrame: false },
  }),
);
const signals = read.map(({ motion, sound, turning }, k) => ({
  clipId: String(k),
  count: motion.length,
  motion: column(motion),
  sound: column(sound),
  turning: column(turning),
  bytesRead: null,
  lacks: [],
}));

it("without telemetry the three clips, solved together by signals with no hint, have the truth among their candidates", () => {
  const { clips: placed } = placeClips({ ride, clips, anchors: [], deviceDelayS: 0, signals });
  demoClips(truth).forEach(({ startS, fileName }, k) => {
    const { method, sure, found, candidates } = placed[k]!;
    expect(method, fileName).toBe("signals");
    const places = [...candidates.map(({ rideStartS }) => rideStartS), found!.offsetS];
    expect(Math.min(...places.map((place) => Math.abs(place - startS))), fileName).toBeLessThan(1);
    expect(candidates.length, fileName).toBeLessThanOrEqual(3);
    if (sure) expect(Math.abs(found!.offsetS - startS), fileName).toBeLessThan(0.5);
  });
});
