// Footage that no browser here plays: HEVC, and H.264 of 10 bit. The window shows it by proxies.
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { demoRide } from "../../../main/demo/rideModel.ts";
import { probeFile, writeNumberedClip } from "../../support/video.ts";
import { testTools } from "../../support/tools.ts";
import { openDesk, putRide, type OpenDesk } from "./openDesk.ts";

const KINDS = [
  {
    name: "hevc.mp4",
    output: ["-c:v", "libx265", "-preset", "ultrafast", "-x265-params", "log-level=none", "-tag:v", "hvc1"],
  },
  { name: "ten-bit.mp4", output: ["-pix_fmt", "yuv420p10le"] },
];

describe.each(KINDS)("a clip that no browser plays: $name", ({ name, output }) => {
  let open: OpenDesk;
  beforeEach(async () => {
    open = await openDesk();
    await putRide(open.folder);
    const created = new Date(demoRide(1).startUtcMs + 1_901_000).toISOString();
    await writeNumberedClip(
      open.path(name),
      {
        widthPx: 320,
        heightPx: 192,
        frames: 50,
        rate: "25",
        output: [...output, "-metadata", `creation_time=${created}`],
      },
      testTools(),
    );
  });
  afterEach(() => open.close());

  it("is never offered as it is, and is shown by an H.264 proxy of all its frames", async () => {
    await open.api.addFiles([open.id(join(open.folder, "sunday.fit")), open.id(open.path(name))]);
    const { id } = open.view().clips[0]!;
    expect(open.states.flatMap(({ debrief }) => debrief?.clips ?? []).every(({ address }) => address === null)).toBe(
      true,
    );
    await open.api.makeProxy(id);
    await open.idle();
    const clip = open.view().clips[0]!;
    expect(clip).toMatchObject({ picture: "proxy", address: null, frames: 50 });
    expect(clip.proxySpans).toHaveLength(1);
    const lent = open.shelf.find(clip.proxySpans[0]!.address);
    if (lent?.kind !== "file") throw new Error("the proxy is not lent");
    const { streams, packets } = await probeFile(lent.path, testTools(), true);
    expect(streams.find((stream) => stream.codec_type === "video")).toMatchObject({
      codec_name: "h264",
      pix_fmt: "yuv420p",
    });
    expect(packets.filter(({ stream_index }) => stream_index === 0)).toHaveLength(50);
  });
});

describe("a camera's own small clip beside the big one", () => {
  let open: OpenDesk;
  beforeEach(async () => {
    open = await openDesk();
    await putRide(open.folder);
    const created = ["-metadata", `creation_time=${new Date(demoRide(1).startUtcMs + 1_901_000).toISOString()}`];
    await writeNumberedClip(
      open.path("bars-0007.mp4"),
      { widthPx: 640, heightPx: 384, frames: 50, rate: "25", output: [...KINDS[0]!.output, ...created] },
      testTools(),
    );
    await writeNumberedClip(
      open.path("bars-0007.low.mp4"),
      { widthPx: 320, heightPx: 192, frames: 50, rate: "25", output: created },
      testTools(),
    );
  });
  afterEach(() => open.close());

  it("is shown as it is, so that no proxies have to be made", async () => {
    await open.api.addFiles([open.id(join(open.folder, "sunday.fit")), open.id(open.path("bars-0007.mp4"))]);
    await open.idle();
    const clip = open.view().clips[0]!;
    expect(clip).toMatchObject({ picture: "companion", proxySpans: [], widthPx: 640 });
    expect(open.shelf.find(clip.address ?? "")).toEqual({ kind: "file", path: open.path("bars-0007.low.mp4") });
    expect(clip.filmstrip?.count).toBeGreaterThan(0);
  });
});
