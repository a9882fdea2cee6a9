import type { Cover } from "../../main/contract/framing.ts";
import type { Fit } from "../../main/contract/presets.ts";
import { type CloseUp, filledBy, type PictureBox } from "../../overlay/instant/closeUpAt.ts";
import { coverBoxesAt, coverLegs, coverPatches } from "../../overlay/instant/coverBoxes.ts";

/** How a shot's picture is shown: what of it is hidden, and which part fills the frame. */
interface Framed {
  readonly covers: readonly Cover[];
  /** Null: all of it. */
  readonly closeUp: CloseUp | null;
  readonly fit: Fit;
  /** The clip's whole picture, whatever the film shows of it: while a hand works on it. */
  readonly whole: boolean;
  /** Colour around it. */
  readonly margin: string;
  readonly clip: { readonly widthPx: number; readonly heightPx: number; readonly frameS: number };
}

interface Size {
  readonly width: number;
  readonly height: number;
}

const ALL: PictureBox = { x: 0, y: 0, width: 1, height: 1 };

/** Where the whole picture of a clip lies in a frame of another shape, shares of the frame. */
export function wholePlace(clipAspect: number, frameAspect: number): PictureBox {
  const width = Math.min(1, clipAspect / frameAspect);
  const height = Math.min(1, frameAspect / clipAspect);
  return { x: (1 - width) / 2, y: (1 - height) / 2, width, height };
}

/** Paints the frame that stands on a video as the film shows it, at a clip time, s. */
export function paintFramed(
  context: CanvasRenderingContext2D,
  video: HTMLVideoElement,
  size: Size,
  framed: Framed,
  mediaS: number,
): void {
  const { covers, closeUp, fit, whole, clip } = framed;
  const clipAspect = clip.widthPx / clip.heightPx;
  const aspect = size.width / size.height;
  const part = whole || (closeUp === null && fit !== "crop") ? ALL : filledBy(closeUp, clipAspect, aspect);
  const place = wholePlace((clipAspect * part.width) / part.height, aspect);
  const [left, top] = [place.x * size.width, place.y * size.height];
  const [wide, high] = [place.width * size.width, place.height * size.height];
  const { videoWidth, videoHeight } = video;
  context.fillStyle = framed.margin;
  context.fillRect(0, 0, size.width, size.height);
  context.imageSmoothingQuality = "high";
  context.save();
  context.beginPath();
  context.rect(left, top, wide, high);
  context.clip();
  /** Clip pixels to those of the canvas. */
  const scaleX = wide / (part.width * clip.widthPx);
  const scaleY = high / (part.height * clip.heightPx);
  const originX = left - part.x * clip.widthPx * scaleX;
  const originY = top - part.y * clip.heightPx * scaleY;
  context.drawImage(video, originX, originY, clip.widthPx * scaleX, clip.heightPx * scaleY);
  const picture = { width: clip.widthPx, height: clip.heightPx };
  for (const { kind, keys } of covers)
    for (const box of coverBoxesAt(coverLegs(keys, clip.frameS, picture), mediaS)) {
      const at = [originX + box.x * scaleX, originY + box.y * scaleY, box.width * scaleX, box.height * scaleY] as const;
      if (kind === "solid") {
        context.fillStyle = "#000000";
        context.fillRect(...at);
        continue;
      }
      const [shareX, shareY] = [videoWidth / clip.widthPx, videoHeight / clip.heightPx];
      context.drawImage(
        patchesOf(video, box.x * shareX, box.y * shareY, box.width * shareX, box.height * shareY),
        ...at,
      );
    }
  context.restore();
}

let small: HTMLCanvasElement | null = null;

/** A part of the picture as a few patches of colour, px of the video. */
function patchesOf(video: HTMLVideoElement, x: number, y: number, width: number, height: number): HTMLCanvasElement {
  const { across, down } = coverPatches({ width, height });
  small ??= document.createElement("canvas");
  small.width = across;
  small.height = down;
  const context = small.getContext("2d")!;
  context.imageSmoothingQuality = "high";
  context.drawImage(video, x, y, width, height, 0, 0, across, down);
  return small;
}
