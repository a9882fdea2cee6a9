import { fitCrc } from "./fitCrc.ts";
import { FitFile } from "./fitFile.ts";
import { FIT_BASE_TYPES, FIT_FIELDS, FitMessage, TIMESTAMP_FIELD, typesAgree } from "./fitFields.ts";
import { SideValues, type FieldPlan, type SideColumn, type SideFields } from "./sideValues.ts";
import { MOST_RECORDS } from "../rideRecords.ts";
import { distinctNotices, note, type Note } from "../../contract/notice.ts";

/**
 * One FIT file of a chain, made whole: header, sizes and messages agree and only what is read is in it. A long one comes
 * as several files, so that the parser's objects of one can go before those of the next are made.
 */
interface FitPiece {
  readonly files: readonly Uint8Array[];
  readonly records: number;
  readonly sides: readonly SideColumn[];
}

/** The pieces of a file and what was odd about it. */
export interface CleanFit {
  readonly pieces: readonly FitPiece[];
  readonly warnings: readonly Note[];
}

/** More than any recorder chains; a longer chain is made to waste our time. */
const MOST_PIECES = 100;
/** Records after which a new file begins. */
const RECORDS_A_FILE = 4000;

interface Definition extends SideFields {
  readonly global: number;
  readonly size: number;
  /** Runs of bytes that go to the parser, from the message's first byte of data. */
  readonly copied: readonly FieldPlan[];
  readonly wanted: boolean;
  /** Position of a plain time stamp within the data, or -1. */
  readonly timeAt: number;
  /** Bytes that a compressed header leaves out: a time stamp that comes first. */
  readonly leadingTime: number;
  /** The definition as the parser gets it, without its header byte. */
  readonly clean: Uint8Array;
}

/**
 * Walks a FIT file's own structure and hands the parser only sound pieces. It exists because fit-file-parser 6.1
 * reads just the first file of a chain, refuses a size that overstates the file, stops for good at the first damaged
 * byte, loses developer fields that are described after their first use, lets a developer field replace a native one of
 * the same name, and drops a field whose width is not the profile's. Fields and messages that are not needed are left out, which also halves its work.
 */
export function cleanFit(bytes: Uint8Array): CleanFit {
  const warnings: Note[] = [];
  const pieces: FitPiece[] = [];
  const kept: Uint8Array[] = [];
  let at = 0;
  for (let n = 0; at < bytes.length; n++) {
    if (n === MOST_PIECES) {
      warnings.push(note("fit-many-parts", { limit: MOST_PIECES }));
      break;
    }
    if (!isHeader(bytes, at)) {
      if (at > 0 && bytes.length - at > 2) warnings.push(note("fit-foreign-end", {}));
      break;
    }
    const { piece, next } = cleanPiece(bytes, at, warnings);
    const source = bytes.subarray(at + bytes[at], next - 2);
    if (piece.records > 0 && kept.some((k) => sameBytes(k, source))) {
      warnings.push(note("fit-ride-twice", {}));
    } else if (piece.files.length > 0) {
      pieces.push(piece);
      if (piece.records > 0) kept.push(source);
    }
    at = next;
  }
  return { pieces, warnings: distinctNotices(warnings) };
}

/** Whether a FIT file header starts here. */
export function isHeader(bytes: Uint8Array, at: number): boolean {
  return (
    at + 12 <= bytes.length &&
    bytes[at] >= 12 &&
    bytes[at + 8] === 0x2e &&
    bytes[at + 9] === 0x46 &&
    bytes[at + 10] === 0x49 &&
    bytes[at + 11] === 0x54
  );
}

function cleanPiece(bytes: Uint8Array, at: number, warnings: Note[]): { piece: FitPiece; next: number } {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const start = Math.min(at + bytes[at], bytes.length);
  const declaredEnd = start + view.getUint32(at + 4, true);
  const fits = declaredEnd + 2 <= bytes.length;
  const sound = fits && fitCrc(bytes, at, declaredEnd) === view.getUint16(declaredEnd, true);
  // An unsound size is believed only where the file, or the next of the chain, goes on right behind its checksum.
  const believed =
    sound || (fits && declaredEnd > start && (declaredEnd + 2 === bytes.length || isHeader(bytes, declaredEnd + 2)));
  const walk = new Walk(bytes, view, start, believed ? declaredEnd : bytes.length, believed);
  walk.run();
  if (walk.damagedBytes > 0) {
    warnings.push(note("fit-bytes-damaged", { bytes: walk.damagedBytes }));
  } else if (!believed) {
    warnings.push(declaredEnd + 2 > bytes.length ? note("fit-cut-short", {}) : note("fit-wrong-size", {}));
  } else if (!sound) {
    warnings.push(note("fit-wrong-checksum", {}));
  }
  return { piece: walk.piece(), next: believed ? declaredEnd + 2 : walk.end + 2 };
}

