import { open } from "node:fs/promises";
import { basename } from "node:path";
import { Failure } from "../contract/failure.ts";
import type { Clip } from "../contract/footage.ts";
import type { Ride } from "../contract/ride.ts";
import type { Tools } from "../contract/tools.ts";
import { probeClip } from "../footage/probeClip.edge.ts";
import { readRide } from "../ride/readRide.edge.ts";

/** Box types that an MP4 or QuickTime file can begin with (ISO/IEC 14496-12 and QuickTime File Format). */
const MOVIE_BOXES = new Set(["ftyp", "moov", "mdat", "wide", "free", "skip", "pnot"]);
const MOVIE_NAMES = /\.(mp4|mov|m4v)$/i;

async function isMovie(path: string): Promise<boolean> {
  if (MOVIE_NAMES.test(path)) return true;
  let file;
  try {
    file = await open(path);
    const { buffer, bytesRead } = await file.read(Buffer.alloc(8), 0, 8, 0);
    return bytesRead === 8 && MOVIE_BOXES.has(buffer.toString("latin1", 4, 8));
  } catch {
    return false;
  } finally {
    await file?.close();
  }
}

/** Files in any order, told apart by what they begin with: movies are clips, all else is taken for a ride. */
export async function sortFiles(paths: readonly string[]): Promise<{ ridePaths: string[]; clipPaths: string[] }> {
  const ridePaths: string[] = [];
  const clipPaths: string[] = [];
  for (const path of paths) ((await isMovie(path)) ? clipPaths : ridePaths).push(path);
  return { ridePaths, clipPaths };
}

/** Rides and clips as read; at least one ride. Failure `usage` without a ride. */
export async function gather(
  paths: readonly string[],
  tools: Tools,
): Promise<{ rides: Ride[]; ridePaths: string[]; clips: Clip[] }> {
  const { ridePaths, clipPaths } = await sortFiles(paths);
  if (ridePaths.length === 0) {
    throw new Failure("usage", "No ride file was given.", "Name a FIT, GPX, TCX or CSV file (plain or gzipped).");
  }
  const rides: Ride[] = [];
  for (const path of ridePaths) rides.push(await readRide(path));
  const clips: Clip[] = [];
  for (const [index, path] of clipPaths.entries()) clips.push(await probeClip(path, `clip${index + 1}`, tools));
  return { rides, ridePaths, clips };
}

/** The ride whose numbers are shown: the one named, else the first. Failure `usage` when the name fits none. */
export function shownRide(
  rides: readonly Ride[],
  ridePaths: readonly string[],
  show: string | null,
): { ride: Ride; index: number } {
  if (show === null) return { ride: rides[0], index: 0 };
  const index = ridePaths.findIndex((path) => path === show || basename(path) === show);
  if (index < 0) {
    throw new Failure(
      "usage",
      `--show ${show} names none of the rides given.`,
      `Rides: ${ridePaths.map((path) => basename(path)).join(", ")}.`,
    );
  }
  return { ride: rides[index], index };
}
