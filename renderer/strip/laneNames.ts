import { wholeText } from "../../overlay/words/numbers.ts";
import type { WindowColumns } from "../../main/contract/columnBytes.ts";
import type { UnitSystem } from "../../main/contract/languageAndUnits.ts";
import { strip as words } from "../words/strip.ts";
import type { StripAsked } from "./paintStrip.ts";
import { FONT, type Pen, text } from "./stripPen.ts";

/** Size of the line below a lane's name, in heights of the letters. */
const MORE_SHARE = 0.9;
/** From one line of a lane's name to the next, in heights of the letters. */
const LINE_SHARE = 1.2;

interface LaneName {
  readonly lane: "thread" | "power" | "heart" | "speed" | "footage";
  readonly said: string;
  readonly more: string;
  /** What else is drawn in it, on a line of its own. */
  readonly also?: string;
}

const rangeText = ({ low, high }: { readonly low: number; readonly high: number }): string =>
  `${wholeText(low)}\u2013${wholeText(high)}`;

/** What the blocks ask for, from the least to the most; null where none asks for power. */
function blocksText(blocks: StripAsked["blocks"]): string | null {
  const bands = blocks.flatMap(({ lowW: low, highW: high }) => (low === null || high === null ? [] : [{ low, high }]));
  if (bands.length === 0) return null;
  const [low, high] = [Math.min(...bands.map((one) => one.low)), Math.max(...bands.map((one) => one.high))];
  return words.blocks(`${rangeText({ low, high })} W`);
}

/** What the lanes of a ride are called, with what their values mean. */
export function laneNames(
  { altitudeM, setting, bandW }: WindowColumns,
  { heartBpm, blocks }: StripAsked,
  units: UnitSystem,
): readonly LaneName[] {
  const inBlocks = blocksText(blocks);
  return [
    { lane: "thread", said: words.pressure, more: altitudeM === null || setting === "trainer" ? "" : words.onTheRoad },
    {
      lane: "power",
      said: words.power,
      more: bandW === null ? (inBlocks ?? "W") : words.band(`${rangeText(bandW)} W`),
      ...(bandW === null || inBlocks === null ? {} : { also: inBlocks }),
    },
    {
      lane: "heart",
      said: words.heart,
      more: heartBpm === null ? words.bpm : words.band(`${rangeText(heartBpm)} ${words.bpm}`),
    },
    { lane: "speed", said: words.speed, more: words.speedUnit[units] },
    { lane: "footage", said: words.footage, more: "" },
  ];
}

/** Width of the widest name, px. */
export function namesWidthPx(context: CanvasRenderingContext2D, textPx: number, names: readonly LaneName[]): number {
  const width = (weight: number, sizePx: number, said: string): number => {
    context.font = `${weight} ${sizePx}px ${FONT}`;
    return context.measureText(said).width;
  };
  return Math.max(
    width(600, textPx, words.moments),
    ...names.flatMap(({ said, more, also = "" }) => [
      width(600, textPx, said),
      ...[more, also].map((line) => width(500, textPx * MORE_SHARE, line)),
    ]),
  );
}

/** Writes the name of each lane that has room. */
export function writeNames(pen: Pen, names: readonly LaneName[]): void {
  const { view, rooms } = pen;
  for (const { lane, said, more, also } of names) {
    const { top, bottom } = rooms[lane];
    if (bottom <= top) continue;
    const lines = [more, ...(also === undefined ? [] : [also])].filter((line) => line !== "");
    // In a low lane lines stand closer, not outside it.
    const stepPx = Math.min(view.textPx * LINE_SHARE, (bottom - top) / (lines.length + 1));
    const firstY = (top + bottom) / 2 - (lines.length * stepPx) / 2;
    text(pen, said, 2, firstY, { colour: view.colours.ink, strong: true });
    lines.forEach((line, at) => text(pen, line, 2, firstY + (at + 1) * stepPx, { share: MORE_SHARE }));
  }
}
