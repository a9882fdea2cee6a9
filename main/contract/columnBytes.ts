/**
 * Big arrays on their way to the window (`DeskAddresses`): one form, written by the desk and read by the window.
 *
 * - bytes 0..3: length H of the header, unsigned 32 bit, little endian
 * - bytes 4..4+H: the header, JSON in UTF-8, filled up with spaces so that 4 + H is a multiple of 8
 * - the rest: the columns one after the other, each beginning at a multiple of 8 from the start of the whole,
 *   float64 little endian (NaN: no value) or uint8
 *
 * Header: `{ "values": { … }, "columns": [{ "name", "type": "float64"|"uint8", "offset", "count" }] }`, `offset` in
 * bytes from the start of the whole. A column that the ride does not have is not listed.
 *
 * `columns` (the ride): values `seconds`, `mode`, `setting`, `bandW`, `countedStartS`, `countedEndS` as in `RideColumns`;
 * columns `power3s`, `power3s.state`, `heartRate`, `heartRate.state`, `cadence`, `cadence.state`, `speed`, `speed.state`
 * (value and state of a `SensorColumn`), `lateS`, `gradientPercent`, `altitudeM`, `latDeg`, `lonDeg`, `pressureState` (uint8),
 * `surge` (uint8), `countedS`, `likePowerBeats`, and beside those of `RideColumns` `power30sW`, `distanceM`, `timerS`.
 *
 * `frames/<clipId>`: values `frames`; column `startS`: presentation time of each frame and, last, the end of the last
 * frame, s of clip time (frames + 1 entries).
 *
 * `signals/<clipId>`: values `stepS`, `count`, `lacks`; columns `motion`, `sound`, `turning` as in `ClipSignals`.
 */
import type { RideColumns, SensorColumn } from "./rideColumns.ts";
import { SIGNAL_STEP_S, type ClipSignals } from "./signals.ts";
import type { FrameTimes } from "./footage.ts";
import type { RideGrid } from "./ride.ts";

/** The ride's columns as panels and thread need them, and the three that only the window draws. */
export interface WindowColumns extends RideColumns {
  readonly power30sW: Float64Array | null;
  readonly distanceM: Float64Array | null;
  readonly timerS: Float64Array | null;
}

/** Presentation time of each frame, s of clip time, and last the end of the last frame (frames + 1 entries). */
export type FrameStarts = Float64Array;

interface Header {
  readonly values: Readonly<Record<string, unknown>>;
  readonly columns: readonly {
    readonly name: string;
    readonly type: "float64" | "uint8";
    readonly offset: number;
    readonly count: number;
  }[];
}

type Column = Float64Array | Uint8Array | null;

/** Values (JSON) and columns in the form above; a null column is left out. */
function pack(
  values: Readonly<Record<string, unknown>>,
  columns: Readonly<Record<string, Column>>,
): Uint8Array<ArrayBuffer> {
  const present = Object.entries(columns).filter(
    (entry): entry is [string, Float64Array | Uint8Array] => entry[1] !== null,
  );
  const headerFor = (payloadStart: number): string => {
    let offset = payloadStart;
    const listed = present.map(([name, column]) => {
      const at = offset;
      offset = roundUp(offset + column.byteLength);
      return { name, type: column instanceof Float64Array ? "float64" : "uint8", offset: at, count: column.length };
    });
    return JSON.stringify({ values, columns: listed });
  };
  // Offsets stand in the header, whose length moves them: room for the longest they can be, then spaces.
  const payloadStart = roundUp(4 + new TextEncoder().encode(headerFor(2 ** 40)).length);
  const header = new TextEncoder().encode(headerFor(payloadStart));
  const total = present.reduce((sum, [, column]) => roundUp(sum + column.byteLength), payloadStart);
  const bytes = new Uint8Array(total);
  const view = new DataView(bytes.buffer);
  bytes.fill(0x20, 4, payloadStart);
  view.setUint32(0, payloadStart - 4, true);
  bytes.set(header, 4);
  let at = payloadStart;
  for (const [, column] of present) {
    if (column instanceof Uint8Array) bytes.set(column, at);
    else for (let k = 0; k < column.length; k++) view.setFloat64(at + 8 * k, column[k]!, true);
    at = roundUp(at + column.byteLength);
  }
  return bytes;
}

interface Unpacked {
  readonly values: Readonly<Record<string, unknown>>;
  readonly column: (name: string) => Column;
}

/** Values and columns of one answer. Throws where the bytes are not of our form. */
function unpack(bytes: ArrayBuffer): Unpacked {
  const length = new DataView(bytes).getUint32(0, true);
  const header = JSON.parse(new TextDecoder().decode(new Uint8Array(bytes, 4, length))) as Header;
  // Typed arrays read in the machine's own byte order; every machine that runs a desktop browser today is little endian.
  const columns = new Map(
    header.columns.map(
      ({ name, type, offset, count }) =>
        [
          name,
          type === "float64" ? new Float64Array(bytes, offset, count) : new Uint8Array(bytes, offset, count),
        ] as const,
    ),
  );
  return { values: header.values, column: (name) => columns.get(name) ?? null };
}

