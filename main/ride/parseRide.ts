import { Failure } from "../contract/failure.ts";
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

const REMEDY = "Choose a FIT, GPX, TCX or CSV file of a recorded ride, plain or gzipped.";

/**
 * Reads a ride file of any kind from its bytes; the kind is told by content, the name is for people only. What is whole
 * is read and what is odd stands in the warnings. Failure `ride-not-usable` when there is no ride in it.
 */
export function parseRide(bytes: Uint8Array, fileName: string): Ride {
  if (bytes.length === 0) throw new Failure("ride-not-usable", `${fileName} is empty.`, "Copy or export the ride again.");
  if (bytes.length > MOST_BYTES) throw new Failure("ride-not-usable", `${fileName} is larger than any ride file.`, REMEDY);
  if (!isGzip(bytes)) return parsePlain(bytes, fileName, []);
  const unpacked = unpackGzip(bytes, fileName);
  return parsePlain(unpacked.bytes, fileName, unpacked.warnings);
}

function parsePlain(bytes: Uint8Array, fileName: string, warnings: readonly string[]): Ride {
  const { format, decoded } = decode(bytes, fileName);
  return assembleRide({ ...decoded, warnings: [...warnings, ...decoded.warnings] }, fileName, format);
}

function decode(bytes: Uint8Array, fileName: string): { format: RideFormat; decoded: DecodedRide } {
  if (isHeader(bytes, 0)) return { format: "fit", decoded: decodeFit(bytes) };
  if (isGzip(bytes)) throw new Failure("ride-not-usable", `${fileName} is compressed more than once.`, "Unpack it once and try again.");
  if (bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2]! < 9) {
    throw new Failure("ride-not-usable", `${fileName} is a zip archive.`, "Unpack it and choose the ride file inside.");
  }
  const text = decodeText(bytes);
  if (text === null) throw new Failure("ride-not-usable", `${fileName} is not a ride file.`, REMEDY);
  if (!text.startsWith("<")) return { format: "csv", decoded: decodeCsv(text, fileName) };
  // Judged by the points, not by the root: exports differ in what they put around them.
  if (/<(\w+:)?trackpoint[\s>/]/i.test(text)) return { format: "tcx", decoded: decodeTcx(text) };
  if (/<(\w+:)?trkpt[\s>/]/i.test(text)) return { format: "gpx", decoded: decodeGpx(text, fileName) };
  if (/<(\w+:)?(gpx|TrainingCenterDatabase)[\s>]/i.test(text)) {
    throw new Failure("ride-not-usable", `${fileName} holds no track point.`, "Choose the file of a recorded ride, not of waypoints, a route or a course.");
  }
  throw new Failure("ride-not-usable", `${fileName} is not a ride file.`, REMEDY);
}
