// A pipe that is named like one of our files and that nobody writes to: it is refused or passed over, and never waited for.
import { execFileSync } from "node:child_process";
import { constants, mkdir, mkdtemp, open, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { loadAthlete } from "../../main/debrief/athleteStore.edge.ts";
import { loadDebrief } from "../../main/debrief/debriefStore.edge.ts";
import { loadSquadRow } from "../../main/debrief/squadRow.edge.ts";
import { probeClip } from "../../main/footage/probeClip.edge.ts";
import { readText } from "../../main/host/readText.edge.ts";
import { loadFolder } from "../../main/journey/openDebrief.ts";
import { planSource } from "../../main/journey/planSource.ts";

/** None is started: the file is refused before. */
const noTools = { ffmpeg: "", ffprobe: "" } as Parameters<typeof probeClip>[2];
const CHOICES = { athleteDir: null, targetW: null, toleranceW: null, setting: null };

describe.skipIf(process.platform === "win32")("a pipe that nobody writes to", () => {
  let folder: string;
  let pipe: string;
  beforeEach(async () => {
    folder = await mkdtemp(join(tmpdir(), "followcar-pipes-"));
  });
  afterEach(async () => {
    // Lets go of whoever waits for it.
    await (await open(pipe, constants.O_RDWR | constants.O_NONBLOCK)).close();
    await rm(folder, { recursive: true });
  });

  const cases: readonly [string, (folder: string) => Promise<unknown>, string | null][] = [
    ["plan.json", (at) => planSource({ ...CHOICES, planPath: join(at, "plan.json") }), "plan-file-unreadable"],
    ["athlete.json", loadAthlete, "athlete-file-unreadable"],
    ["debrief.json", loadDebrief, "debrief-unreadable"],
    ["debrief.json.bak", (at) => loadFolder(at, false, true), "debrief-unusable"],
    ["squad-row.json", loadSquadRow, null],
  ];
  it.each(cases)("as %s", async (name, read, code) => {
    pipe = join(folder, name);
    execFileSync("mkfifo", [pipe]);
    if (name === "debrief.json.bak") await writeFile(join(folder, "debrief.json"), "{");
    const waited = new Promise((resolve) => setTimeout(() => resolve("it waits"), 3000));
    const said = read(folder).then(
      (value) => value,
      (error: { notice?: { code: string } }) => error.notice?.code ?? error,
    );
    expect(await Promise.race([said, waited])).toBe(code);
  });

  it("as a clip is told from a folder", async () => {
    pipe = join(folder, "clip.mp4");
    execFileSync("mkfifo", [pipe]);
    const unreadable = { notice: { code: "clip-file-unreadable", facts: { why: "no file" } } };
    await expect(probeClip(pipe, "clip", noTools)).rejects.toMatchObject(unreadable);
    unreadable.notice.facts.why = "folder";
    await expect(probeClip(folder, "clip", noTools)).rejects.toMatchObject(unreadable);
  });

  it("and what is far too large is not read at all", async () => {
    pipe = join(folder, "pipe");
    execFileSync("mkfifo", [pipe]);
    const large = await open(join(folder, "large.json"), "w");
    await large.truncate(10 * 1024 ** 3);
    await large.close();
    await mkdir(join(folder, "folder.json"));
    await expect(readText(join(folder, "large.json"))).rejects.toMatchObject({ why: "too large" });
    await expect(readText(pipe)).rejects.toMatchObject({ why: "no ordinary file" });
    await expect(readText(join(folder, "folder.json"))).rejects.toMatchObject({ code: "EISDIR" });
  });
});
