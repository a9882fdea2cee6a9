import type { Clip } from "../contract/footage.ts";
import type { PictureSize } from "./presets.ts";

/**
 * Filters that bring a clip's picture to the film's size and to 8-bit BT.709, limited range. Rotation and mirroring are
 * undone by ffmpeg itself when it reads the clip.
 *
 * A clip that does not say its matrix is taken for BT.709. Smpte2084 and arib-std-b67 are mapped to SDR (needs the
 * filters of `hdrFilters`).
 */
export function pictureFilters(clip: Clip, size: PictureSize, fit: "pad" | "crop"): string[] {
  const resize = resizeFilters(clip, size, fit);
  if (clip.colour.hdr) return [...toneMapped(clip), ...resize, ...SAME_PIXELS];
  const matrix = inputMatrix(clip);
  const converts = clip.colour.range === "pc" || matrix !== "bt709";
  if (!converts) return [...resize, ...SAME_PIXELS];
  const convert = `scale=in_color_matrix=${matrix}:in_range=${clip.colour.range}:out_color_matrix=bt709:out_range=tv`;
  return [convert, "format=yuv420p", ...resize, ...SAME_PIXELS];
}

/** What HDR clips need of ffmpeg. */
export const hdrFilters: readonly string[] = ["zscale", "tonemap"];

/** Says what the pixels are, whatever the source said of itself. */
export const bt709Params = "setparams=range=limited:color_primaries=bt709:color_trc=bt709:colorspace=bt709";

/** What stands at the end of every picture, so that pictures of all sources may be joined. */
const SAME_PIXELS = [
  "format=yuv420p",
  "setsar=1",
  bt709Params,
];

function resizeFilters(clip: Clip, size: PictureSize, fit: "pad" | "crop"): string[] {
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
  if (fit === "crop") return [...filters, `crop=${widthPx}:${heightPx}:${middle(scaledWidth - widthPx)}:${middle(scaledHeight - heightPx)}`];
  return [...filters, `pad=${widthPx}:${heightPx}:${middle(widthPx - scaledWidth)}:${middle(heightPx - scaledHeight)}`];
}

/** An even number of pixels; the wished number itself where it is within one pixel. */
function nearEven(px: number, wishedPx: number): number {
  const even = Math.max(2, 2 * Math.round(px / 2));
  return Math.abs(even - wishedPx) <= 2 ? wishedPx : even;
}

function middle(sparePx: number): number {
  return 2 * Math.floor(sparePx / 4);
}

function inputMatrix(clip: Clip): string {
  switch (clip.colour.matrix) {
    case "smpte170m":
    case "bt470bg":
      return clip.colour.matrix;
    case "bt2020nc":
    case "bt2020c":
    case "bt2020_ncl":
      return "bt2020";
    default:
      return "bt709";
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
