import { stat } from "node:fs/promises";
import { basename, dirname, isAbsolute, resolve } from "node:path";
import { Failure } from "../contract/failure.ts";
import type { Ride } from "../contract/ride.ts";
import { DEBRIEF_FILE, loadDebrief } from "../debrief/debriefStore.edge.ts";
import { wasMadeHere } from "../debrief/madeHere.edge.ts";
import { leavesFolder } from "../debrief/mediaPath.ts";
import type { RideWork } from "./host.ts";

/**
 * Reads a ride file that a person named. Failures as `readRide`; `ride-is-debrief` where a debrief was named instead,
 * with the ride that it is of.
 */
export async function readGivenRide(path: string, rides: RideWork): Promise<Ride> {
  try {
    return await rides.read(path);
  } catch (error) {
    throw (await ofDebrief(path)) ?? error;
  }
}

/** The Failure for a path that is a debrief's folder or document; null for any other. */
async function ofDebrief(path: string): Promise<Failure | null> {
  const folder = resolve(basename(path) === DEBRIEF_FILE ? dirname(path) : path);
  const opened = await loadDebrief(folder).catch(() => null);
  const named = opened?.document.media.find(({ id }) => id === opened.document.shownRideId)?.path;
  if (named === undefined) return null;
  // Where a stranger's debrief points to is not looked at unasked.
  const mayLook = !leavesFolder(named) || (await wasMadeHere(folder));
  const ridePath = isAbsolute(named) ? named : resolve(folder, named);
  const isThere = mayLook && (await stat(ridePath).catch(() => null))?.isFile() === true;
  return new Failure("ride-is-debrief", {
    name: basename(folder),
    rideName: named.split("/").at(-1) ?? named,
    ridePath: isThere ? ridePath : null,
  });
}
