import { Failure } from "../contract/failure.ts";
import type { Clip } from "../contract/footage.ts";
import type { Anchor } from "../contract/lineup.ts";
import type { Ride } from "../contract/ride.ts";
import { parseRideTime } from "./parseRideTime.ts";
import { readingErrorS, secondsOf } from "./timeText.ts";

/** Composed form, so that an umlaut typed and one stored by another system are the same; `./a//b` is `a/b`. */
function plain(text: string): string {
  return text
    .normalize("NFC")
    .replace(/^(?:\.[\\/]+)+/, "")
    .replaceAll(/([\\/])(?:\.?[\\/])+/g, "$1");
}

function findClip(name: string, clips: readonly Clip[], bigOf: ReadonlyMap<string, Clip>): Clip {
  const wanted = plain(name);
  const byRule = [
    (clip: Clip) => plain(clip.path) === wanted,
    (clip: Clip) => plain(clip.fileName) === wanted,
    (clip: Clip) => plain(clip.path).toLowerCase().includes(wanted.toLowerCase()),
  ];
  for (const rule of byRule) {
    const fitting = clips.filter(rule);
    const found = fitting.filter(({ id }) => !fitting.some((other) => other.id === bigOf.get(id)?.id));
    if (found.length === 1) return found[0]!;
    if (found.length > 1) {
      throw new Failure("anchor-clip-ambiguous", { name, paths: found.map((clip) => clip.path) });
    }
  }
  throw new Failure("anchor-clip-unknown", { name, given: clips.map((clip) => clip.fileName) });
}

/** An instant in a clip from `CLIP@T`. Failures as `parseAnchor`. */
export function parseClipInstant(
  text: string,
  clips: readonly Clip[],
  bigOf: ReadonlyMap<string, Clip> = new Map(),
): { readonly clip: Clip; readonly mediaS: number } {
  const at = text.lastIndexOf("@");
  const mediaText = text.slice(at + 1);
  const mediaS = secondsOf(mediaText);
  if (at <= 0 || mediaS === null) throw new Failure("clip-instant-form", { text });
  const clip = findClip(text.slice(0, at), clips, bigOf);
  if (mediaS > clip.durationS)
    throw new Failure("anchor-outside-clip", { fileName: clip.fileName, text: mediaText, durationS: clip.durationS });
  return { clip, mediaS };
}

/**
 * One anchor from `CLIP@T=RIDE_T`: T is seconds or h:mm:ss.s into the clip, RIDE_T any form of `parseRideTime`. `slow 4`
 * or `fast 10` behind it says how the clip plays against life.
 * Split at the last `@` and then at the next `=`, so that a clip's name may hold both. Throws a `Failure` when it is
 * not of that form, names no clip or several, or lies outside the clip or the ride. Where a name fits a clip and the camera's
 * small copy of it, the clip is meant; `bigOf` holds that clip by the copy's id.
 */
export function parseAnchor(
  text: string,
  clips: readonly Clip[],
  ride: Ride,
  bigOf: ReadonlyMap<string, Clip> = new Map(),
): Anchor {
  const at = text.lastIndexOf("@");
  const equals = at < 0 ? -1 : text.indexOf("=", at);
  const mediaText = equals < 0 ? "" : text.slice(at + 1, equals);
  if (at <= 0 || secondsOf(mediaText) === null) {
    throw new Failure("anchor-form", { text });
  }
  const { clip, mediaS } = parseClipInstant(text.slice(0, equals), clips, bigOf);
  const speed = /\s+(slow|fast)\s+(\d+(?:\.\d+)?)\s*$/i.exec(text.slice(equals + 1));
  const times = speed ? Number(speed[2]) : 1;
  if (!(times >= 1 && times <= 1000)) throw new Failure("anchor-form", { text });
  const instant = parseRideTime(text.slice(equals + 1, speed ? equals + 1 + speed.index : undefined), ride);
  return {
    clipId: clip.id,
    mediaS,
    rideS: instant.rideS,
    sigmaS: Math.hypot(instant.sigmaS, readingErrorS(mediaText) / 3),
    ...(speed ? { rate: speed[1]!.toLowerCase() === "slow" ? 1 / times : times } : {}),
  };
}
