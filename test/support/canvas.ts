import { createCanvas, GlobalFonts, type Canvas, type SKRSContext2D } from "@napi-rs/canvas";
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { FONT_FAMILY } from "../../overlay/drawText.ts";

const FONTS = join(process.cwd(), "assets", "fonts");

let registered = false;

/** A canvas with the bundled fonts, as the program's own driver has them. */
export function testCanvas(
  width: number,
  height: number,
): { readonly canvas: Canvas; readonly context: SKRSContext2D } {
  if (!registered) {
    for (const file of readdirSync(FONTS).filter((name) => name.endsWith(".woff2")))
      GlobalFonts.registerFromPath(join(FONTS, file), FONT_FAMILY);
    registered = true;
  }
  const canvas = createCanvas(width, height);
  return { canvas, context: canvas.getContext("2d") };
}
