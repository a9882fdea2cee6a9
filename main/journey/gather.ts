import { basename } from "node:path";
import type { MediaRef } from "../contract/debrief.ts";
import { Failure } from "../contract/failure.ts";
import type { Clip } from "../contract/footage.ts";
import { note, type Note } from "../contract/notice.ts";
import type { Plan } from "../contract/plan.ts";
import type { ClipSignals } from "../contract/signals.ts";
import type { ClipTelemetry } from "../contract/telemetry.ts";
import { newDebrief } from "../debrief/debriefDocument.ts";
import { findMedia } from "../debrief/findMedia.edge.ts";
import { openToRead } from "../host/openToRead.edge.ts";
import { companionClip } from "../footage/companionClip.edge.ts";
import { companionsAmong } from "../footage/companionsAmong.edge.ts";
import { fingerprintFile } from "../footage/fingerprint.edge.ts";
import { probeClip } from "../footage/probeClip.edge.ts";
import { keptSignals } from "../footage/signals/cachedSignals.edge.ts";
import { readTelemetry } from "../footage/telemetry/readTelemetry.edge.ts";
import { localStartMs } from "../reading/plan/targetFor.ts";
import { type Debrief, type LoadedRide, type Media, NO_MEDIA, unreadDebrief } from "./debrief.ts";
import { readGivenRide } from "./givenRide.ts";
import { turningFelt } from "./heardClips.ts";
import type { Host } from "./host.ts";

/** Box types that an MP4 or QuickTime file can begin with (ISO/IEC 14496-12 and QuickTime File Format). */
const MOVIE_BOXES = new Set(["ftyp", "moov", "mdat", "wide", "free", "skip", "pnot"]);
const MOVIE_NAMES = /\.(mp4|mov|m4v)$/i;

