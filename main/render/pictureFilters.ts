import type { Fit, PictureSize } from "../contract/presets.ts";
import type { Clip } from "../contract/footage.ts";

/**
 * Filters that bring a clip's picture to the film's size and to 8-bit BT.709, limited range. Rotation and mirroring are
 * undone by ffmpeg itself when it reads the clip.
 *
 * A clip that does not say its matrix is taken for BT.709. Smpte2084 and arib-std-b67 are mapped to SDR (needs the
 * filters of `hdrFilters`).
 *
 * @param margin colour around a padded picture, #rrggbb
 * @param closeUp what brings a part of the picture to the film's size; null: all of it is shown
 */
export function pictureFilters(
  clip: Clip,
  size: PictureSize,
  fit: Fit,
  margin = "#000000",
  closeUp: readonly string[] | null = null,
): string[] {
  const resize = closeUp ?? resizeFilters(clip, size, fit, margin);
  if (clip.colour.hdr) return [...toneMapped(clip), ...resize, ...SAME_PIXELS];
  return [...rangeFilters(clip), ...matrixFilters(clip), ...resize, ...SAME_PIXELS];
}

/** What HDR clips need of ffmpeg. */
export const hdrFilters: readonly string[] = ["zscale", "tonemap"];

/** Says what the pixels are, whatever the source said of itself. */
export const bt709Params = "setparams=range=limited:color_primaries=bt709:color_trc=bt709:colorspace=bt709";

/** What stands at the end of every picture, so that pictures of all sources may be joined. */
const SAME_PIXELS = ["format=yuv420p", "setsar=1", bt709Params];

function resizeFilters(clip: Clip, size: PictureSize, fit: Fit, margin: string): string[] {
  const { widthPx, heightPx } = size;
  const square = clip.pixelAspect.num === clip.pixelAspect.den;
  if (square && clip.widthPx === widthPx && clip.heightPx === heightPx) return [];
  const wide = widthPx / clip.widthPx;
  const high = heightPx / clip.heightPx;
  const share = fit === "crop" ? Math.max(wide, high) : Math.min(wide, high);
  const scaledWidth = nearEven(clip.widthPx * share, widthPx);
  const scaledHeight = nearEven(clip.heightPx * share, heightPx);
  const filters = [`scale=${scaledWidth}:${scaledHeight}`];
  if (scaledWidth === widthPx && scaledHeight === heightPx) return filters;
  if (fit === "crop")
    return [
      ...filters,
      `crop=${widthPx}:${heightPx}:${middle(scaledWidth - widthPx)}:${middle(scaledHeight - heightPx)}`,
    ];
  return [
    ...filters,
    `pad=${widthPx}:${heightPx}:${middle(widthPx - scaledWidth)}:${middle(heightPx - scaledHeight)}:color=${margin}`,
  ];
}

/** An even number of pixels; the wished number itself where it is within one pixel. */
function nearEven(px: number, wishedPx: number): number {
  const even = Math.max(2, 2 * Math.round(px / 2));
  return Math.abs(even - wishedPx) <= 2 ? wishedPx : even;
}

function middle(sparePx: number): number {
  return 2 * Math.floor(sparePx / 4);
}

function rangeFilters(clip: Clip): string[] {
  return clip.colour.range === "pc" ? ["scale=in_range=pc:out_range=tv", "format=yuv420p"] : [];
}

/** Not by `scale`, which leaves the matrix alone where the pixel format stays the same. */
function matrixFilters(clip: Clip): string[] {
  const from = otherMatrix(clip);
  if (from === null) return [];
  return [
    "format=yuv420p",
    `colorspace=${from}:irange=tv:space=bt709:primaries=bt709:trc=bt709:range=tv:format=yuv420p`,
  ];
}

/** What a clip's pixels are where they are not BT.709's, in words of ffmpeg's `colorspace`. */
function otherMatrix(clip: Clip): string | null {
  switch (clip.colour.matrix) {
    case "smpte170m":
    case "bt470bg":
      return `ispace=${clip.colour.matrix}:iprimaries=bt709:itrc=bt709`;
    case "bt2020nc":
      return "ispace=bt2020ncl:iprimaries=bt2020:itrc=bt2020-10";
    default:
      return null;
  }
}

/** Through linear light to SDR. Operator and desaturation: common practice, no source. */
function toneMapped(clip: Clip): string[] {
  const from = [
    `tin=${clip.colour.transfer ?? "smpte2084"}`,
    `pin=${clip.colour.primaries ?? "bt2020"}`,
    `min=${clip.colour.matrix ?? "bt2020nc"}`,
    `rin=${clip.colour.range}`,
  ];
  return [
    `zscale=${from.join(":")}:t=linear:npl=100`,
    "format=gbrpf32le",
    "zscale=p=bt709",
    "tonemap=hable:desat=0",
    "zscale=t=bt709:m=bt709:r=limited:d=error_diffusion",
    "format=yuv420p",
  ];
}
