import { Failure } from "../contract/failure.ts";
import type { Note } from "../contract/notice.ts";
import type { Ride, RideFormat } from "../contract/ride.ts";
import { assembleRide } from "./assembleRide.ts";
import { decodeCsv } from "./csv.ts";
import { decodeText } from "./decodeText.ts";
import { isHeader } from "./fit/cleanFit.ts";
import { decodeFit } from "./fit/decodeFit.ts";
import { decodeGpx } from "./gpx.ts";
import type { DecodedRide } from "./rideRecords.ts";
import { decodeTcx } from "./tcx.ts";
import { isGzip, MOST_BYTES, unpackGzip } from "./unpackGzip.ts";

const ROOT = /<(?:[\w.-]+:)?(gpx|TrainingCenterDatabase)[\s>]/i;
const POINT = /<(?:[\w.-]+:)?(trkpt|trackpoint)[\s>]/i;

/**
 * Reads a ride file of any kind from its bytes; the kind is told by content, the name is for people only. What is whole
 * is read and what is odd stands in the warnings. Failure `ride-not-usable` when there is no ride in it.
 */
export function parseRide(bytes: Uint8Array, fileName: string): Ride {
  if (bytes.length === 0) throw new Failure("ride-empty", { fileName });
  if (bytes.length > MOST_BYTES) throw new Failure("ride-file-too-large", { fileName });
  if (!isGzip(bytes)) return parsePlain(bytes, fileName, []);
  const unpacked = unpackGzip(bytes, fileName);
  return parsePlain(unpacked.bytes, fileName, unpacked.warnings);
}

function parsePlain(bytes: Uint8Array, fileName: string, warnings: readonly Note[]): Ride {
  const { format, decoded } = decode(bytes, fileName);
  return assembleRide({ ...decoded, warnings: [...warnings, ...decoded.warnings] }, fileName, format);
}

function decode(bytes: Uint8Array, fileName: string): { format: RideFormat; decoded: DecodedRide } {
  if (isHeader(bytes, 0)) return { format: "fit", decoded: decodeFit(bytes, fileName) };
  if (isGzip(bytes)) throw new Failure("ride-packed-twice", { fileName });
  if (bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] < 9) {
    throw new Failure("ride-zip-archive", { fileName });
  }
  const text = decodeText(bytes);
  if (text === null) throw new Failure("ride-no-ride-file", { fileName });
  if (!text.startsWith("<")) return { format: "csv", decoded: decodeCsv(text, fileName) };
  // By the root; a text that has lost its own is told by its points.
  const kind = ROOT.exec(text.slice(0, 5000))?.[1] ?? POINT.exec(text)?.[1];
  switch (kind?.toLowerCase()) {
    case "gpx":
    case "trkpt":
      return { format: "gpx", decoded: decodeGpx(text, fileName) };
    case "trainingcenterdatabase":
    case "trackpoint":
      return { format: "tcx", decoded: decodeTcx(text, fileName) };
  }
  throw new Failure("ride-no-ride-file", { fileName });
}