async function isMovie(path: string): Promise<boolean> {
  if (MOVIE_NAMES.test(path)) return true;
  let file;
  try {
    file = await openToRead(path);
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

/** A clip with all that its files say, read once. */
export interface GatheredClip {
  readonly clip: Clip;
  readonly companion: Clip | null;
  readonly telemetry: ClipTelemetry | null;
  /** What was seen and heard of it before; null where nobody looked. */
  readonly signals: ClipSignals | null;
}

/** Reads a clip, the small one its camera wrote beside it, and their telemetry. Failures as `probeClip`. */
export async function readClip(path: string, host: Host): Promise<GatheredClip> {
  const clip = await probeClip(path, "clip", host.tools);
  const companion = await companionClip(clip);
  // Some cameras write it into the small clip beside the big one only.
  const source = clip.hasTelemetry ? clip : companion;
  const telemetry = source && (await readTelemetry(source));
  return { clip, companion, telemetry, signals: await keptSignals(clip, host.cacheDir, turningFelt(telemetry)) };
}

export function withRide(media: Media, id: string, ride: LoadedRide): Media {
  return { ...media, rides: new Map(media.rides).set(id, ride) };
}

export function withClip(media: Media, id: string, gathered: GatheredClip): Media {
  const { clip, companion, telemetry, signals } = gathered;
  const one = <T>(value: T | null): [string, T][] => (value === null ? [] : [[id, value]]);
  return {
    ...media,
    clips: new Map(media.clips).set(id, { ...clip, id }),
    companions: new Map([...media.companions, ...one(companion && { ...companion, id })]),
    telemetry: new Map([...media.telemetry, ...one(telemetry && { ...telemetry, clipId: id })]),
    signals: new Map([...media.signals, ...one(signals && { ...signals, clipId: id })]),
  };
}

export function withSignals(media: Media, found: readonly ClipSignals[]): Media {
  if (found.length === 0) return media;
  return { ...media, signals: new Map([...media.signals, ...found.map((one) => [one.clipId, one] as const)]) };
}

/**
 * Looks for a file that a document names and reads it beside the others. Null where it is not found.
 * Failures as `findMedia`, `readRide` and `probeClip`.
 */
export async function gatherRef(
  { folder, media }: Pick<Debrief, "folder" | "media">,
  ref: MediaRef,
  where: { readonly consent: boolean; readonly searchIn: readonly string[] },
  host: Host,
): Promise<Media | null> {
  const path = folder && (await findMedia(folder, ref, { ...where, fingerprint: fingerprintFile }));
  if (path === null) return null;
  return ref.kind === "ride"
    ? withRide(media, ref.id, { path, ride: await host.rides.read(path) })
    : withClip(media, ref.id, await readClip(path, host));
}

/** Files of one outing, read. */
export interface GatheredFiles {
  /** Its document names the rides and the clips, without the small copies; all are in its media. */
  readonly debrief: Debrief;
  /** The clips as given, in their order. */
  readonly given: readonly Clip[];
  /** A note for each file that was given a second time. */
  readonly twice: readonly Note[];
  /** The big clip of each small copy among them, by the small one's id. */
  readonly bigOf: ReadonlyMap<string, Clip>;
}

/**
 * Rides and clips as read, in a new debrief without a place.
 *
 * @param show the ride whose numbers are shown, by path or name; null: the first
 * @param planOf the plan of a ride that began at this local time, ms
 * @throws Failure `usage` without a ride, or when `show` fits none; and what reading gives
 */
export async function gather(
  paths: readonly string[],
  show: string | null,
  planOf: (rideLocalMs: number | null) => Plan,
  host: Host,
): Promise<GatheredFiles> {
  const { kept, sameAs, twice } = await distinctFiles(paths);
  const { ridePaths, clipPaths } = await sortFiles(kept);
  if (ridePaths.length === 0) {
    throw new Failure("no-ride-given", {});
  }
  let media = NO_MEDIA;
  for (const [index, path] of ridePaths.entries())
    media = withRide(media, `ride${index + 1}`, { path, ride: await readGivenRide(path, host.rides) });
  for (const [index, path] of clipPaths.entries())
    media = withClip(media, `clip${index + 1}`, await readClip(path, host));
  const given = [...media.clips.values()];
  const bigOf = companionsAmong(given, media.companions);
  const shownId = `ride${shownIndex(ridePaths, show, sameAs) + 1}`;
  const refs = [
    ...[...media.rides].map(([id, { path }]) => namedRef(id, "ride", path)),
    ...given.filter(({ id }) => !bigOf.has(id)).map(({ id, path }) => namedRef(id, "clip", path)),
  ];
  const document = newDebrief(planOf(localStartMs(media.rides.get(shownId)!.ride)), refs, shownId);
  return { debrief: { ...unreadDebrief(document, null), media }, given, twice, bigOf };
}

/** A reference that holds while the files are in memory; one to be kept is made by `mediaRef`. */
function namedRef(id: string, kind: MediaRef["kind"], path: string): MediaRef {
  return { id, kind, path, bytes: 0, fingerprint: "" };
}

/** Each file once, whatever names it was given under. */
async function distinctFiles(paths: readonly string[]): Promise<{
  readonly kept: readonly string[];
  /** The path that is kept of each that is left out. */
  readonly sameAs: ReadonlyMap<string, string>;
  readonly twice: readonly Note[];
}> {
  const byContent = new Map<string, string>();
  const sameAs = new Map<string, string>();
  const kept: string[] = [];
  const twice: Note[] = [];
  for (const path of paths) {
    // What can't be read is told by who reads it.
    const content = await fingerprintFile(path).catch(() => null);
    const first = content === null ? undefined : byContent.get(content);
    if (first === undefined) {
      kept.push(path);
      if (content !== null) byContent.set(content, path);
    } else {
      if (path !== first) sameAs.set(path, first);
      twice.push(note("file-given-twice", { fileName: basename(path), sameAs: basename(first) }));
    }
  }
  return { kept, sameAs, twice };
}

function shownIndex(ridePaths: readonly string[], show: string | null, sameAs: ReadonlyMap<string, string>): number {
  if (show === null) return 0;
  const named = [...ridePaths, ...sameAs.keys()].find((path) => path === show || basename(path) === show);
  const index = named === undefined ? -1 : ridePaths.indexOf(sameAs.get(named) ?? named);
  if (index < 0) {
    throw new Failure("shown-ride-unknown", { name: show, rides: ridePaths.map((path) => basename(path)) });
  }
  return index;
}
