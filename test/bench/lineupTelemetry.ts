import { mkdtempSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { addTelemetryTrack } from "../../main/demo/addTelemetryTrack.edge.ts";
import { cameraTelemetry, PAYLOAD_S } from "../../main/demo/cameraTelemetry.ts";
import { cameraCreationTime } from "../../main/demo/demoClips.ts";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { readTelemetry } from "../../main/footage/telemetry/readTelemetry.edge.ts";
import { placeClips } from "../../main/lineup/placeClips.ts";
import { readRide } from "../../main/ride/readRide.edge.ts";
import { testTools } from "../support/tools.ts";
import { runProgram } from "../support/video.ts";

/**
 * Line-up by telemetry of a long clip, from the file to its place in the ride: the container's tables, the telemetry
 * track, the match. Prints the time of each, the bytes read and the error. The track is the demo camera's (18 places a
 * second, no gyroscope), the picture plain and small, since it is not read.
 *
 * @param minutes length of the clip, at most that of the demo's ride less 5 minutes
 */
export async function benchLineupTelemetry(minutes: number): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), "followcar-telemetry-"));
  const tools = testTools();
  try {
    const truth = demoRide(2);
    const startS = 120;
    const durationS = Math.min(minutes * 60, truth.durationS - 300);
    const filmed = { fileName: "long.mp4", startS, durationS, telemetry: true };
    const ridePath = join(folder, "ride.fit");
    writeFileSync(ridePath, demoRideFile(truth));
    const path = join(folder, filmed.fileName);
    await runProgram(tools.ffmpeg, [
      "-v",
      "error",
      "-y",
      "-f",
      "lavfi",
      "-i",
      `color=size=64x36:rate=30000/1001:duration=${durationS}`,
      "-c:v",
      "libx264",
      "-preset",
      "ultrafast",
      "-g",
      "15",
      "-metadata",
      `creation_time=${cameraCreationTime(truth, filmed)}`,
      path,
    ]);
    await addTelemetryTrack(path, cameraTelemetry(truth, filmed, durationS), PAYLOAD_S, durationS);
    const ride = await readRide(ridePath);
    const began = performance.now();
    const clip = await probeClip(path, "clip1", tools);
    const probed = performance.now();
    const telemetry = (await readTelemetry(clip))!;
    const read = performance.now();
    const { clips } = placeClips({ ride, clips: [clip], anchors: [], deviceDelayS: 0, telemetry: [telemetry] });
    const done = performance.now();
    const s = (from: number, to: number) => ((to - from) / 1000).toFixed(2);
    console.log(
      `${(durationS / 60).toFixed(0)} min with telemetry: ${s(began, done)} s in all (tables ` +
        `${s(began, probed)}, track ${s(probed, read)}, match ${s(read, done)}); ` +
        `${(telemetry.bytesRead / 1e6).toFixed(1)} MB of telemetry read of a file of ` +
        `${(statSync(path).size / 1e6).toFixed(0)} MB; ${clips[0]!.method}, ${clips[0]!.verdict}, ` +
        `${Math.abs((clips[0]!.found?.offsetS ?? NaN) - startS).toFixed(2)} s off`,
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
