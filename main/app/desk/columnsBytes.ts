/**
 * Big arrays on their way to the window (`DeskAddresses`), all in this one form:
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
 * (value and state of a `SensorColumn`), `gradientPercent`, `altitudeM`, `latDeg`, `lonDeg`, `pressureState` (uint8),
 * `surge` (uint8), `countedS`, `likePowerBeats`, and beside those of `RideColumns` `power30sW`, `distanceM`, `timerS`.
 *
 * `frames/<clipId>`: values `frames`; column `startS`: presentation time of each frame and, last, the end of the last
 * frame, s of clip time (frames + 1 entries).
 *
 * `signals/<clipId>`: values `stepS`, `count`, `lacks`; columns `motion`, `sound`, `turning` as in `ClipSignals`.
 */
import type { RideColumns, SensorColumn } from "../../../overlay/instant/columns.ts";
import { SIGNAL_STEP_S, type ClipSignals } from "../../contract/signals.ts";
import type { FrameTimes } from "../../contract/footage.ts";
import type { RideGrid } from "../../contract/ride.ts";

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
    else for (let k = 0; k < column.length; k++) view.setFloat64(at + 8 * k, column[k], true);
    at = roundUp(at + column.byteLength);
  }
  return bytes;
}

function roundUp(bytes: number): number {
  return Math.ceil(bytes / 8) * 8;
}

function sensor(name: string, column: SensorColumn | null): Record<string, Column> {
  return { [name]: column?.value ?? null, [`${name}.state`]: column?.state ?? null };
}

/** The shown ride's columns, for `DeskAddresses.columns`. */
export function rideColumnsBytes(columns: RideColumns, grid: RideGrid): Uint8Array<ArrayBuffer> {
  const { seconds, mode, setting, bandW, countedStartS, countedEndS } = columns;
  return pack(
    { seconds, mode, setting, bandW, countedStartS, countedEndS },
    {
      ...sensor("power3s", columns.power3s),
      ...sensor("heartRate", columns.heartRate),
      ...sensor("cadence", columns.cadence),
      ...sensor("speed", columns.speed),
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
    },
  );
}

/** When each frame of a clip is shown, for `DeskAddresses.frames`. */
export function frameTimesBytes(frames: FrameTimes): Uint8Array<ArrayBuffer> {
  const startS = new Float64Array(frames.ticks.length + 1);
  for (let n = 0; n < frames.ticks.length; n++) startS[n] = frames.ticks[n] / frames.timescale;
  startS[frames.ticks.length] = frames.endTicks / frames.timescale;
  return pack({ frames: frames.ticks.length }, { startS });
}

/** What was seen and heard of a clip's motion, for `DeskAddresses.signals`. */
export function signalsBytes(signals: ClipSignals): Uint8Array<ArrayBuffer> {
  const { count, motion, sound, turning, lacks } = signals;
  return pack({ stepS: SIGNAL_STEP_S, count, lacks }, { motion, sound, turning });
}
