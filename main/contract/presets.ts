/** The one set of presets: what a film is made for, for whom, and how large it then is. */

/** The names; `PresetName` and every option and schema come from them. */
export const PRESET_NAMES = ["draft", "share", "phone", "archive"] as const;
export type PresetName = (typeof PRESET_NAMES)[number];

/** What a film is made as where nobody says otherwise. */
export const USUAL_PRESET: PresetName = "share";
/** The order in which a person chooses, the usual one first. */
export const PRESETS_BY_USE: readonly PresetName[] = [USUAL_PRESET, "phone", "draft", "archive"];

/** Width to height of a picture; `as filmed` is the footage's own. */
export const SHAPE_NAMES = ["as filmed", "16:9", "9:16", "1:1"] as const;
export type ShapeName = (typeof SHAPE_NAMES)[number];

/** How footage goes into another shape: fill it and lose the sides, or keep the whole picture on black. */
export const FITS = ["crop", "pad"] as const;
export type Fit = (typeof FITS)[number];

/** The sound of slowed footage: stretched with its pitch kept, or none. */
export const SLOW_SOUNDS = ["stretched", "none"] as const;
export type SlowSound = (typeof SLOW_SOUNDS)[number];

/** Whom a film or page is made for: the rider in it, or others who may learn from it. */
export const FOR_WHOM = ["athlete", "lesson"] as const;
export type ForWhom = (typeof FOR_WHOM)[number];

export interface Preset {
  readonly name: PresetName;
  readonly speed: "ultrafast" | "veryfast" | "medium";
  /** Constant rate factor of x264; x265 reads its own scale and gets 4 more. */
  readonly crf: number;
  readonly audioKbps: number;
  /** Smaller footage is scaled up to so many lines, so that the figures are sharp; 0: never. */
  readonly leastLines: number;
  /** Largest number of lines; null: as filmed. */
  readonly mostLines: number | null;
  /** A shape of its own with so many lines, whatever the footage; null: as filmed. */
  readonly shape: { readonly name: ShapeName; readonly lines: number } | null;
  /** Size that the file may not exceed, MB (10^6 bytes); null: as large as constant quality makes it. */
  readonly sizeMb: number | null;
  /** Steps a second at which the thread grows. */
  readonly threadStepsPerSecond: number;
}

const SHARE: Preset = {
  name: "share",
  speed: "veryfast",
  crf: 20,
  audioKbps: 160,
  leastLines: 720,
  mostLines: 1080,
  shape: null,
  sizeMb: null,
  threadStepsPerSecond: 5,
};

export const PRESETS: Readonly<Record<PresetName, Preset>> = {
  draft: { ...SHARE, name: "draft", speed: "ultrafast", crf: 28, leastLines: 0, mostLines: 540 },
  share: SHARE,
  phone: { ...SHARE, name: "phone", shape: { name: "9:16", lines: 1080 }, sizeMb: 30 },
  archive: { ...SHARE, name: "archive", speed: "medium", crf: 17, mostLines: null, threadStepsPerSecond: 10 },
};

/** Whole even pixels. */
export interface PictureSize {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** A film of cards alone is as large as this footage would make it. */
const CARDS_ONLY: PictureSize = { widthPx: 1280, heightPx: 720 };

const WIDTH_TO_HEIGHT: Readonly<Record<Exclude<ShapeName, "as filmed">, number>> = {
  "16:9": 16 / 9,
  "9:16": 9 / 16,
  "1:1": 1,
};

/**
 * Size of a film made from footage of this size (null: of cards alone) with this preset. Lines are counted along the
 * short side, whatever way the picture stands.
 *
 * @param shape null: the preset's own
 */
export function filmSizeFor(preset: Preset, footage: PictureSize | null, shape: ShapeName | null = null): PictureSize {
  const from = footage ?? CARDS_ONLY;
  const filmedLines = Math.min(from.widthPx, from.heightPx);
  const name = shape ?? preset.shape?.name ?? "as filmed";
  const lines =
    name === preset.shape?.name
      ? preset.shape.lines
      : Math.max(preset.leastLines, Math.min(filmedLines, preset.mostLines ?? filmedLines));
  if (name === "as filmed") {
    const share = lines / filmedLines;
    return { widthPx: evenPx(from.widthPx * share), heightPx: evenPx(from.heightPx * share) };
  }
  const ratio = WIDTH_TO_HEIGHT[name];
  return { widthPx: evenPx(lines * Math.max(1, ratio)), heightPx: evenPx(lines * Math.max(1, 1 / ratio)) };
}

/**
 * How footage goes into another shape: `crop` fills it and loses the sides, `pad` keeps the whole picture on black.
 *
 * @param wished null: `crop` where a shape was chosen, else `pad`
 */
export function fitFor(preset: Preset, shape: ShapeName | null, wished: Fit | null): Fit {
  return wished ?? ((shape ?? preset.shape?.name ?? "as filmed") === "as filmed" ? "pad" : "crop");
}

function evenPx(px: number): number {
  return Math.max(2, 2 * Math.round(px / 2));
}