function roundUp(bytes: number): number {
  return Math.ceil(bytes / 8) * 8;
}

/** What of a ride's columns stands among the header's values. */
type ValueName = "seconds" | "mode" | "setting" | "bandW" | "countedStartS" | "countedEndS";
/** The rest: each a column, or value and state of one. The types ask for every one of them, packing as unpacking. */
type PackedColumns = Omit<WindowColumns, ValueName>;

/** The shown ride's columns, for `DeskAddresses.columns`. */
export function rideColumnsBytes(columns: RideColumns, grid: RideGrid): Uint8Array<ArrayBuffer> {
  const values: Pick<WindowColumns, ValueName> = {
    seconds: columns.seconds,
    mode: columns.mode,
    setting: columns.setting,
    bandW: columns.bandW,
    countedStartS: columns.countedStartS,
    countedEndS: columns.countedEndS,
  };
  const packed: PackedColumns = {
    lateS: columns.lateS,
    power3s: columns.power3s,
    heartRate: columns.heartRate,
    cadence: columns.cadence,
    speed: columns.speed,
    gradientPercent: columns.gradientPercent,
    altitudeM: columns.altitudeM,
    latDeg: columns.latDeg,
    lonDeg: columns.lonDeg,
    pressureState: columns.pressureState,
    surge: columns.surge,
    countedS: columns.countedS,
    likePowerBeats: columns.likePowerBeats,
    power30sW: grid.power30sW,
    distanceM: grid.distanceM,
    timerS: grid.timerS,
  };
  return pack(values, flat(packed));
}

/** Columns by name, those of a sensor as two. */
function flat(columns: PackedColumns): Record<string, Column> {
  return Object.fromEntries(
    Object.entries(columns).flatMap(([name, column]: [string, Column | SensorColumn]) =>
      column !== null && "value" in column
        ? [
            [name, column.value],
            [`${name}.state`, column.state],
          ]
        : [[name, column]],
    ),
  );
}

/** The columns that `rideColumnsBytes` wrote. Throws where the bytes are not of our form. */
export function rideColumnsFrom(bytes: ArrayBuffer): WindowColumns {
  const { values, column } = unpack(bytes);
  const numbers = (name: string) => column(name) as Float64Array | null;
  const flags = (name: string) => column(name) as Uint8Array;
  const sensor = (name: string): SensorColumn | null => {
    const value = numbers(name);
    return value === null ? null : { value, state: flags(`${name}.state`) };
  };
  return {
    ...(values as unknown as Pick<WindowColumns, ValueName>),
    lateS: numbers("lateS"),
    power3s: sensor("power3s"),
    heartRate: sensor("heartRate"),
    cadence: sensor("cadence"),
    speed: sensor("speed"),
    gradientPercent: numbers("gradientPercent"),
    altitudeM: numbers("altitudeM"),
    latDeg: numbers("latDeg"),
    lonDeg: numbers("lonDeg"),
    pressureState: flags("pressureState"),
    surge: flags("surge"),
    countedS: numbers("countedS")!,
    likePowerBeats: numbers("likePowerBeats")!,
    power30sW: numbers("power30sW"),
    distanceM: numbers("distanceM"),
    timerS: numbers("timerS"),
  };
}

/** When each frame of a clip is shown, for `DeskAddresses.frames`. */
export function frameTimesBytes(frames: FrameTimes): Uint8Array<ArrayBuffer> {
  const startS = new Float64Array(frames.ticks.length + 1);
  for (let n = 0; n < frames.ticks.length; n++) startS[n] = frames.ticks[n]! / frames.timescale;
  startS[frames.ticks.length] = frames.endTicks / frames.timescale;
  return pack({ frames: frames.ticks.length }, { startS });
}

/** The frames' times that `frameTimesBytes` wrote. */
export function frameStartsFrom(bytes: ArrayBuffer): FrameStarts {
  return unpack(bytes).column("startS") as Float64Array;
}

/** What was seen and heard of a clip's motion, for `DeskAddresses.signals`. */
export function signalsBytes(signals: ClipSignals): Uint8Array<ArrayBuffer> {
  const { count, motion, sound, turning, lacks } = signals;
  return pack({ stepS: SIGNAL_STEP_S, count, lacks }, { motion, sound, turning });
}

/** The signals that `signalsBytes` wrote, and the step they are on, s. */
export function signalsFrom(bytes: ArrayBuffer, clipId: string): ClipSignals & { readonly stepS: number } {
  const { values, column } = unpack(bytes);
  const { stepS, count, lacks } = values as {
    readonly stepS: number;
    readonly count: number;
    readonly lacks: ClipSignals["lacks"];
  };
  const series = (name: string) => column(name) as Float64Array | null;
  return {
    clipId,
    stepS,
    count,
    motion: series("motion"),
    sound: series("sound"),
    turning: series("turning"),
    bytesRead: null,
    lacks,
  };
}
