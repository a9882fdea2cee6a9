import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { Ride } from "../../main/contract/ride.ts";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { readTelemetry } from "../../main/footage/telemetry/readTelemetry.edge.ts";
import { placeClips } from "../../main/lineup/placeClips.ts";
import { ffmpeg, scratchFolder } from "../footage/makeClip.ts";
import { rawPayloads, wrapTelemetry } from "../footage/telemetry/wrapTelemetry.ts";
import { testTools } from "../support/tools.ts";
import { madeRide } from "./madeRide.ts";
import { said } from "../support/said.ts";

const folder = scratchFolder();
const fixture = (name: string) =>
  new Uint8Array(readFileSync(join(import.meta.dirname, "../fixtures/telemetry", name)));

async function clipWith(name: string) {
  const plain = join(folder, "plain.mp4");
  ffmpeg(
    "-f",
    "lavfi",
    "-i",
    "color=size=64x36:rate=10:duration=17",
    "-c:v",
    "libx264",
    "-preset",
    "ultrafast",
    "-metadata",
    "creation_time=2019-01-03T16:33:35Z",
    plain,
  );
  const path = join(folder, `${name}.mp4`);
  wrapTelemetry(plain, rawPayloads(fixture(name)), path);
  const clip = await probeClip(path, "1", testTools());
  return { clip, telemetry: (await readTelemetry(clip))! };
}

const track = await clipWith("clean-lock.gpmf");

/** A ride that holds the camera's own positions at whole seconds from `offsetS` on, riding straight before and after. */
function rideAround(offsetS: number, startUtcMs: number): Ride {
  const ride = madeRide(600, { startUtcMs });
  const { mediaS, latDeg, lonDeg, speedMps } = track.telemetry.positions!;
  const n = mediaS.length;
  for (let k = 0; k < 600; k++) {
    const t = k - offsetS;
    let i = 0;
    while (i < n - 2 && mediaS[i + 1]! <= t) i++;
    const f = (t - mediaS[i]!) / (mediaS[i + 1]! - mediaS[i]!);
    const inside = t >= mediaS[0]! && t <= mediaS[n - 1]!;
    const awayDeg = (t < mediaS[0]! ? t - mediaS[0]! : t - mediaS[n - 1]!) * 6e-5;
    const mix = (column: Float64Array) =>
      inside ? column[i]! + f * (column[i + 1]! - column[i]!) : t < mediaS[0]! ? column[0]! : column[n - 1]!;
    ride.raw.latDeg[k] = mix(latDeg) + (inside ? 0 : awayDeg);
    ride.raw.lonDeg[k] = mix(lonDeg);
    ride.raw.speedMps[k] = inside ? mix(speedMps) : 6.7;
  }
  return ride;
}

