// One painter for all parts of a film: what it keeps from part to part shows in no byte of what it sends.
import { expect, test } from "vitest";
import type { PaintOrder } from "../../main/render/paintMessages.ts";
import { startPaintClient, type PaintClient } from "../../main/render/paintClient.edge.ts";
import { bareYuva420p, convertToYuva420p, emptyYuva420p } from "../../main/render/convertToYuva420p.ts";
import type { PixelLayout } from "../../main/render/matroskaStream.ts";
import { panelValuesAt } from "../../overlay/instant/panelValuesAt.ts";
import { threadPageAt } from "../../overlay/instant/threadPageAt.ts";
import { seededRandom } from "../../main/demo/seededRandom.ts";
import { countingRide, layoutOptionsFor } from "./filmFixtures.ts";

const columns = countingRide(400);
const setup = { layoutOptions: layoutOptionsFor(640, 360), route: null, bandW: columns.bandW };

/** Panels of a shot over ride seconds, with a card's clear pictures before or after it where asked. */
function order(pixels: PixelLayout, fromS: number, clear: "before" | "after" | "none"): PaintOrder {
  const none = (timeUs: number) => ({ timeUs, shown: null, opacity: 0 });
  const shot = [0, 0.2, 0.4, 1, 1.2].map((atS, k) => ({
    timeUs: 1e6 + atS * 1e6,
    shown: {
      values: panelValuesAt(columns, fromS + atS),
      page: threadPageAt(columns, { startS: fromS - 60, endS: fromS + 30 }, fromS + atS),
      notes: { caption: fromS > 200 ? "One more breath" : null, speed: 1, rider: null },
    },
    opacity: k === 0 ? 0.4 : 1,
  }));
  const pictures = [...(clear === "before" ? [none(0)] : []), ...shot, ...(clear === "after" ? [none(9e6)] : [])];
  return { kind: "panels", pixels, pictures };
}

async function painted(client: PaintClient, wished: PaintOrder): Promise<Buffer> {
  const pieces: Buffer[] = [];
  await client.paint(wished, (bytes) => Promise.resolve(void pieces.push(Buffer.from(bytes))));
  return Buffer.concat(pieces);
}

async function withPainter<T>(use: (client: PaintClient) => Promise<T>): Promise<T> {
  const client = startPaintClient(setup, {}, new AbortController().signal);
  try {
    return await use(client);
  } finally {
    client.close();
  }
}

test("an order after others is answered as by a painter of its own, to the byte", { timeout: 120_000 }, async () => {
  const orders = [
    order("yuva420p", 100, "after"),
    order("yuva420p", 100, "none"),
    order("yuva420p", 300, "before"),
    order("rgba", 120, "none"),
    order("yuva420p", 50, "none"),
    order("rgba", 300, "before"),
  ];
  const one = await withPainter(async (client) => {
    const answers: Buffer[] = [];
    for (const wished of orders) answers.push(await painted(client, wished));
    return answers;
  });
  expect(new Set(one.map((bytes) => bytes.toString("latin1"))).size).toBe(orders.length);
  for (const [k, wished] of orders.entries()) {
    const alone = await withPainter((client) => painted(client, wished));
    expect(one[k]!.equals(alone), `order ${k + 1}`).toBe(true);
  }
});

test("a picture is converted as its blocks are one by one, and luma is BT.709's", () => {
  const [width, height] = [64, 32];
  const { uniform: random } = seededRandom(5);
  const byte = (): number => Math.floor(256 * random());
  const rgba = new Uint8ClampedArray(width * height * 4);
  // Scrim, cards and edges: black of any alpha, blocks of one of two colours, clear ones, and no two pixels alike.
  for (let row = 0; row < height; row += 2) {
    for (let column = 0; column < width; column += 2) {
      const kind = Math.floor(5 * random());
      const colour = random() < 0.5 ? [20, 30, 40, 255] : [230, 159, 0, 128];
      for (let corner = 0; corner < 4; corner += 1) {
        const at = 4 * ((row + (corner >> 1)) * width + column + (corner & 1));
        rgba.set(
          kind === 0
            ? [0, 0, 0, byte()]
            : kind === 1
              ? colour
              : kind === 2
                ? [0, 0, 0, 0]
                : [byte(), byte(), byte(), kind === 3 ? byte() : corner % 2],
          at,
        );
      }
    }
  }
  const whole = bareYuva420p(width, height);
  convertToYuva420p(rgba, { x: 0, y: 0, width, height }, whole);
  const blocks = emptyYuva420p(width, height);
  for (let y = 0; y < height; y += 2) {
    for (let x = 0; x < width; x += 2) {
      const block = new Uint8Array(16);
      for (let row = 0; row < 2; row += 1)
        block.set(rgba.subarray(4 * ((y + row) * width + x), 4 * ((y + row) * width + x + 2)), 8 * row);
      convertToYuva420p(block, { x, y, width: 2, height: 2 }, blocks);
    }
  }
  expect(Buffer.from(whole.bytes).equals(Buffer.from(blocks.bytes))).toBe(true);
  // ITU-R BT.709-6, 3.2 to 3.4.
  for (let k = 0; k < width * height; k += 1) {
    const [r, g, b, a] = rgba.subarray(4 * k, 4 * k + 4) as unknown as [number, number, number, number];
    expect(whole.a[k]).toBe(a);
    const luma = a === 0 ? 16 : 16 + (219 / 255) * (0.2126 * r + 0.7152 * g + 0.0722 * b);
    expect(Math.abs(whole.y[k]! - luma)).toBeLessThanOrEqual(0.51);
  }
});
