// A file that only names other files is no sound and no clip, whatever it is called.
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { ffprobeStreams } from "../../main/footage/ffprobeStreams.edge.ts";
import { soundLengthS } from "../../main/footage/soundLength.edge.ts";
import { measureLoudness } from "../../main/render/measureLoudness.edge.ts";
import { testTools } from "../support/tools.ts";
import { runProgram } from "../support/video.ts";

let folder = "";
const tools = testTools();
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "named "));
  const make = (name: string, format: string): Promise<unknown> =>
    runProgram(tools.ffmpeg, ["-v", "error", "-f", "lavfi", "-i", "sine=d=1", "-f", format, join(folder, name)]);
  await make("sound.wav", "wav");
  await make("sound.m4a", "mov");
  await make("heard.ts", "mpegts");
  await writeFile(join(folder, "list.wav"), "ffconcat version 1.0\nfile sound.wav\n");
  await writeFile(
    join(folder, "playlist.wav"),
    "#EXTM3U\n#EXT-X-TARGETDURATION:10\n#EXTINF:1,\nheard.ts\n#EXT-X-ENDLIST\n",
  );
  await writeFile(
    join(folder, "session.wav"),
    "v=0\no=- 0 0 IN IP4 127.0.0.1\ns=x\nc=IN IP4 127.0.0.1\nt=0 0\nm=audio 9 RTP/AVP 0\n",
  );
});
afterAll(() => rm(folder, { recursive: true, force: true }));

test.each(["sound.wav", "sound.m4a"])("%s is heard", async (name) => {
  expect(await soundLengthS(join(folder, name), tools)).toBeCloseTo(1, 1);
  expect((await measureLoudness(join(folder, name), [], null, tools)).integratedLufs).toBeLessThan(0);
});

test.each(["list.wav", "playlist.wav", "session.wav"])("%s reads nothing of the files it names", async (name) => {
  const path = join(folder, name);
  await expect(soundLengthS(path, tools)).rejects.toMatchObject({ code: "file-unreadable" });
  await expect(measureLoudness(path, [], null, tools)).rejects.toMatchObject({ code: "tool-failed" });
  await expect(ffprobeStreams(tools.ffprobe, path, name)).rejects.toMatchObject({ code: "clip-not-usable" });
});
