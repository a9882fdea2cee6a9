// kill -9 in the middle of rendering, and renders at the same time: no half film under its name, the same frames as
// undisturbed, nothing left behind.
import { spawn } from "node:child_process";
import { existsSync } from "node:fs";
import { mkdir, mkdtemp, readdir, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { toolsInUse } from "../../main/host/toolsInUse.edge.ts";
import { buildChild } from "./buildChild.ts";
import { seeded } from "../ride/mutate.ts";
import { runProgram, writeNumberedClip } from "../support/video.ts";

/** How long a run lasts that is not killed, ms, at most. */
const LONGEST_MS = 600_000;

/** A place to render in, with a clip, a cache and a temporary folder of its own. */
export interface RenderPlace {
  readonly folder: string;
  /** Hash of each frame and sound packet of a film. */
  hashes(film: string): Promise<string>;
  /** Renders to a film in the folder, killed outright after so long. @returns code, or null where it was killed; what it said */
  run(film: string, killAfterMs?: number): Promise<{ readonly code: number | null; readonly said: string }>;
  /** Removes all finished parts. */
  clearCache(): Promise<void>;
  /** What stands in the folder that is neither a whole film, a whole part nor the clip. */
  leftBehind(): Promise<string[]>;
  remove(): Promise<void>;
}

export async function renderPlace(): Promise<RenderPlace> {
  const program = await buildChild("renderChild", false);
  const tools = toolsInUse();
  const folder = await mkdtemp(join(tmpdir(), "followcar-renders-"));
  const clip = join(folder, "clip.mp4");
  const temporary = join(folder, "tmp");
  await mkdir(temporary);
  await writeNumberedClip(
    clip,
    { widthPx: 320, heightPx: 180, frames: 150, rate: "30", sound: "sine=440:r=48000:d=6" },
    tools,
  );
  return {
    folder,
    async hashes(film) {
      const found = await runProgram(tools.ffmpeg, ["-v", "error", "-i", join(folder, film), "-f", "framemd5", "-"]);
      return found.toString();
    },
    run: (film, killAfterMs) =>
      new Promise((done) => {
        const child = spawn(process.execPath, [program, clip, join(folder, "cache"), join(folder, film)], {
          stdio: ["ignore", "ignore", "pipe"],
          env: { ...process.env, TMPDIR: temporary },
        });
        let said = "";
        const timer = setTimeout(() => child.kill("SIGKILL"), killAfterMs ?? LONGEST_MS);
        child.stderr.on("data", (bytes: Buffer) => (said += bytes.toString()));
        child.on("close", (code) => {
          clearTimeout(timer);
          done({ code, said });
        });
      }),
    clearCache: () => rm(join(folder, "cache"), { recursive: true, force: true }),
    async leftBehind() {
      const names = await readdir(folder, { recursive: true, withFileTypes: true });
      return names
        .filter((one) => one.isFile() && !/^[0-9a-f]{32}\.mov$|^[a-z0-9]+\.mp4$/.test(one.name))
        .map(({ name }) => name);
    },
    remove: () => rm(folder, { recursive: true, force: true }),
  };
}

/**
 * Kills a render so many times at points that the seed gives, or until the time is up. A film that got whole between two
 * kills is compared with the undisturbed one, and begun again.
 * @returns how many kills hit, and what was wrong
 */
export async function killedRenders(
  count: number,
  seed: number,
  untilMs = Infinity,
): Promise<{ tried: number; faults: string[] }> {
  const place = await renderPlace();
  const faults: string[] = [];
  const random = seeded(seed);
  let tried = 0;
  try {
    const beganMs = Date.now();
    const first = await place.run("whole.mp4");
    const tookMs = Date.now() - beganMs;
    if (first.code !== 0) return { tried, faults: [`undisturbed: ${first.said}`] };
    const whole = await place.hashes("whole.mp4");
    const again = async (): Promise<void> => {
      await place.clearCache();
      await rm(join(place.folder, "film.mp4"), { force: true });
    };
    const compare = async (): Promise<void> => {
      if ((await place.hashes("film.mp4")) !== whole) faults.push(`after kill ${tried}: other frames`);
      const left = await place.leftBehind();
      if (left.length > 0) faults.push(`after kill ${tried}: left behind: ${left.join(", ")}`);
      await again();
    };
    await again();
    while (tried < count && Date.now() < untilMs && faults.length < 10) {
      const { code, said } = await place.run("film.mp4", random() * tookMs);
      if (code === null) tried += 1;
      else if (code !== 0) faults.push(`after kill ${tried}: ${said}`);
      // Under its name a film is whole, be it that the kill came right after.
      if (existsSync(join(place.folder, "film.mp4"))) {
        const last = code === 0 ? null : await place.run("film.mp4");
        if (last !== null && last.code !== 0) faults.push(`after kill ${tried}: ${last.said}`);
        await compare();
      }
    }
    const last = await place.run("film.mp4");
    if (last.code === 0) await compare();
    else faults.push(`after the last kill: ${last.said}`);
  } finally {
    await place.remove();
  }
  return { tried, faults };
}
