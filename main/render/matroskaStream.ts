/**
 * A live Matroska stream of uncompressed pictures: each with its own time in microseconds, no encoder, no file.
 * Source: RFC 9559 (Matroska), RFC 8794 (EBML); codec V_UNCOMPRESSED.
 */
const ID = {
  ebml: 0x1a45dfa3,
  docType: 0x4282,
  docTypeVersion: 0x4287,
  docTypeReadVersion: 0x4285,
  segment: 0x18538067,
  info: 0x1549a966,
  timestampScale: 0x2ad7b1,
  muxingApp: 0x4d80,
  writingApp: 0x5741,
  tracks: 0x1654ae6b,
  trackEntry: 0xae,
  trackNumber: 0xd7,
  trackUid: 0x73c5,
  trackType: 0x83,
  codecId: 0x86,
  video: 0xe0,
  pixelWidth: 0xb0,
  pixelHeight: 0xba,
  colourSpace: 0x2eb524,
  cluster: 0x1f43b675,
  clusterTimestamp: 0xe7,
  simpleBlock: 0xa3,
} as const;

const VIDEO_TRACK = 1;
/** Every bit of an 8-byte size set: a segment that ends when the stream does. */
const UNKNOWN_SIZE = [0x01, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff];

/** Names of pixel layouts as ffmpeg's table of raw formats has them. */
const FOUR_CC = {
  /** Planes Y, U, V (halved both ways) and A. */
  yuva420p: Uint8Array.from([0x59, 0x34, 11, 8]),
  rgba: text("RGBA"),
} as const;

export type PixelLayout = keyof typeof FOUR_CC;

/** What stands before the first picture. */
export function matroskaHeader(widthPx: number, heightPx: number, layout: PixelLayout): Uint8Array {
  const ebml = element(ID.ebml, [
    element(ID.docType, text("matroska")),
    element(ID.docTypeVersion, uint(4)),
    element(ID.docTypeReadVersion, uint(2)),
  ]);
  const info = element(ID.info, [
    element(ID.timestampScale, uint(1000)),
    element(ID.muxingApp, text("followcar")),
    element(ID.writingApp, text("followcar")),
  ]);
  const video = element(ID.video, [
    element(ID.pixelWidth, uint(widthPx)),
    element(ID.pixelHeight, uint(heightPx)),
    element(ID.colourSpace, FOUR_CC[layout]),
  ]);
  const track = element(ID.trackEntry, [
    element(ID.trackNumber, uint(1)),
    element(ID.trackUid, uint(1)),
    element(ID.trackType, uint(VIDEO_TRACK)),
    element(ID.codecId, text("V_UNCOMPRESSED")),
    video,
  ]);
  return join([ebml, idBytes(ID.segment), Uint8Array.from(UNKNOWN_SIZE), info, element(ID.tracks, track)]);
}

/** What stands before each picture's own bytes. @param timeUs presentation time, whole microseconds, 0 or more */
export function matroskaPictureHead(timeUs: number, pictureBytes: number): Uint8Array {
  const timestamp = element(ID.clusterTimestamp, uint(timeUs));
  // Track 1 as a one-byte number, 16 bits of time within the cluster (0), flags: keyframe.
  const blockHead = [0x81, 0, 0, 0x80];
  const block = join([idBytes(ID.simpleBlock), sizeBytes(blockHead.length + pictureBytes), Uint8Array.from(blockHead)]);
  const clusterBytes = timestamp.length + block.length + pictureBytes;
  return join([idBytes(ID.cluster), sizeBytes(clusterBytes), timestamp, block]);
}

function element(id: number, content: Uint8Array | readonly Uint8Array[]): Uint8Array {
  const body = content instanceof Uint8Array ? content : join(content);
  return join([idBytes(id), sizeBytes(body.length), body]);
}

function idBytes(id: number): Uint8Array {
  return uint(id);
}

/** Big-endian, as few bytes as hold it. */
function uint(value: number): Uint8Array {
  const bytes: number[] = [];
  for (let rest = value; rest > 0 || bytes.length === 0; rest = Math.floor(rest / 256)) bytes.unshift(rest % 256);
  return Uint8Array.from(bytes);
}

/** Always 8 bytes long, so that no size is too large. */
function sizeBytes(size: number): Uint8Array {
  const bytes = new Uint8Array(8);
  bytes[0] = 0x01;
  for (let at = 7, rest = size; at > 0; at -= 1, rest = Math.floor(rest / 256)) bytes[at] = rest % 256;
  return bytes;
}

function text(letters: string): Uint8Array {
  return Uint8Array.from(letters, (letter) => letter.charCodeAt(0));
}

function join(pieces: readonly Uint8Array[]): Uint8Array {
  const joined = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    joined.set(piece, at);
    at += piece.length;
  }
  return joined;
}
