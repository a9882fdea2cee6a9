import { wholeText } from "../../overlay/words/numbers.ts";
import type { WindowColumns } from "../../main/contract/columnBytes.ts";
import type { UnitSystem } from "../../main/contract/languageAndUnits.ts";
import { strip as words } from "../words/strip.ts";
import type { StripAsked } from "./paintStrip.ts";
import { FONT, type Pen, text } from "./stripPen.ts";

/** Size of the line below a lane's name, in heights of the letters. */
const MORE_SHARE = 0.9;

interface LaneName {
  readonly lane: "thread" | "power" | "heart" | "speed" | "footage";
  readonly said: string;
  readonly more: string;
}

const rangeText = ({ low, high }: { readonly low: number; readonly high: number }): string =>
  `${wholeText(low)}\u2013${wholeText(high)}`;

/** What the lanes of a ride are called, with what their values mean. */
export function laneNames(
  { altitudeM, setting, bandW }: WindowColumns,
  { heartBpm }: StripAsked,
  units: UnitSystem,
): readonly LaneName[] {
  return [
    { lane: "thread", said: words.pressure, more: altitudeM === null || setting === "trainer" ? "" : words.onTheRoad },
    {
      lane: "power",
      said: words.power,
      more: bandW === null ? "W" : words.band(`${rangeText(bandW)} W`),
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
    ...names.flatMap(({ said, more }) => [width(600, textPx, said), width(500, textPx * MORE_SHARE, more)]),
  );
}

/** Writes the name of each lane that has room. */
export function writeNames(pen: Pen, names: readonly LaneName[]): void {
  const { view, rooms } = pen;
  for (const { lane, said, more } of names) {
    const { top, bottom } = rooms[lane];
    if (bottom <= top) continue;
    const gap = more === "" ? 0 : view.textPx * 0.6;
    text(pen, said, 2, (top + bottom) / 2 - gap, { colour: view.colours.ink, strong: true });
    if (more !== "") text(pen, more, 2, (top + bottom) / 2 + gap, { share: MORE_SHARE });
  }
}
