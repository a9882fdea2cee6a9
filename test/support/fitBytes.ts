import { fitCrc } from "../../main/ride/fit/fitCrc.ts";

/** A field of a definition: number, bytes, base type code (public FIT protocol text). */
export type FitFieldSpec = readonly [number: number, size: number, type: number];

export const U8 = 0x02;
export const ENUM = 0x00;
export const S8 = 0x01;
export const U16 = 0x84;
export const S32 = 0x85;
export const U32 = 0x86;
export const STRING = 0x07;

/** Writes FIT files byte by byte for tests, sound ones and damaged ones. */
export class FitBytes {
  private readonly out: number[] = [];
  private readonly definitions = new Map<
    number,
    { fields: readonly FitFieldSpec[]; developer: readonly (readonly [number, number, number])[]; big: boolean }
  >();

  define(
    local: number,
    global: number,
    fields: readonly FitFieldSpec[],
    options: { big?: boolean; developer?: readonly (readonly [number, number, number])[] } = {},
  ): this {
    const { big = false, developer = [] } = options;
    this.definitions.set(local, { fields, developer, big });
    this.out.push(0x40 | (developer.length ? 0x20 : 0) | local, 0, big ? 1 : 0);
    this.number(global, 2, big);
    this.out.push(fields.length, ...fields.flat());
    if (developer.length) this.out.push(developer.length, ...developer.flat());
    return this;
  }

  /** A data message; one value a field, developer fields last. `compressed` is the 5-bit time offset. */
  data(local: number, values: readonly (number | string)[], compressed?: number): this {
    const { fields, developer, big } = this.definitions.get(local)!;
    this.out.push(compressed === undefined ? local : 0x80 | (local << 5) | compressed);
    [...fields.map(([, size]) => size), ...developer.map(([, size]) => size)].forEach((size, i) => {
      const value = values[i]!;
      if (compressed !== undefined && i === 0 && fields[0]![0] === 253) return;
      if (typeof value === "string") for (let k = 0; k < size; k++) this.out.push(value.charCodeAt(k) || 0);
      else this.number(value, size, big);
    });
    return this;
  }

  raw(...bytes: number[]): this {
    this.out.push(...bytes);
    return this;
  }

  get bytes(): readonly number[] {
    return this.out;
  }

  finish(options: { dataSize?: number; crc?: number; headerSize?: 12 | 14 } = {}): Uint8Array {
    const { headerSize = 14, dataSize = this.out.length } = options;
    const file = new Uint8Array(headerSize + this.out.length + 2);
    const view = new DataView(file.buffer);
    file.set([headerSize, 0x20, 0x5c, 0x08]);
    view.setUint32(4, dataSize, true);
    file.set([0x2e, 0x46, 0x49, 0x54], 8);
    file.set(this.out, headerSize);
    view.setUint16(headerSize + this.out.length, options.crc ?? fitCrc(file, 0, headerSize + this.out.length), true);
    return file;
  }

  private number(value: number, size: number, big: boolean): void {
    const bytes = Array.from(
      { length: size },
      (_, i) => Math.floor((value < 0 ? value + 2 ** (8 * size) : value) / 2 ** (8 * i)) & 0xff,
    );
    this.out.push(...(big ? bytes.reverse() : bytes));
  }
}

/** FIT time of a UTC date, s. */
export function fitTime(utcMs: number): number {
  return utcMs / 1000 - 631065600;
}

/** 2026-05-17T08:00:00Z, FIT time. */
export const START = fitTime(Date.UTC(2026, 4, 17, 8));

export const RECORD_FIELDS: readonly FitFieldSpec[] = [
  [253, 4, U32],
  [0, 4, S32],
  [1, 4, S32],
  [2, 2, U16],
  [3, 1, U8],
  [4, 1, U8],
  [5, 4, U32],
  [6, 2, U16],
  [7, 2, U16],
];

/** A plain record's values, in the order of RECORD_FIELDS: power 200 + i % 50, heart 140, 8 m/s northwards. */
export function recordValues(i: number, start = START): number[] {
  const semicircles = (deg: number) => Math.round((deg * 2 ** 31) / 180);
  return [
    start + i,
    semicircles(47 + (i * 8) / 111_177),
    semicircles(11),
    (400 + 500) * 5,
    140,
    90,
    i * 800,
    8000,
    200 + (i % 50),
  ];
}

/** A sound FIT ride of `n` records at 1 s. */
export function plainFit(n: number, start = START, big = false): Uint8Array {
  return plainFitWriter(n, start, big).finish();
}

export function plainFitWriter(n: number, start = START, big = false): FitBytes {
  const fit = new FitBytes()
    .define(0, 0, [[0, 1, ENUM]])
    .data(0, [4])
    .define(1, 20, RECORD_FIELDS, { big });
  for (let i = 0; i < n; i++) fit.data(1, recordValues(i, start));
  return fit;
}
