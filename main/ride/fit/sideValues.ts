import { FIT_FIELDS, FitMessage, readFitNumber } from "./fitFields.ts";
import type { ColumnName } from "../rideRecords.ts";

/** Values of a column that the parser cannot give: developer fields, and fields of an unusual width. */
export interface SideColumn {
  readonly column: ColumnName;
  readonly developer: boolean;
  /** Value per record of the piece; NaN where there is none. */
  readonly values: Float64Array;
}

/** Where a field stands in a message's data. */
export interface FieldPlan {
  readonly at: number;
  readonly size: number;
}

/** The fields of a record's definition that the parser cannot be given. */
export interface SideFields {
  readonly littleEndian: boolean;
  readonly odd: readonly (FieldPlan & { readonly field: number; readonly type: number })[];
  readonly developer: readonly (FieldPlan & { readonly field: number; readonly index: number })[];
}

interface SideRecord {
  /** Its number in the piece. */
  readonly record: number;
  /** Where its data would begin if no leading time stamp were left out, and how many bytes were. */
  readonly at: number;
  readonly skipped: number;
  readonly definition: SideFields;
}

/** Remembers where such values stand, and reads them once the whole piece, and so every description, has been seen. */
export class SideValues {
  private readonly records: SideRecord[] = [];
  private readonly descriptions = new Map<
    string,
    { type: number; column: ColumnName; scale: number; offset: number }
  >();

  constructor(
    private readonly bytes: Uint8Array,
    private readonly view: DataView,
  ) {}

  /** Remembers a record that has odd or developer fields. */
  add(record: SideRecord): void {
    this.records.push(record);
  }

  /** Takes in a field_description message (206). */
  describe(at: number, definition: { at: number; count: number; littleEndian: boolean }): void {
    const numbers: Record<number, number> = {};
    let offset = at;
    for (let i = 0; i < definition.count; i++) {
      const f = definition.at + 6 + i * 3;
      const size = this.bytes[f + 1];
      numbers[this.bytes[f]] = readFitNumber(
        this.view,
        offset,
        size,
        this.bytes[f + 2] & 0x1f,
        definition.littleEndian,
      );
      offset += size;
    }
    const native = FIT_FIELDS[FitMessage.record][numbers[15] ?? -1];
    const message = numbers[14];
    if (!native?.column || (message === message && message !== undefined && message !== FitMessage.record)) return;
    const orElse = (n: number | undefined, fallback: number) => (n === undefined || n !== n || n === 0 ? fallback : n);
    this.descriptions.set(`${numbers[0]}:${numbers[1]}`, {
      type: orElse(numbers[2], 0) & 0x1f,
      column: native.column,
      scale: orElse(numbers[6], 1),
      offset: orElse(numbers[7], 0),
    });
  }

  /** The columns found, of a piece with so many records. */
  columns(count: number): SideColumn[] {
    const columns = new Map<string, SideColumn>();
    const put = (column: ColumnName, developer: boolean, record: number, value: number) => {
      if (!Number.isFinite(value)) return;
      const key = `${column}:${developer}`;
      let side = columns.get(key);
      if (!side) columns.set(key, (side = { column, developer, values: new Float64Array(count).fill(NaN) }));
      side.values[record] = value;
    };
    for (const { record, at, definition, skipped } of this.records) {
      for (const { field, type, at: offset, size } of definition.odd) {
        const { column, scale = 1, offset: zero = 0 } = FIT_FIELDS[FitMessage.record][field];
        if (offset < skipped || !column) continue;
        put(
          column,
          false,
          record,
          readFitNumber(this.view, at + offset, size, type, definition.littleEndian) / scale - zero,
        );
      }
      for (const { field, index, at: offset, size } of definition.developer) {
        const described = this.descriptions.get(`${index}:${field}`);
        if (!described) continue;
        const raw = readFitNumber(this.view, at + offset, size, described.type, definition.littleEndian);
        put(described.column, true, record, raw / described.scale - described.offset);
      }
    }
    return [...columns.values()];
  }
}
