import type { Anchor, FoundClock } from "../../main/contract/lineup.ts";
import { clockText } from "../../overlay/words/numbers.ts";
import { perPixel } from "../strip/perPixel.ts";

/** Colours as the theme in force has them. */
export interface PictureColours {
  readonly ground: string;
  readonly ink: string;
  readonly quiet: string;
  readonly line: string;
  readonly band: string;
}

/** What the picture shows; times in ride seconds unless named otherwise. */
export interface MotionPicture {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly fromS: number;
  readonly toS: number;
  readonly speedMps: Float64Array | null;
  /** Motion on a grid of `stepS` of clip time; null while it has not been read. */
  readonly motion: Float64Array | null;
  readonly stepS: number;
  readonly clock: FoundClock;
  readonly durationS: number;
  readonly sure: boolean;
  readonly anchors: readonly Anchor[];
  readonly words: {
    readonly speed: string;
    readonly motion: string;
    readonly noMotion: string;
    readonly noSpeed: string;
  };
  /** Letter height, px. */
  readonly textPx: number;
}

const FAMILY = '"Barlow Semi Condensed", system-ui, sans-serif';

/** Draws speed upwards and motion downwards from one line, so that a right line-up looks like a bank mirrored in water. */
export function paintMotionPicture(
  context: CanvasRenderingContext2D,
  picture: MotionPicture,
  colours: PictureColours,
): void {
  const { widthPx: width, heightPx: height, fromS, toS, clock, durationS, textPx } = picture;
  const xOf = (rideS: number) => ((rideS - fromS) / (toS - fromS)) * width;
  const foot = textPx * 1.7;
  const middle = Math.round((height - foot) * 0.5);
  const tall = middle - textPx * 0.6;
  context.fillStyle = colours.ground;
  context.fillRect(0, 0, width, height);

  const clipFrom = xOf(clock.offsetS);
  const clipTo = xOf(clock.offsetS + clock.rate * durationS);
  context.fillStyle = colours.band;
  context.globalAlpha = 0.55;
  context.fillRect(clipFrom, 0, clipTo - clipFrom, height - foot);
  context.globalAlpha = 1;

  ticks(context, picture, colours, xOf, height - foot);
  if (picture.speedMps !== null) {
    const speed = perPixel(picture.speedMps, 0, 1, fromS, toS, width);
    const most = Math.max(5, ...speed.most.filter((value) => !Number.isNaN(value)));
    area(context, speed.most, (value) => middle - (value / most) * tall, middle, colours.ink, 0.22);
  }
  if (picture.motion !== null) {
    const motion = perPixel(picture.motion, clock.offsetS, picture.stepS * clock.rate, fromS, toS, width);
    const { low, high } = usualRange(picture.motion);
    area(
      context,
      motion.most,
      (value) => middle + Math.max(0, Math.min(1.05, (value - low) / (high - low))) * tall,
      middle,
      colours.quiet,
      0.35,
    );
  }
  // The line between them is the clip: firm where it is sure, thin and quiet where not.
  context.strokeStyle = picture.sure ? colours.ink : colours.quiet;
  context.lineCap = "round";
  context.lineWidth = picture.sure ? 4 : 2;
  line(context, clipFrom, middle, clipTo, middle);
  context.lineWidth = 1;
  context.strokeStyle = colours.quiet;
  line(context, 0, middle, Math.max(0, clipFrom), middle);
  line(context, Math.min(width, clipTo), middle, width, middle);

  // A pin ties what was seen to what the ride showed; it leans where the clock in force disagrees with it.
  context.lineWidth = 2.5;
  context.strokeStyle = colours.ink;
  context.fillStyle = colours.ink;
  for (const anchor of picture.anchors) {
    const top = xOf(anchor.rideS);
    const bottom = xOf(clock.offsetS + clock.rate * anchor.mediaS);
    line(context, top, middle - tall * 0.55, bottom, middle + tall * 0.55);
    for (const [x, y] of [
      [top, middle - tall * 0.55],
      [bottom, middle + tall * 0.55],
    ] as const) {
      context.beginPath();
      context.arc(x, y, 5, 0, 2 * Math.PI);
      context.fill();
    }
  }
  context.font = `600 ${textPx}px ${FAMILY}`;
  context.textAlign = "left";
  const missing = picture.speedMps === null;
  told(context, missing ? picture.words.noSpeed : picture.words.speed, 8, textPx * 1.15, colours);
  told(
    context,
    picture.motion === null ? picture.words.noMotion : picture.words.motion,
    8,
    middle + tall + textPx * 0.35,
    colours,
  );
}

function area(
  context: CanvasRenderingContext2D,
  values: Float64Array,
  yOf: (value: number) => number,
  base: number,
  colour: string,
  alpha: number,
): void {
  context.strokeStyle = colour;
  context.fillStyle = colour;
  context.lineWidth = 2;
  context.lineJoin = "round";
  let start = -1;
  for (let x = 0; x <= values.length; x++) {
    const known = x < values.length && !Number.isNaN(values[x]);
    if (known && start < 0) start = x;
    if (known || start < 0) continue;
    context.beginPath();
    for (let at = start; at < x; at++) context[at === start ? "moveTo" : "lineTo"](at + 0.5, yOf(values[at]!));
    context.stroke();
    context.lineTo(x - 0.5, base);
    context.lineTo(start + 0.5, base);
    context.globalAlpha = alpha;
    context.fill();
    context.globalAlpha = 1;
    start = -1;
  }
}

/** From the 5th to the 98th of a hundred: one flash of light must not flatten all else. */
function usualRange(values: Float64Array): { low: number; high: number } {
  const sorted = values.filter((value) => !Number.isNaN(value)).sort();
  const low = sorted[Math.floor(sorted.length * 0.05)] ?? 0;
  const high = sorted[Math.floor(sorted.length * 0.98)] ?? 1;
  return { low, high: high > low ? high : low + 1 };
}

function ticks(
  context: CanvasRenderingContext2D,
  picture: MotionPicture,
  colours: PictureColours,
  xOf: (rideS: number) => number,
  bottom: number,
): void {
  const steps = [1, 2, 5, 10, 20, 30, 60, 120, 300, 600, 1200, 1800, 3600, 7200, 14400];
  const room = picture.widthPx / (picture.textPx * 6.5);
  const step = steps.find((one) => (picture.toS - picture.fromS) / one <= room) ?? 28800;
  context.strokeStyle = colours.line;
  context.lineWidth = 1;
  context.fillStyle = colours.quiet;
  context.font = `500 ${picture.textPx}px ${FAMILY}`;
  context.textAlign = "center";
  for (let at = Math.ceil(picture.fromS / step) * step; at < picture.toS; at += step) {
    const x = Math.round(xOf(at)) + 0.5;
    line(context, x, 0, x, bottom);
    if (x > picture.textPx * 2 && x < picture.widthPx - picture.textPx * 2)
      context.fillText(clockText(at), x, bottom + picture.textPx * 1.25);
  }
}

function told(context: CanvasRenderingContext2D, text: string, x: number, y: number, colours: PictureColours): void {
  context.strokeStyle = colours.ground;
  context.lineWidth = 4;
  context.lineJoin = "round";
  context.strokeText(text, x, y);
  context.fillStyle = colours.ink;
  context.fillText(text, x, y);
}

function line(context: CanvasRenderingContext2D, fromX: number, fromY: number, toX: number, toY: number): void {
  context.beginPath();
  context.moveTo(fromX, fromY);
  context.lineTo(toX, toY);
  context.stroke();
}
