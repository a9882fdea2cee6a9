/**
 * The painting child: takes orders and answers with pictures, one order after the other. Started by `paintClient`; ends
 * when its line does.
 */
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { deserialize, serialize } from "node:v8";
import { createCanvas, GlobalFonts } from "@napi-rs/canvas";
import { paintCard } from "../../overlay/cards/paintCard.ts";
import { paintDrawing } from "../../overlay/drawing/paintDrawing.ts";
import { FONT_FAMILY } from "../../overlay/drawText.ts";
import { layoutFor, type Layout } from "../../overlay/layout/layout.ts";
import { pairAt } from "../../overlay/pair/pairAt.ts";
import { createPairPainter, paintPairGround } from "../../overlay/pair/paintPair.ts";
import { createPanelPainter, type PanelPainter } from "../../overlay/panels/paintPanels.ts";
import type { Rect } from "../../overlay/surface.ts";
import { ownLine } from "../host/ownLine.edge.ts";
import { createBandPicture, evenWithin, type BandPicture } from "./bandPicture.edge.ts";
import { bareYuva420p, convertToYuva420p, emptyYuva420p } from "./convertToYuva420p.ts";
import { matroskaHeader, matroskaPictureHead, type PixelLayout } from "./matroskaStream.ts";
import type { PaintMessage, PaintOrder, PaintSetup, PictureChange } from "./paintMessages.ts";
import { SENTINEL_US } from "./panelPictures.ts";

let setup: PaintSetup | null = null;
let layout: Layout | null = null;
const guarded = new Set<number>();

const line = ownLine();

async function main(): Promise<void> {
  for await (const message of line.messages) await obey(deserialize(message) as PaintMessage);
}

async function obey(message: PaintMessage): Promise<void> {
  if (message.kind === "setup") {
    setup = message;
    layout = layoutFor(message.layoutOptions);
    registerFonts(message.fontsFolder);
    return;
  }
  if (message.kind === "guard") {
    if (message.ended) guarded.delete(message.pid);
    else guarded.add(message.pid);
    return;
  }
  if (setup === null || layout === null) throw new Error("The painting child was given an order before its set-up.");
  await answer(message, setup, layout);
  await send(new Uint8Array(0));
}

async function answer(order: PaintOrder, given: PaintSetup, made: Layout): Promise<void> {
  if (order.kind === "panels") await paintPanels(order, given, made);
  else if (order.kind === "pair") await paintPair(order, made);
  else if (order.kind === "drawings") await paintDrawings(order, made);
  else await send(paintedCard(order.card, made));
}

function registerFonts(folder: string): void {
  for (const file of readdirSync(folder)) {
    if (/\.(woff2|ttf|otf)$/.test(file)) GlobalFonts.registerFromPath(join(folder, file), FONT_FAMILY);
  }
}

/** The band as the last order left it, and what draws on it. */
interface Band {
  readonly pixels: PixelLayout;
  readonly painter: PanelPainter;
  readonly picture: BandPicture;
}

let lastBand: Band | null = null;

/** Kept from order to order: a part begins with what differs from the end of the part before. */
function bandFor(pixels: PixelLayout, given: PaintSetup, made: Layout): Band {
  if (lastBand?.pixels !== pixels) {
    lastBand = {
      pixels,
      painter: createPanelPainter(made, { route: given.route, bandW: given.bandW }),
      picture: createBandPicture(made.band.width, made.band.height, pixels),
    };
  }
  return lastBand;
}

async function paintPanels(order: PaintOrder & { kind: "panels" }, given: PaintSetup, made: Layout): Promise<void> {
  const { painter, picture } = bandFor(order.pixels, given, made);
  let lastOpacity: number | null = null;
  for (const { timeUs, shown, opacity: wished } of order.pictures) {
    const patches =
      shown === null ? [] : picture.read(painter.paint(picture.surface, shown.values, shown.page, shown.notes));
    const opacity = shown === null ? 0 : wished;
    if (patches.length === 0 && opacity === lastOpacity) continue;
    lastOpacity = opacity;
    const change: PictureChange = { timeUs, opacity, patches };
    await send(serialize(change));
  }
}

async function paintPair({ card, pictures, pixels }: PaintOrder & { kind: "pair" }, made: Layout): Promise<void> {
  const { widthPx, heightPx, language } = made.options;
  const painter = createPairPainter(card, { width: widthPx, height: heightPx }, made.theme, language);
  const { layer } = painter.layout;
  const picture = createBandPicture(layer.width, layer.height, pixels);
  for (const { timeUs, times, drawn } of pictures) {
    const patches = picture.read(painter.paint(picture.surface, pairAt(card, times, drawn)));
    if (patches.length === 0) continue;
    const change: PictureChange = { timeUs, opacity: 1, patches };
    await send(serialize(change));
  }
}

async function paintDrawings(order: PaintOrder & { kind: "drawings" }, made: Layout): Promise<void> {
  const { widthPx, heightPx } = made.options;
  const canvas = createCanvas(widthPx, heightPx);
  const context = canvas.getContext("2d");
  const whole: Rect = { x: 0, y: 0, width: widthPx, height: heightPx };
  const picture = emptyYuva420p(widthPx, heightPx);
  await send(matroskaHeader(widthPx, heightPx, "yuva420p"));
  for (const { timeUs, drawings } of order.pictures) {
    context.clearRect(0, 0, widthPx, heightPx);
    for (const drawing of drawings) paintDrawing(context, drawing, whole, made.theme);
    convertToYuva420p(
      context.getImageData(0, 0, widthPx, heightPx).data,
      evenWithin(whole, widthPx, heightPx),
      picture,
    );
    await sendPicture(timeUs, picture.bytes);
  }
  await sendPicture(SENTINEL_US, picture.bytes);
}

/** A card as raw yuv420p. */
function paintedCard(card: (PaintOrder & { kind: "card" })["card"], made: Layout): Uint8Array {
  const { widthPx, heightPx } = made.options;
  const context = createCanvas(widthPx, heightPx).getContext("2d");
  const size = { width: widthPx, height: heightPx };
  if (card.kind === "pair") paintPairGround(context, card, size, made.theme);
  else paintCard(context, card, size, made.theme, made.options.language);
  const picture = bareYuva420p(widthPx, heightPx);
  convertToYuva420p(
    context.getImageData(0, 0, widthPx, heightPx).data,
    { x: 0, y: 0, width: widthPx, height: heightPx },
    picture,
  );
  return picture.bytes.subarray(0, picture.bytes.length - picture.a.length);
}

async function sendPicture(timeUs: number, bytes: Uint8Array): Promise<void> {
  await send(matroskaPictureHead(timeUs, bytes.length), bytes);
}

/** One chunk of the answer. Returns when it has left, so that the caller may use its bytes again. */
const send = (...pieces: readonly Uint8Array[]): Promise<void> => line.send(...pieces);

// Our line ends when the program that started us is gone: what it left running ends with us.
process.on("exit", () => {
  for (const pid of guarded) {
    try {
      process.kill(pid, "SIGKILL");
    } catch {
      // It has ended already.
    }
  }
});

main().then(
  () => process.exit(0),
  (error: unknown) => {
    process.stderr.write(`${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`);
    process.exit(1);
  },
);
