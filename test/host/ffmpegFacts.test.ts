import { mkdtemp, readFile, rename, rm, utimes, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { ffmpegVersion, hasEncoder } from "../../main/host/ffmpegFacts.edge.ts";

let folder = "";
beforeAll(async () => (folder = await mkdtemp(join(tmpdir(), "facts "))));
afterAll(() => rm(folder, { recursive: true, force: true }));

/** A stand-in that tells its version and counts how often it was asked. */
async function place(path: string, version: string): Promise<void> {
  const asked = JSON.stringify(join(folder, "asked"));
  const script = `#!/usr/bin/env node
require("node:fs").appendFileSync(${asked}, ".");
if (process.argv.includes("-version")) console.log("ffmpeg version ${version} Copyright");
else console.log(" V....D lib${version}  an encoder");
`;
  await writeFile(`${path}.new`, script, { mode: 0o755 });
  await rename(`${path}.new`, path);
}

test.skipIf(process.platform === "win32")("an ffmpeg that takes another's place is asked anew, else once", async () => {
  const ffmpeg = join(folder, "ffmpeg");
  const tools = { ffmpeg, ffprobe: "" };
  const asked = () => readFile(join(folder, "asked"), "utf8");
  await place(ffmpeg, "5.1");
  expect(await Promise.all([ffmpegVersion(tools), ffmpegVersion(tools)])).toEqual(["5.1", "5.1"]);
  expect(await ffmpegVersion(tools)).toBe("5.1");
  expect(await asked()).toBe(".");

  await place(ffmpeg, "7.0");
  expect(await ffmpegVersion(tools)).toBe("7.0");
  expect(await hasEncoder(tools, "lib5.1")).toBe(false);

  // Of the same length and from the same time, as a package that is put back may be.
  const then = new Date(1_700_000_000_000);
  await utimes(ffmpeg, then, then);
  expect(await ffmpegVersion(tools)).toBe("7.0");
  await place(ffmpeg, "7.1");
  await utimes(ffmpeg, then, then);
  expect(await ffmpegVersion(tools)).toBe("7.1");
});

test.skipIf(process.platform === "win32")(
  "one that works for long before it answers is slow, not hung",
  async () => {
    const ffmpeg = join(folder, "slow");
    const script = `#!/usr/bin/env node
for (const endMs = Date.now() + 22_000; Date.now() < endMs; );
console.log("ffmpeg version 7.2 Copyright");
`;
    await writeFile(ffmpeg, script, { mode: 0o755 });
    expect(await ffmpegVersion({ ffmpeg, ffprobe: "" })).toBe("7.2");
  },
  120_000,
);
