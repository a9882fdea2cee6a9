import { type Ink, type PanelName } from "../../main/contract/filmLook.ts";
import type { Language } from "../../main/contract/languageAndUnits.ts";
import type { PairCard, PairSide } from "../../main/contract/pair.ts";
import type { SizePx } from "../cards/cardPage.ts";
import { layoutFor, type Layout } from "../layout/layout.ts";
import { shapeOf, typeScale, type TypeScale } from "../layout/typeScale.ts";
import type { Rect } from "../surface.ts";

/** One side of a pair on the picture. */
interface SidePlace {
  /** Its half, whole even px. */
  readonly rect: Rect;
  /** Numbers and thread on the half, in its own coordinates. */
  readonly layout: Layout;
}

/** Where all stands on a pair's picture. Whole px; halves, strip and layer have even edges. */
export interface PairLayout {
  readonly way: "side by side" | "one above the other";
  readonly sides: readonly [SidePlace, SidePlace];
  /** The seam between the halves. */
  readonly strip: Rect;
  /** Where on the strip the difference stands. */
  readonly difference: Rect;
  /** The smallest part of the picture that holds all that moves. */
  readonly layer: Rect;
  readonly type: TypeScale;
}

/** The few numbers of each side. */
const NUMBERS: readonly PanelName[] = ["power", "heartRate", "speed"];
/** The strip's share of the width, or of the height of halves one above the other. */
const STRIP_WIDE = 0.098;
const STRIP_HIGH = 0.058;
/** On upright pictures a phone lays its own controls over the lower edge: the lower half keeps clear of so much more. */
const UPRIGHT_FOOT = 0.045;
/** Room of the words on the seam beside the numbers, units of the type scale. */
const WORDS_HIGH = 250;
/** A name on a plain ground takes one line, units of the type scale. */
const NAME_HIGH = 59;
/** On a side without footage the thread has so much of what is free above the numbers, and all type is so much larger. */
const ROAD_SHARE = 0.8;
const CARD_SCALE = 1.5;

/** Lays a pair out on a picture: side by side where that is wider than high, else one above the other. */
export function pairLayout(card: PairCard, size: SizePx, ink: Ink, language: Language): PairLayout {
  const wide = shapeOf(size.width, size.height) === "wide";
  const whole = wide ? size.width : size.height;
  const stripPx = evenPx(whole * (wide ? STRIP_WIDE : STRIP_HIGH));
  const halfPx = 2 * Math.floor((whole - stripPx) / 4);
  const rectOf = (from: number, lengthPx: number): Rect =>
    wide
      ? { x: from, y: 0, width: lengthPx, height: size.height }
      : { x: 0, y: from, width: size.width, height: lengthPx };
  const upright = shapeOf(size.width, size.height) === "upright";
  const sides = [0, whole - halfPx].map((from, which): SidePlace => {
    const rect = rectOf(from, halfPx);
    const footPx = upright && which === 1 ? evenPx(size.height * UPRIGHT_FOOT) : 0;
    return { rect, layout: sideLayout(card, card.sides[which]!, rect, footPx, ink, language) };
  }) as [SidePlace, SidePlace];
  const strip = rectOf(halfPx, whole - 2 * halfPx);
  const bands = sides.map(({ rect, layout: { band } }) => ({ ...band, x: rect.x + band.x, y: rect.y + band.y }));
  // As large as on a card, whatever the halves show: it is read from as far.
  const unitPx = sides[0].layout.type.unitPx * (card.sides[0].footage === null ? 1 : CARD_SCALE);
  // Beside the numbers, or over the whole seam between two halves one above the other.
  const wordsPx = evenPx(Math.min(size.height * 0.6, WORDS_HIGH * unitPx));
  const wordsTop = evenPx(size.height * 0.96) - wordsPx;
  const difference = wide ? { ...strip, y: wordsTop, height: wordsPx } : strip;
  const top = Math.min(...bands.map(({ y }) => y), difference.y);
  const layer: Rect = { x: 0, y: top, width: size.width, height: size.height - top };
  return {
    way: wide ? "side by side" : "one above the other",
    sides,
    strip,
    difference,
    layer,
    type: typeScale(unitPx),
  };
}

function sideLayout(card: PairCard, side: PairSide, rect: Rect, footPx: number, ink: Ink, language: Language): Layout {
  const known = (values: readonly (number | null)[]): boolean => values.some((value) => value !== null);
  const { series } = side;
  const layout = layoutFor({
    widthPx: rect.width,
    heightPx: rect.height,
    place: "bottom",
    scale: side.footage === null ? CARD_SCALE : 1,
    panels: NUMBERS,
    ink,
    units: card.units,
    language,
    showPlan: false,
    showThread: true,
    headLine: true,
    available: {
      power: known(series.powerW),
      heartRate: known(series.heartRateBpm),
      speed: known(series.speedMps),
      cadence: false,
      gradient: false,
      position: false,
      mainPart: false,
      likePower: false,
      band: false,
      // On a card the road stands where the thread would, also of a ride that tells no pressure.
      pressure: series.pressure.some((state) => state !== 0) || (side.footage === null && known(series.altitudeM)),
      variable: series.variable,
      tenHours: false,
    },
  });
  return side.footage === null ? asCard(layout, rect, footPx) : withFoot(layout, footPx);
}

/** All so much higher; the shade goes on to the half's own lower edge. */
function withFoot(layout: Layout, footPx: number): Layout {
  const { band, scrim } = layout;
  const alpha = new Uint8Array(band.height + footPx).fill(scrim.alpha.at(-1) ?? 0);
  alpha.set(scrim.alpha);
  const higher = { ...band, y: band.y - footPx, height: band.height + footPx };
  return { ...layout, band: higher, scrim: { ...scrim, alpha } };
}

/** The same numbers on a plain ground, and above them the road with the thread on it, as high as there is room. */
function asCard(layout: Layout, rect: Rect, footPx: number): Layout {
  const down = layout.band.y - footPx;
  const moved = (one: Rect): Rect => ({ ...one, y: one.y + down });
  const { thread, captionArea } = layout;
  const numbersTop = Math.min(...layout.panels.map((place) => place.rect.y + down), rect.height);
  const unit = layout.type.unitPx;
  const nameTop = Math.round(rect.height * 0.05);
  const name = captionArea && { ...captionArea, y: nameTop, height: Math.round(NAME_HIGH * unit) };
  const freeTop = name === null ? nameTop : name.y + name.height;
  const roadPx = Math.max(0, Math.round((numbersTop - freeTop) * ROAD_SHARE));
  return {
    ...layout,
    band: { x: 0, y: 0, width: rect.width, height: rect.height },
    scrim: { along: "rows", alpha: new Uint8Array(rect.height) },
    panels: layout.panels.map((place) => ({
      ...place,
      rect: moved(place.rect),
      labelY: place.labelY + down,
      baselineY: place.baselineY + down,
      noteY: place.noteY + down,
    })),
    thread: thread && {
      ...thread,
      y: Math.round(numbersTop - roadPx - 24 * unit),
      height: roadPx,
    },
    captionArea: name,
  };
}

function evenPx(px: number): number {
  return 2 * Math.round(px / 2);
}