/** Whether a time is the other or up to an hour later, s. */
const follows = (timeS: number, otherS: number) => timeS >= otherS && timeS <= otherS + 3600;

/** One pass over the messages of a piece. */
class Walk {
  end: number;
  damagedBytes = 0;
  private records = 0;
  private readonly files: Uint8Array[] = [];
  private file = new FitFile();
  /** Whether a time depends on the one before it, so that the file may not be parted. */
  private compressed = false;
  private readonly definitions: (Definition | undefined)[] = [];
  private readonly sides: SideValues;
  private lastTime = NaN;
  /** The time before it: damage may lie in the last one. */
  private timeBefore = NaN;

  constructor(
    private readonly bytes: Uint8Array,
    private readonly view: DataView,
    private at: number,
    private readonly limit: number,
    private readonly believed: boolean,
  ) {
    this.end = at;
    this.sides = new SideValues(bytes, view);
  }

  run(): void {
    // One more than may be, so that the table refuses them.
    while (this.at < this.limit && this.records <= MOST_RECORDS) {
      if (!this.believed && this.atTail()) break;
      const next = this.message(this.at);
      if (next > 0) {
        this.at = next;
        this.end = next;
        continue;
      }
      const found = this.resume(this.at + 1);
      // The rest of a cut file is its last, unfinished message.
      if (found < 0) {
        if (this.believed) this.damagedBytes += this.limit - this.at;
        break;
      }
      this.damagedBytes += found - this.at;
      this.at = found;
    }
    if (!this.believed && !this.atTail()) this.end = this.limit;
  }

  /** Where no size is believed: two bytes of checksum, then the end or the next file of the chain. */
  private atTail(): boolean {
    return this.limit - this.at <= 2 || isHeader(this.bytes, this.at + 2);
  }

  /** Takes the message at `at`; returns where the next begins, or -1 when no whole and sound message stands here. */
  private message(at: number): number {
    const header = this.bytes[at];
    if (header & 0x80) return this.data(at, (header >> 5) & 3, true);
    if (header & 0x40) return this.define(at, header);
    if (header & 0x30) return -1;
    return this.data(at, header & 15, false);
  }

  private define(at: number, header: number): number {
    const { bytes, view, limit } = this;
    if (at + 6 > limit || bytes[at + 2] > 1) return -1;
    const littleEndian = bytes[at + 2] === 0;
    const count = bytes[at + 5];
    const developerAt = at + 6 + count * 3;
    const developerCount = header & 0x20 ? (bytes[developerAt] ?? 0) : 0;
    const next = developerAt + (header & 0x20 ? 1 + developerCount * 3 : 0);
    if (next > limit) return -1;
    const global = view.getUint16(at + 3, littleEndian);
    const known = FIT_FIELDS[global];
    const wanted = known !== undefined;
    const copied: { at: number; size: number }[] = [];
    const fields: number[] = [];
    const odd: { at: number; size: number; field: number; type: number }[] = [];
    let size = 0;
    let timeAt = -1;
    let leadingTime = 0;
    for (let i = 0; i < count; i++) {
      const f = at + 6 + i * 3;
      const field = bytes[f];
      const width = bytes[f + 1];
      const type = bytes[f + 2] & 0x1f;
      const isTime = field === TIMESTAMP_FIELD && type === 6 && width === 4;
      if (isTime) {
        timeAt = size;
        if (i === 0) leadingTime = 4;
      }
      const profile = known?.[field];
      const base = FIT_BASE_TYPES[type];
      if (
        isTime ||
        (profile && base && width >= base.bytes && width % base.bytes === 0 && typesAgree(type, profile.type))
      ) {
        const last = copied[copied.length - 1];
        if (last && last.at + last.size === size) last.size += width;
        else copied.push({ at: size, size: width });
        fields.push(field, width, base.code);
      } else if (profile?.column && base && width >= base.bytes) odd.push({ at: size, size: width, field, type });
      size += width;
    }
    const developer: { at: number; size: number; field: number; index: number }[] = [];
    for (let i = 0; i < developerCount; i++) {
      const f = developerAt + 1 + i * 3;
      developer.push({ at: size, size: bytes[f + 1], field: bytes[f], index: bytes[f + 2] });
      size += bytes[f + 1];
    }
    const clean = Uint8Array.from([0, bytes[at + 2], bytes[at + 3], bytes[at + 4], fields.length / 3, ...fields]);
    const isRecord = global === FitMessage.record;
    const definition: Definition = {
      global,
      littleEndian,
      size,
      copied,
      wanted: wanted || timeAt >= 0,
      timeAt,
      leadingTime,
      odd: isRecord ? odd : [],
      developer: isRecord ? developer : [],
      clean,
    };
    this.definitions[header & 15] = definition;
    if (definition.wanted) {
      this.file.define(header & 15, clean);
    }
    if (global === FitMessage.fieldDescription) this.describing[header & 15] = { at, count, littleEndian };
    else delete this.describing[header & 15];
    return next;
  }

