import { createCanvas, loadImage } from "@napi-rs/canvas";

/** JPEG quality at which panel figures show no fringes at arm's length; looked at. */
const JPEG_QUALITY = 82;

/** A picture as JPEG, scaled down to `widthPx` where it is wider; for pages. */
export async function smallPicture(
  png: Uint8Array,
  widthPx: number,
): Promise<{ jpeg: Uint8Array; widthPx: number; heightPx: number }> {
  const image = await loadImage(Buffer.from(png));
  const scale = Math.min(1, widthPx / image.width);
  const canvas = createCanvas(Math.round(image.width * scale), Math.round(image.height * scale));
  canvas.getContext("2d").drawImage(image, 0, 0, canvas.width, canvas.height);
  return { jpeg: await canvas.encode("jpeg", JPEG_QUALITY), widthPx: canvas.width, heightPx: canvas.height };
}
