import type { Film, Shot } from "../contract/film.ts";
import type { Clip } from "../contract/footage.ts";
import type { Moment } from "../contract/reading.ts";
import { coversOf } from "../../overlay/instant/coversOf.ts";
import { filmClock } from "../../overlay/instant/filmClock.ts";
import type { DebriefPhrases } from "../../overlay/words/debriefPhrases.ts";
import { itemTitle } from "./filmText.ts";

type Json = Record<string, unknown>;

/** Objects as the reference implementation serialises them: its schema names and every field of theirs. */
function schemas(rate: number): {
  time: (value: number) => Json;
  range: (start: number, duration: number) => Json;
  reference: (url: string, name: string, frames: number) => Json;
  clip: (
    name: string,
    start: number,
    duration: number,
    reference: Json,
    more?: { effects?: Json[]; markers?: Json[]; metadata?: Json },
  ) => Json;
} {
  const time = (value: number): Json => ({ OTIO_SCHEMA: "RationalTime.1", rate, value });
  const range = (start: number, duration: number): Json => ({
    OTIO_SCHEMA: "TimeRange.1",
    duration: time(duration),
    start_time: time(start),
  });
  return {
    time,
    range,
    reference: (url, name, frames) => ({
      OTIO_SCHEMA: "ExternalReference.1",
      metadata: {},
      name,
      available_range: range(0, frames),
      available_image_bounds: null,
      target_url: url,
    }),
    clip: (name, start, duration, reference, more = {}) => ({
      OTIO_SCHEMA: "Clip.2",
      metadata: more.metadata ?? {},
      name,
      source_range: range(start, duration),
      effects: more.effects ?? [],
      markers: more.markers ?? [],
      enabled: true,
      media_references: { DEFAULT_MEDIA: reference },
      active_media_reference_key: "DEFAULT_MEDIA",
    }),
  };
}

const timeWarp = (speed: number): Json => ({
  OTIO_SCHEMA: "LinearTimeWarp.1",
  metadata: {},
  name: "",
  effect_name: "LinearTimeWarp",
  enabled: true,
  time_scalar: speed,
});
const freezeFrame: Json = {
  OTIO_SCHEMA: "FreezeFrame.1",
  metadata: {},
  name: "",
  effect_name: "FreezeFrame",
  enabled: true,
  time_scalar: 0,
};

const isCovered = (film: Film, shot: Shot): boolean =>
  coversOf(film, shot.clipId, shot, { startS: shot.mediaStartS, endS: shot.mediaEndS }).length > 0;

/**
 * The film as an OpenTimelineIO file: one video track, a clip per shot (with its speed as a linear time warp and its
 * freezes as freeze frames), cards and shots of which something is covered as spans of the rendered film, a marker per
 * moment. Crossfades are cut in their middle. Schema names and fields are those that the reference implementation's
 * samples hold.
 * @param names the coach's own names of moments, by index
 * @param urls where each clip lies, from the file's own folder; a clip without one is left as its name
 */
export function timelineOtio(
  film: Film,
  clips: readonly Clip[],
  moments: readonly Moment[],
  words: DebriefPhrases,
  title: string,
  urls: ReadonlyMap<string, { readonly url: string; readonly name: string }>,
  names: ReadonlyMap<number, string> = new Map(),
): string {
  const perSecond = film.frameRate.num / film.frameRate.den;
  const make = schemas(perSecond);
  const clock = filmClock(film);
  const children = clock.spans.flatMap((span, index): Json[] => {
    const item = film.items[index]!;
    const next = clock.spans[index + 1];
    // A crossfade is shared: half belongs to either side.
    const cutIn = Math.floor(span.crossfadeFrames / 2);
    const cutOut = Math.ceil((next?.crossfadeFrames ?? 0) / 2);
    const frames = span.frames - cutIn - cutOut;
    const moment = item.moment === null ? undefined : moments[item.moment];
    const name = moment === undefined ? itemTitle(item) : (names.get(item.moment!) ?? words.momentName(moment.kind));
    const metadata: Json = { followcar: { id: item.id, why: item.why } };
    const marker = (start: number): Json[] =>
      moment === undefined
        ? []
        : [
            {
              OTIO_SCHEMA: "Marker.2",
              metadata: { followcar: { kind: moment.kind, rideStartS: moment.startS, rideEndS: moment.endS } },
              name,
              color: "ORANGE",
              marked_range: make.range(start, 0),
              comment: item.type === "shot" ? item.captions.map((caption) => caption.text).join(" / ") : "",
            },
          ];
    // What is covered in the film is not in its clip: such a shot, too, is a span of the film.
    if (item.type === "card" || isCovered(film, item))
      return [
        make.clip(name, span.startFrame + cutIn, frames, make.reference("film.mp4", "film.mp4", clock.frames), {
          markers: marker(span.startFrame + cutIn),
          metadata,
        }),
      ];
    const clip = clips.find((one) => one.id === item.clipId);
    const where = urls.get(item.clipId) ?? { url: item.clipId, name: item.clipId };
    const reference = make.reference(
      where.url,
      where.name,
      Math.floor((clip?.durationS ?? item.mediaEndS) * perSecond),
    );
    return clock
      .runs(index)
      .flatMap((run) => {
        const first = Math.max(cutIn, run.firstFrame);
        const length = Math.min(span.frames - cutOut, run.firstFrame + run.frames) - first;
        return length <= 0 ? [] : [{ frozen: run.frozen, first, frames: length }];
      })
      .map((piece, at) => {
        const start = Math.round((clock.within(index, piece.first)?.mediaS ?? 0) * perSecond);
        const effects = piece.frozen ? [freezeFrame] : item.speed === 1 ? [] : [timeWarp(item.speed)];
        return make.clip(name, start, piece.frames, reference, {
          effects,
          markers: at === 0 ? marker(start) : [],
          metadata,
        });
      });
  });
  const composition = (schema: string, name: string, more: Json): Json => ({
    OTIO_SCHEMA: schema,
    metadata: {},
    name,
    source_range: null,
    effects: [],
    markers: [],
    enabled: true,
    ...more,
  });
  const track = composition("Track.1", "Film", { children, kind: "Video" });
  const timeline: Json = {
    OTIO_SCHEMA: "Timeline.1",
    metadata: {},
    name: title,
    global_start_time: null,
    tracks: composition("Stack.1", "tracks", { children: [track] }),
  };
  return `${JSON.stringify(timeline, null, 4)}\n`;
}
