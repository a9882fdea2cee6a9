import type { FileSource } from "../mp4/fileSource.edge.ts";
import type { Movie, Track } from "../mp4/movie.ts";
import { sampleOffsets } from "../mp4/sampleOffsets.ts";
import { toldPlace } from "./placeText.ts";
import { sampleText, TEXT_FORMATS } from "./textTelemetry.ts";

/** A text sample is a line or a few; one that claims more than this is damage. */
const TEXT_LIMIT_BYTES = 65_537;
/** So many samples of a text track are looked at for a place: those before a fix tell none. */
const LOOKED_AT = 60;

async function tellsPlaces(source: FileSource, track: Track): Promise<boolean> {
  const { offsets, sizes } = sampleOffsets(track.samples);
  const step = Math.max(1, Math.floor(offsets.length / LOOKED_AT));
  for (let k = 0; k < offsets.length; k += step) {
    if (sizes[k]! <= 2 || sizes[k]! > TEXT_LIMIT_BYTES || offsets[k]! + sizes[k]! > source.size) continue;
    if (toldPlace(sampleText(await source.read(offsets[k]!, sizes[k]!)))) return true;
  }
  return false;
}

/** The track that tells where a clip was filmed: `gpmd`, else `camm`, else a text track that tells places. Null where there is none. */
export async function telemetryTrack(source: FileSource, movie: Movie): Promise<Track | null> {
  for (const format of ["gpmd", "camm"]) {
    const track = movie.tracks.find(({ entry }) => entry?.format === format);
    if (track) return track;
  }
  for (const track of movie.tracks)
    if (TEXT_FORMATS.includes(track.entry?.format ?? "") && (await tellsPlaces(source, track))) return track;
  return null;
}
