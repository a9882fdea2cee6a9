import { describe, expect, it } from "vitest";
import type { GpmfStream } from "../../../main/footage/telemetry/parseGpmf.ts";
import { sampleTimes, type TimedStream } from "../../../main/footage/telemetry/sampleTimes.ts";
import { cameraMarks } from "../../../main/footage/telemetry/cameraMarks.ts";

const PAYLOAD_S = 1.001;
const A_PAYLOAD = 18;

/** Payloads of a clip from `cutS` on as a copy of its streams leaves them, each with counter and arrival as the camera wrote them. */
function cut(cutS: number, arrivals: boolean, counters: boolean): TimedStream[] {
  const first = Math.ceil(cutS / PAYLOAD_S);
  return Array.from({ length: 20 }, (_, k) => {
    const payload = first + k;
    const stream: GpmfStream = {
      key: "GPS5",
      name: null,
      units: null,
      rows: Array.from({ length: A_PAYLOAD }, () => new Float64Array(5)),
      totalSamples: counters ? (payload + 1) * A_PAYLOAD : null,
      arrivalS: arrivals ? payload * PAYLOAD_S : null,
      utcText: null,
      fix: 3,
      precision: 160,
    };
    const payloadStartS = payload * PAYLOAD_S - cutS;
    return { payloadStartS, payloadEndS: payloadStartS + PAYLOAD_S, stream };
  });
}

describe("samples of a clip whose beginning was cut off by a copy of its streams", () => {
  it.each(
    [0.5, 1.3, 2.2, 4.7, 10].flatMap((cutS) => [
      [cutS, true, true] as const,
      [cutS, true, false] as const,
      [cutS, false, true] as const,
      [cutS, false, false] as const,
    ]),
  )("lie on the media's time within 0.1 s: %d s cut, arrivals %s, counters %s", (cutS, arrivals, counters) => {
    const times = sampleTimes(cut(cutS, arrivals, counters));
    const firstS = Math.ceil(cutS / PAYLOAD_S) * PAYLOAD_S - cutS;
    const offs = [...times].map((t, k) => Math.abs(t - firstS - (k * PAYLOAD_S) / A_PAYLOAD));
    expect(Math.max(...offs)).toBeLessThan(0.1);
  });
});

/** An item as the published specification lays it out: key, type, size of a structure, repeat, value padded to four bytes. */
function item(key: string, type: string, value: Uint8Array): Uint8Array {
  const padded = new Uint8Array(8 + 4 * Math.ceil(value.length / 4));
  padded.set([...key].map((c) => c.charCodeAt(0)));
  padded[4] = type === "nest" ? 0 : type.charCodeAt(0);
  padded[5] = 1;
  padded[6] = value.length >> 8;
  padded[7] = value.length & 255;
  padded.set(value, 8);
  return padded;
}
const text = (words: string) => Uint8Array.from([...words].map((c) => c.charCodeAt(0)));
const joined = (...parts: Uint8Array[]) => Uint8Array.from(parts.flatMap((part) => [...part]));

describe("the marks of a camera in the settings beside its telemetry", () => {
  const settings = (...items: Uint8Array[]) => item("DEVC", "nest", item("STRM", "nest", joined(...items)));
  it("are its serial number and its firmware, as far as they are there", () => {
    const serial = item("CASN", "c", text("C0000000000017"));
    const firmware = item("FMWR", "c", text("HD0.01"));
    expect(cameraMarks(settings(firmware, serial))).toEqual({ serial: "C0000000000017", firmware: "HD0.01" });
    expect(cameraMarks(settings(firmware))).toEqual({ firmware: "HD0.01" });
    expect(cameraMarks(settings(item("MINF", "c", text("Model"))))).toEqual({});
    expect(cameraMarks(null)).toEqual({});
  });
});
