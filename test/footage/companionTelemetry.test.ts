import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { addTelemetryTrack } from "../../main/demo/addTelemetryTrack.edge.ts";
import { cameraTelemetry, PAYLOAD_S } from "../../main/demo/cameraTelemetry.ts";
import { cameraCreationTime, demoClips } from "../../main/demo/demoClips.ts";
import { demoRideFile } from "../../main/demo/demoRideFile.ts";
import { demoRide } from "../../main/demo/rideModel.ts";
import { companionClip } from "../../main/footage/companionClip.edge.ts";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { readTelemetry } from "../../main/footage/telemetry/readTelemetry.edge.ts";
import { newDebrief } from "../../main/debrief/debriefDocument.ts";
import { unreadDebrief } from "../../main/journey/debrief.ts";
import { readClip, withClip, withRide } from "../../main/journey/gather.ts";
import { lineupJourney } from "../../main/journey/linedUpClips.ts";
import { place } from "../../main/journey/place.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { readRide } from "../../main/ride/readRide.edge.ts";
import { testHost, testTools } from "../support/tools.ts";
import { ffmpeg, scratchFolder } from "./makeClip.ts";
import { said } from "../support/said.ts";
import { placementReasonText } from "../../overlay/words/notices/placementReason.ts";

const folder = scratchFolder();
const truth = demoRide(2);
const filmed = demoClips(truth)[1]!;
const ridePath = join(folder, "ride.fit");
writeFileSync(ridePath, demoRideFile(truth));

function made(dir: string, name: string, size: string): string {
  mkdirSync(join(folder, dir), { recursive: true });
  const path = join(folder, dir, name);
  ffmpeg(
    "-f",
    "lavfi",
    "-i",
    `testsrc2=size=${size}:rate=5:duration=${filmed.durationS}`,
    "-c:v",
    "libx264",
    "-preset",
    "ultrafast",
    "-g",
    "5",
    "-metadata",
    `creation_time=${cameraCreationTime(truth, filmed)}`,
    "-f",
    "mp4",
    path,
  );
  return path;
}

const big = made("card", "bars0002.mp4", "320x180");
const small = made("card", "bars0002.low", "128x72");
await addTelemetryTrack(small, cameraTelemetry(truth, filmed, filmed.durationS), PAYLOAD_S, filmed.durationS);

const lineup = (paths: string[], anchors: string[] = []) =>
  lineupJourney({ paths: [ridePath, ...paths], anchors, deviceDelayS: 0, show: null, indoors: false }, testHost());

describe("a camera that writes telemetry into the small clip beside the big one only", () => {
  it("has it read from there, under the big clip's name", async () => {
    const clip = await probeClip(big, "7", testTools());
    expect(clip.hasTelemetry).toBe(false);
    expect(await readTelemetry(clip)).toBeNull();
    const telemetry = (await readTelemetry((await companionClip(clip))!))!;
    expect(telemetry.clipId).toBe("7");
    expect(telemetry.positions!.mediaS.length).toBeGreaterThan(1000);
  });

  it("is placed by it where the big clip alone is given", async () => {
    const { clips, lineup: found, heard } = await lineup([big]);
    expect(clips.map(({ fileName }) => fileName)).toEqual(["bars0002.mp4"]);
    expect(found.clips[0]).toMatchObject({ method: "telemetry", sure: true });
    expect(Math.abs(found.clips[0]!.found!.offsetS - filmed.startS)).toBeLessThan(0.5);
    expect(heard).toBeNull();
  });
});

describe("the small clip given beside its big one", () => {
  it.each([[[big, small]], [[small, big]]])(
    "is said to be the same recording and left out, in whatever order",
    async (paths) => {
      const { clips, lineup: found } = await lineup(paths);
      expect(clips.map(({ fileName }) => fileName)).toEqual(["bars0002.mp4"]);
      expect(found.clips).toHaveLength(1);
      expect(found.clips[0]).toMatchObject({ method: "telemetry", sure: true });
      expect(said(found.warnings)).toEqual([
        "bars0002.low and bars0002.mp4 are one recording in two sizes, as the camera wrote it: bars0002.mp4 is used, bars0002.low is left out.",
      ]);
    },
  );

  it("may carry the anchor of the recording", async () => {
    const atS = Math.round(filmed.startS + 10);
    const clock = [Math.floor(atS / 3600), Math.floor(atS / 60) % 60, atS % 60]
      .map((part) => String(part).padStart(2, "0"))
      .join(":");
    const { lineup: found, clips } = await lineup([big, small], [`bars0002.low@0:10=${clock}`]);
    expect(found.clips[0]).toMatchObject({ clipId: clips[0]!.id, method: "anchor", sure: true });
  });

  it("stays in a debrief that lists both, with nothing to show of its own", async () => {
    const ref = (id: string, kind: "ride" | "clip", path: string) => ({ id, kind, path, bytes: 0, fingerprint: "" });
    const refs = [ref("ride1", "ride", ridePath), ref("clip1", "clip", big), ref("clip2", "clip", small)];
    const opened = unreadDebrief(newDebrief(defaultPlan(), refs, "ride1"), null);
    let media = withRide(opened.media, "ride1", { path: ridePath, ride: await readRide(ridePath) });
    media = withClip(media, "clip1", await readClip(big, testHost()));
    media = withClip(media, "clip2", await readClip(small, testHost()));
    const found = (await place({ ...opened, media }, testHost())).lineup!;
    expect(found.clips.map(({ verdict, clipId }) => [clipId, verdict])).toEqual([
      ["clip1", "sure"],
      ["clip2", "no match"],
    ]);
    expect(placementReasonText(found.clips[1]!.reason, "en")).toContain(
      "small copy that the camera wrote of bars0002.mp4",
    );
    expect(said(found.warnings).join(" ")).not.toContain("from two cameras");
  });
});