describe("placing by a telemetry track", () => {
  it("reads the real stream back out of an MP4", () => {
    expect(track.clip.hasTelemetry).toBe(true);
    expect(track.telemetry.positions!.latDeg[0]).toBe(42.3425835);
    expect(track.telemetry.bytesRead).toBe(75_028);
  });

  /** UTC of ride time 0 by the camera's own satellite time, ms since 1970. */
  const zeroMs = (offsetS: number) => track.telemetry.utc!.startUtcMs - offsetS * 1000;

  it.each([37.4, 120.83, 411.02])(
    "finds offset %f s within 0.10 s though the ride wrote local time as UTC",
    (offsetS) => {
      const ride = { ...rideAround(offsetS, 0), startUtcMs: zeroMs(offsetS) - 5 * 3_600_000 + 700, utcOffsetMin: -300 };
      const { clips } = placeClips({
        ride,
        clips: [track.clip],
        anchors: [],
        deviceDelayS: 0,
        telemetry: [track.telemetry],
      });
      expect(clips[0]).toMatchObject({ method: "telemetry", verdict: "sure", sure: true });
      expect(Math.abs(clips[0]!.found!.offsetS - offsetS)).toBeLessThan(0.1);
    },
  );

  it.each([
    ["another day", 9 * 86_400],
    ["another lap of that day", 1234],
  ])("is not sure by positions alone where the clocks say %s, and offers both places", (_, laterS) => {
    const ride = rideAround(120.83, zeroMs(120.83) - laterS * 1000);
    const long = { ...ride, elapsedS: 3000 };
    const { clips } = placeClips({
      ride: long,
      clips: [track.clip],
      anchors: [],
      deviceDelayS: 0,
      telemetry: [track.telemetry],
    });
    expect(clips[0]).toMatchObject({ method: "telemetry", verdict: "conflict", sure: false });
    const offered = (s: number) => clips[0]!.candidates.some(({ rideStartS }) => Math.abs(rideStartS - s) < 0.1);
    expect(offered(120.83)).toBe(true);
    expect(clips[0]!.reason.code).toBe("camera-clock-against-positions");
    // A place by the clock is offered where it lies in the ride.
    expect(offered(120.83 + laterS)).toBe(laterS < 3000);
  });

  it("still finds it when the two receivers are 4 m apart", () => {
    const ride = rideAround(120.83, Date.UTC(2019, 0, 3, 12, 0, 0));
    for (let k = 0; k < 600; k++) ride.raw.lonDeg[k] = ride.raw.lonDeg[k]! + 4 / 82_000;
    const { clips } = placeClips({
      ride,
      clips: [track.clip],
      anchors: [],
      deviceDelayS: 0,
      telemetry: [track.telemetry],
    });
    expect(Math.abs(clips[0]!.found!.offsetS - 120.83)).toBeLessThan(0.5);
  });

  it("does not place it on a ride elsewhere", () => {
    const ride = madeRide(3000, { startUtcMs: Date.UTC(2019, 0, 3, 16, 30, 0) });
    const { clips } = placeClips({
      ride,
      clips: [track.clip],
      anchors: [],
      deviceDelayS: 0,
      telemetry: [track.telemetry],
    });
    expect(clips[0]!.sure).toBe(false);
    expect(clips[0]!.method).toBe("clock");
  });

  it.each([0.5, 2.3, 5.1])(
    "keeps positions on the picture's time where ffmpeg cut %d s off by a copy of the streams",
    async (cutS) => {
      const path = join(folder, `cut-${cutS}.mp4`);
      ffmpeg(
        "-ss",
        String(cutS),
        "-i",
        track.clip.path,
        "-map",
        "0:v",
        "-map",
        "0:d",
        "-c",
        "copy",
        "-copy_unknown",
        path,
      );
      const clip = await probeClip(path, "1", testTools());
      const telemetry = (await readTelemetry(clip))!;
      // A copy begins with a keyframe; an edit list hides what of it lies before the cut.
      const hiddenS = track.clip.durationS - clip.durationS;
      expect(Math.abs(hiddenS - cutS)).toBeLessThan(0.15);
      const { mediaS, latDeg, lonDeg, speedMps } = telemetry.positions!;
      const whole = track.telemetry.positions!;
      const offs = [...mediaS.keys()].flatMap((k) => {
        // A place may stand for several samples: the nearest in time of those that say the same.
        const same = [...whole.mediaS.keys()].filter(
          (i) => whole.latDeg[i] === latDeg[k] && whole.lonDeg[i] === lonDeg[k] && whole.speedMps[i] === speedMps[k],
        );
        return same.length === 0
          ? []
          : [Math.min(...same.map((i) => Math.abs(mediaS[k]! + hiddenS - whole.mediaS[i]!)))];
      });
      expect(offs.length).toBeGreaterThan(50);
      expect(Math.max(...offs)).toBeLessThan(0.1);
    },
  );

  it("does not use positions without a fix", async () => {
    const { clip, telemetry } = await clipWith("no-lock.gpmf");
    const ride = madeRide(3000);
    expect(
      placeClips({ ride, clips: [clip], anchors: [], deviceDelayS: 0, telemetry: [telemetry] }).clips[0]!.sure,
    ).toBe(false);
  });

  it("lets an anchor win and says by how much they disagree", () => {
    const ride = rideAround(120.83, Date.UTC(2019, 0, 3, 12, 0, 0));
    const anchors = [{ clipId: "1", mediaS: 0, rideS: 200, sigmaS: 0.1 }];
    const { clips, warnings } = placeClips({
      ride,
      clips: [track.clip],
      anchors,
      deviceDelayS: 0,
      telemetry: [track.telemetry],
    });
    expect(clips[0]).toMatchObject({ method: "anchor", found: { offsetS: 200 } });
    expect(said(warnings).join(" ")).toMatch(/disagree by 79\.\d s/);
  });
});
