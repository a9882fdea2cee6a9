import { createCanvas } from "@napi-rs/canvas";
import { SIGNAL_STEP_S } from "../contract/signals.ts";
import type { FoundClock } from "../contract/lineup.ts";
import type { Ride } from "../contract/ride.ts";
import type { SensedSignals } from "./recordingSeries.ts";
import { rideSeries } from "./signals/rideSeries.ts";
import { exactClockText } from "../../overlay/words/notices/parts.ts";

const WIDTH = 1200;
const HEIGHT = 560;
const LEFT = 40;
const RIGHT = 24;
const PAPER = "#f7f5f0";
const INK = "#22272b";
const PALE = "#c9c5ba";
const RIDE = "#22272b";
const FILM = "#6d685c";

type Context = ReturnType<ReturnType<typeof createCanvas>["getContext"]>;

/** Values from the 2nd to the 98th percentile spread over 0 to 1. */
function spread(values: readonly number[]): number[] {
  const sorted = values.filter(Number.isFinite).sort((a, b) => a - b);
  const low = sorted[Math.floor(0.02 * (sorted.length - 1))] ?? 0;
  const high = sorted[Math.floor(0.98 * (sorted.length - 1))] ?? 1;
  return values.map((v) => Math.max(-0.03, Math.min(1.03, (v - low) / Math.max(1e-9, high - low))));
}

function drawLine(
  context: Context,
  values: readonly number[],
  top: number,
  height: number,
  colour: string,
  width: number,
): void {
  context.strokeStyle = colour;
  context.lineWidth = width;
  context.lineJoin = "round";
  context.beginPath();
  let drawing = false;
  spread(values).forEach((v, k) => {
    if (!Number.isFinite(v)) {
      drawing = false;
      return;
    }
    const x = LEFT + ((k + 0.5) / values.length) * (WIDTH - LEFT - RIGHT);
    const y = top + height * (1 - v);
    if (drawing) context.lineTo(x, y);
    else context.moveTo(x, y);
    drawing = true;
  });
  context.stroke();
}

/** Means over `span` neighbours, so that a line can be read. */
function smooth(series: Float64Array, span: number): number[] {
  return Array.from(series, (_, k) => {
    let [sum, n] = [0, 0];
    for (let j = Math.max(0, k - span); j <= Math.min(series.length - 1, k + span); j++) {
      if (!Number.isFinite(series[j])) continue;
      sum += series[j]!;
      n++;
    }
    return n > span / 2 ? sum / n : NaN;
  });
}

/** A series with the sign in which it agrees with another: gyroscopes' streams do not agree on which way is positive. */
function signedAs(series: Float64Array, other: Float64Array): Float64Array {
  const agree = series.reduce((sum, v, k) => sum + (Number.isFinite(v * other[k]!) ? v * other[k]! : 0), 0);
  return agree < 0 ? series.map((v) => -v) : series;
}

/**
 * A picture (PNG) of how a clip lies on the ride: the ride's speed with the footage's motion and sound, the ride's turns
 * with the footage's or the camera's own, one under the other on ride time. Each line is spread over its own range: only shapes compare.
 */
export function evidencePicture(clipName: string, signals: SensedSignals, clock: FoundClock, ride: Ride): Buffer {
  const canvas = createCanvas(WIDTH, HEIGHT);
  const context = canvas.getContext("2d");
  context.fillStyle = PAPER;
  context.fillRect(0, 0, WIDTH, HEIGHT);
  const series = rideSeries(ride);
  const onRide = (column: Float64Array) =>
    Float64Array.from(
      { length: signals.count },
      (_, k) =>
        column[Math.round((clock.offsetS + clock.rate * (k + 0.5) * SIGNAL_STEP_S) / SIGNAL_STEP_S - 0.5)] ?? NaN,
    );
  const bands = [
    { words: "picture in motion", film: signals.motion, ride: series.speedMps, rideWords: "speed" },
    { words: "loudness", film: signals.sound, ride: series.speedMps, rideWords: "speed" },
    { words: "picture turning", film: signals.turning, ride: series.turning, rideWords: "turns" },
    {
      words: "camera turning",
      film: signals.swing && signedAs(signals.swing, onRide(series.turning)),
      ride: series.turning,
      rideWords: "turns",
    },
  ].filter((band) => band.film !== null);
  context.textBaseline = "alphabetic";
  context.fillStyle = INK;
  context.font = "600 26px sans-serif";
  context.fillText(`${clipName} on the ride from ${exactClockText(Math.round(clock.offsetS))}`, LEFT, 42);
  const height = (HEIGHT - 130) / Math.max(1, bands.length);
  bands.forEach((band, k) => {
    const top = 62 + k * height;
    context.strokeStyle = PALE;
    context.lineWidth = 1;
    context.strokeRect(LEFT, top + 30, WIDTH - LEFT - RIGHT, height - 44);
    context.font = "600 20px sans-serif";
    context.fillStyle = RIDE;
    context.fillText(`ride: ${band.rideWords}`, LEFT, top + 22);
    context.fillStyle = FILM;
    context.fillText(`footage: ${band.words}`, LEFT + 190, top + 22);
    drawLine(context, smooth(band.film!, 3), top + 34, height - 52, FILM, 2);
    drawLine(context, smooth(onRide(band.ride), 1), top + 34, height - 52, RIDE, 3);
  });
  context.fillStyle = INK;
  context.font = "20px sans-serif";
  const lastS = clock.offsetS + clock.rate * signals.count * SIGNAL_STEP_S;
  for (let k = 0; k <= 4; k++) {
    const atS = clock.offsetS + (k / 4) * (lastS - clock.offsetS);
    context.textAlign = k === 0 ? "left" : k === 4 ? "right" : "center";
    context.fillText(exactClockText(Math.round(atS)), LEFT + (k / 4) * (WIDTH - LEFT - RIGHT), HEIGHT - 26);
  }
  return canvas.toBuffer("image/png");
}
