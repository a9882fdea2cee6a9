import type { Film } from "../contract/film.ts";
import type { Rect } from "../../overlay/surface.ts";
import type { PartGraph } from "./partGraph.ts";
import { bt709Params } from "./pictureFilters.ts";
import type { Part } from "./planParts.ts";

/**
 * `animation`: QuickTime Animation, lossless and fast. `prores`: ProRes 4444, for editing programs that ask for it; off by
 * up to 3 levels of 255 where a figure's edge is sharp.
 */
export type AlphaCodec = "animation" | "prores";

/** The panels alone on a clear picture of the film's size, at the film's constant rate. */
export function alphaGraph(film: Film, part: Part, band: Rect, codec: AlphaCodec): PartGraph {
  const { num, den } = film.frameRate;
  const chain = [
    `fps=${num}/${den}:start_time=0:round=up`,
    `settb=${den}/${num}`,
    "setpts=N",
    `trim=end_frame=${part.frames}`,
    `pad=${film.widthPx}:${film.heightPx}:${band.x}:${band.y}:color=black@0`,
    ...(codec === "animation"
      ? ["format=argb"]
      : ["scale=out_color_matrix=bt709:out_range=tv", "format=yuva444p10le", bt709Params]),
  ];
  return {
    inputs: [{ source: "pipe:0", options: ["-f", "matroska"] }],
    filterGraph: `[0:v]${chain.join(",")}[v]`,
    videoLabel: "v",
    audioLabel: null,
  };
}

/** Encoder settings of a track with alpha. RGB carries no matrix, so only ProRes is tagged. */
export function alphaEncoding(codec: AlphaCodec): string[] {
  return codec === "animation"
    ? ["-c:v", "qtrle", "-pix_fmt", "argb"]
    : ["-c:v", "prores_ks", "-profile:v", "4444", "-alpha_bits", "16", "-pix_fmt", "yuva444p10le"];
}