  private readonly describing: Record<number, { at: number; count: number; littleEndian: boolean }> = {};

  private data(at: number, local: number, compressed: boolean): number {
    const definition = this.definitions[local];
    if (!definition) return -1;
    const skipped = compressed ? definition.leadingTime : 0;
    const next = at + 1 + definition.size - skipped;
    if (next > this.limit) return -1;
    if (!compressed && definition.timeAt >= 0) {
      this.timeBefore = this.lastTime;
      this.lastTime = this.view.getUint32(at + 1 + definition.timeAt, definition.littleEndian);
    }
    this.compressed ||= compressed;
    // A message of no size says nothing, unless its header carries a time; each would cost the parser an object.
    const wanted = definition.wanted && (definition.size > 0 || compressed);
    if (wanted) {
      this.file.begin(this.bytes[at]);
      for (const run of definition.copied) {
        // A compressed header leaves the leading time stamp out of the data.
        const from = Math.max(run.at, skipped);
        this.file.copy(this.bytes, at + 1 - skipped + from, run.at + run.size - from);
      }
    }
    if (wanted && definition.global === FitMessage.record) {
      if (definition.odd.length || definition.developer.length) {
        this.sides.add({ record: this.records, at: at + 1 - skipped, skipped, definition });
      }
      this.records++;
      if (this.records % RECORDS_A_FILE === 0 && !this.compressed) this.nextFile();
    }
    const describing = this.describing[local];
    if (describing) this.sides.describe(at + 1, describing);
    return next;
  }

  private nextFile(): void {
    this.files.push(this.file.finish());
    this.file = new FitFile();
    this.definitions.forEach((d, local) => {
      if (d?.wanted) this.file.define(local, d.clean);
    });
  }

  /**
   * Looks for the next sound run of messages after damage: three in a row that carry times within an hour of the last
   * one, or of the one before it, and do not fall. Fewer could be chance. Returns its position or -1.
   */
  private resume(from: number): number {
    if (this.lastTime !== this.lastTime) return -1;
    for (let at = from; at < this.limit - 3; at++) {
      let time = NaN;
      let next = at;
      let seen = 0;
      while (seen < 3) {
        const header = this.bytes[next];
        const definition = header & 0xf0 ? undefined : this.definitions[header & 15];
        if (!definition || definition.timeAt < 0 || next + 1 + definition.size > this.limit) break;
        const t = this.view.getUint32(next + 1 + definition.timeAt, definition.littleEndian);
        if (seen === 0 ? !follows(t, this.lastTime) && !follows(t, this.timeBefore) : !follows(t, time)) break;
        time = t;
        next += 1 + definition.size;
        seen++;
      }
      if (seen === 3) return at;
    }
    return -1;
  }

  /** What the parser gets, and what it cannot. */
  piece(): FitPiece {
    if (!this.file.isEmpty) this.files.push(this.file.finish());
    return { files: this.files, records: this.records, sides: this.sides.columns(this.records) };
  }
}

function sameBytes(a: Uint8Array, b: Uint8Array): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}
