// Files of a debrief: found again where they went, and not opened outside without consent.
import { readFile, rename, writeFile, mkdir } from "node:fs/promises";
import { join } from "node:path";
import { beforeEach, describe, expect, test } from "vitest";
import { carryOver } from "../../main/debrief/carryOver.ts";
import { findMedia, mediaRef } from "../../main/debrief/findMedia.edge.ts";
import { leavesFolder } from "../../main/debrief/mediaPath.ts";
import { withFilm, failureOf, debriefFolder } from "./debriefParts.ts";

let folder: string;
beforeEach(async () => {
  folder = await debriefFolder();
});

describe("media", () => {
  const fingerprint = async (path: string): Promise<string> => (await readFile(path)).toString("hex");

  test("a moved folder keeps its paths; a renamed file is found by what is in it", async () => {
    await mkdir(join(folder, "a"));
    await mkdir(join(folder, "a", "clips"));
    await writeFile(join(folder, "a", "clips", "one.mp4"), "film");
    const ref = await mediaRef(join(folder, "a"), join(folder, "a", "clips", "one.mp4"), "one", "clip", fingerprint);
    expect(ref.path).toBe("clips/one.mp4");
    await rename(join(folder, "a"), join(folder, "b"));
    const options = { consent: false, searchIn: [join(folder, "b")], fingerprint };
    expect(await findMedia(join(folder, "b"), ref, options)).toBe(join(folder, "b", "clips", "one.mp4"));
    await rename(join(folder, "b", "clips", "one.mp4"), join(folder, "b", "other name.mp4"));
    expect(await findMedia(join(folder, "b"), ref, options)).toBe(join(folder, "b", "other name.mp4"));
    await writeFile(join(folder, "b", "other name.mp4"), "fake");
    expect(await findMedia(join(folder, "b"), ref, options)).toBeNull();
  });

  test("a debrief of an earlier version, which knew files by their ends, finds them and its clips' numbers", async () => {
    const ends = "e".repeat(32);
    await writeFile(join(folder, "one.mp4"), "film");
    const now = () => Promise.resolve(`${ends}${"m".repeat(16)}`);
    const where = { consent: false, searchIn: [] };
    const ref = await mediaRef(folder, join(folder, "one.mp4"), "clip7", "clip", now);
    const earlier = { ...ref, id: "clip1", fingerprint: ends };
    expect(await findMedia(folder, earlier, { ...where, fingerprint: now })).toBe(join(folder, "one.mp4"));
    const other = () => Promise.resolve(`${ends}${"n".repeat(16)}`);
    expect(await findMedia(folder, ref, { ...where, fingerprint: other })).toBeNull();
    const mark = { mediaS: 12, rideS: 600, sigmaS: 0.5 };
    const document = { ...withFilm(), media: [earlier], anchors: [{ clipId: "clip1", ...mark }] };
    expect(carryOver(document, [ref]).anchors).toEqual([{ clipId: "clip7", ...mark }]);
  });

  test.each(["../x.mp4", "a/../../x", "/etc/passwd", "C:\\x.mp4", "\\\\server\\share\\x", "file:///x", "http://x/y"])(
    "%s leaves the folder",
    (path) => {
      expect(leavesFolder(path)).toBe(true);
    },
  );

  test("and is not opened without consent", async () => {
    const outside = { id: "a", kind: "clip" as const, path: "../secret", bytes: 1, fingerprint: "" };
    expect(leavesFolder(outside.path)).toBe(true);
    const failure = await failureOf(findMedia(folder, outside, { consent: false, searchIn: [], fingerprint }));
    expect(failure.code).toBe("debrief-not-usable");
    expect(leavesFolder("clips/a..b.mp4")).toBe(false);
  });
});
