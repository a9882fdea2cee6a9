// What `npm run bench -- window` runs in a page: a made ride's strip drawn again and again. Of types, so that it follows
// what the strip asks for.
import type { ReadingView } from "../../main/contract/debriefApi.ts";
import type { WindowColumns } from "../../main/contract/columnBytes.ts";
import type { StripContent } from "../../renderer/strip/paintStrip.ts";
import { RideLayer } from "../../renderer/strip/rideLayer.ts";
import type { StripAskedOfPage, StripTimes } from "../bench/stripTimes.ts";
import type { StripSpan } from "../../renderer/strip/stripSpan.ts";

const COLOURS = {
  ...{
    ground: "#15181b",
    raised: "#1e2226",
    sunk: "#0f1113",
    ink: "#f2f0ea",
    quiet: "#a5aaa8",
    line: "#3a4045",
    edge: "#3a4045",
  },
  ...{ band: "#2c3a3a", off: "#ff7a66", above: "#f2b84b", wrong: "#ff7a66" },
};

/** A ride of so many hours with 12 clips and 40 moments. */
function madeStrip(hours: number): Omit<StripContent, "selected"> {
  const seconds = hours * 3600;
  let seed = 20261126;
  const chance = () => (seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0) / 2 ** 32;
  const column = (of: (k: number) => number) => Float64Array.from({ length: seconds }, (_, k) => of(k));
  // Power that wanders about its target within minutes, with short breaks and a stop now and then: about 150 changes of
  // the thread on the whole strip.
  let wander = 0;
  const power30sW = column(() => 183 + (wander = wander * 0.992 + 6 * (chance() - 0.5)));
  const pressureState = Uint8Array.from(power30sW, (watts) => (watts < 173 ? 4 : watts > 197 ? 6 : 5));
  for (let k = 0; k < seconds; k += 60 + Math.floor(chance() * 900))
    pressureState.fill(1 + Math.floor(chance() * 3), k, k + (chance() < 0.1 ? 600 : 15));
  const sensor = (value: Float64Array) => ({ value, state: new Uint8Array(seconds).fill(1) });
  const columns: WindowColumns = {
    ...{ seconds, mode: "every second", setting: "road", lateS: null, power3s: sensor(power30sW), power30sW },
    heartRate: sensor(column((k) => 128 + k / 6000 + 9 * Math.sin(k / 400) + 3 * (chance() - 0.5))),
    speed: sensor(column((k) => 8 + 3 * Math.sin(k / 260))),
    altitudeM: column((k) => 300 + 180 * Math.sin(k / 2600) + 30 * Math.sin(k / 310)),
    ...{ cadence: null, gradientPercent: null, latDeg: null, lonDeg: null, distanceM: null, timerS: null },
    pressureState,
    surge: new Uint8Array(seconds),
    countedS: column((k) => k),
    likePowerBeats: column(() => NaN),
    ...{ bandW: { low: 173, high: 197, target: 185 }, countedStartS: 600, countedEndS: seconds - 600 },
  };
  // Of a reading the strip draws these two alone.
  const reading = {
    counted: { startS: 600, endS: seconds - 600 },
    drift: {
      ...{ firstBpm: 128, firstAtS: 1350, lastBpm: 141, lastAtS: seconds - 900 },
      ...{ onsetS: seconds / 2, onsetLowS: seconds / 2 - 900, onsetHighS: seconds / 2 + 900 },
    },
  } as ReadingView;
  const moments = Array.from({ length: 40 }, (_, index) => ({
    ...{ index, startS: ((index + 0.5) * seconds) / 40, endS: ((index + 0.5) * seconds) / 40 + 40 },
    ...{ keep: [null, true, false][index % 3] ?? null, inFilm: index % 5 === 0, words: "off for 40 s, unexplained" },
  }));
  const coverage = Array.from({ length: 12 }, (_, k) => ({
    ...{ clipId: `clip${k}`, name: `bar-${k}.mp4`, sure: k % 4 !== 0 },
    ...{ startS: (k * seconds) / 12, endS: ((k + 0.7) * seconds) / 12 },
  }));
  return { columns, reading, asked: { heartBpm: null, blocks: [] }, units: "metric", coverage, roads: [], moments };
}

/** Another moment chosen, the whole drawn anew, one hour of it drawn anew: how long each takes. */
function strip({ hours, widthPx, heightPx, ratio, draws }: StripAskedOfPage): StripTimes[] {
  const content = madeStrip(hours);
  const canvas = document.querySelector("canvas")!;
  canvas.width = widthPx * ratio;
  canvas.height = heightPx * ratio;
  const context = canvas.getContext("2d")!;
  const layer = new RideLayer();
  const timed = (spanOf: (k: number) => StripSpan): StripTimes => {
    const ms: (readonly [number, number])[] = [];
    for (let k = 0; k < draws; k++) {
      context.setTransform(ratio, 0, 0, ratio, 0, 0);
      const began = performance.now();
      layer.paint(
        context,
        { widthPx, heightPx, textPx: 14.1, colours: COLOURS },
        { ...content, selected: k % 40 },
        spanOf(k),
      );
      const ordered = performance.now() - began;
      // The browser draws when it is asked for pixels.
      context.getImageData(widthPx >> 1, heightPx >> 1, 1, 1);
      ms.push([ordered, performance.now() - began]);
    }
    const sorted = (n: 0 | 1) => ms.map((one) => one[n]).sort((a, b) => a - b);
    return { orderedMs: sorted(0)[draws >> 1]!, drawnMs: sorted(1)[draws >> 1]!, leastMs: sorted(1)[0]! };
  };
  const all = { fromS: 0, toS: hours * 3600 };
  return [
    timed(() => all),
    timed(() => ({ ...all })),
    timed((k) => ({ fromS: 600 * (k % 9), toS: 600 * (k % 9) + 3600 })),
  ];
}

Object.assign(globalThis, { strip });
