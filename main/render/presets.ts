/** The one set of presets: what a film is made for. */
export type PresetName = "draft" | "share" | "phone" | "archive";

export interface Preset {
  readonly name: PresetName;
  readonly speed: "ultrafast" | "veryfast" | "medium";
  /** Constant rate factor of x264; x265 reads its own scale and gets 4 more. */
  readonly crf: number;
  readonly audioKbps: number;
  /** Largest number of lines; null: as filmed. */
  readonly maxLines: number | null;
  /** A shape of its own, px; null: the footage's. */
  readonly shape: { readonly widthPx: number; readonly heightPx: number } | null;
  /** Upright shapes cut the sides off, all others keep the whole picture and pad it with black. */
  readonly fit: "pad" | "crop";
  /** Size to hit with two passes, MB (10^6 bytes); null: one pass at constant quality. */
  readonly sizeMb: number | null;
  /** Steps a second at which the thread grows. */
  readonly threadStepsPerSecond: number;
}

export const PRESETS: Readonly<Record<PresetName, Preset>> = {
  draft: {
    name: "draft",
    speed: "ultrafast",
    crf: 28,
    audioKbps: 160,
    maxLines: 540,
    shape: null,
    fit: "pad",
    sizeMb: null,
    threadStepsPerSecond: 5,
  },
  share: {
    name: "share",
    speed: "veryfast",
    crf: 20,
    audioKbps: 160,
    maxLines: 1080,
    shape: null,
    fit: "pad",
    sizeMb: null,
    threadStepsPerSecond: 5,
  },
  phone: {
    name: "phone",
    speed: "veryfast",
    crf: 20,
    audioKbps: 160,
    maxLines: null,
    shape: { widthPx: 1080, heightPx: 1920 },
    fit: "crop",
    sizeMb: 30,
    threadStepsPerSecond: 5,
  },
  archive: {
    name: "archive",
    speed: "medium",
    crf: 17,
    audioKbps: 160,
    maxLines: null,
    shape: null,
    fit: "pad",
    sizeMb: null,
    threadStepsPerSecond: 10,
  },
};

export interface PictureSize {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Where a film has no footage, cards are drawn at this size. */
const CARDS_ONLY: PictureSize = { widthPx: 1920, heightPx: 1080 };

/**
 * Size of a film made from footage of this size with this preset: whole even pixels, never larger than the footage
 * (a preset's own shape apart).
 *
 * @param asFilmed keeps the footage's shape where the preset has one of its own
 */
export function filmSizeFor(preset: Preset, footage: PictureSize | null, asFilmed = false): PictureSize {
  if (preset.shape !== null && !asFilmed) return preset.shape;
  const from = footage ?? CARDS_ONLY;
  const lines = Math.min(from.widthPx, from.heightPx);
  const share = preset.maxLines === null ? 1 : Math.min(1, preset.maxLines / lines);
  return { widthPx: evenPx(from.widthPx * share), heightPx: evenPx(from.heightPx * share) };
}

function evenPx(px: number): number {
  return Math.max(2, 2 * Math.round(px / 2));
}
