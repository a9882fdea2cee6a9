import { deserialize, serialize } from "node:v8";
import { type ChildLine, errorLine } from "../contract/childLine.ts";
import { Failure } from "../contract/failure.ts";
import { layoutFor } from "../../overlay/layout/layout.ts";
import { pairLayout } from "../../overlay/pair/pairLayout.ts";
import { createKeptPicture, type KeptPicture } from "./keptPicture.ts";
import { matroskaHeader, matroskaPictureHead, type PixelLayout } from "./matroskaStream.ts";
import type { PaintMessage, PaintOrder, PaintSetup, PictureChange } from "./paintMessages.ts";
import { SENTINEL_US } from "./panelPictures.ts";
import { projectFile } from "../host/projectFile.edge.ts";
import { startNodeChild } from "../host/nodeChild.edge.ts";
import { Cancelled } from "../contract/job.ts";
import type { Tools } from "../contract/tools.ts";

/** A painting child, ready for orders; one at a time. */
export interface PaintClient {
  /**
   * Sends an order and hands the answer on piece by piece, in step with the taker: for panels a Matroska stream of the
   * whole band, put together here from what changes between pictures. A piece is valid until the taker returns.
   */
  paint(order: PaintOrder, take: (bytes: Uint8Array) => Promise<void>): Promise<void>;
  /** The child ends this process if our own is killed outright. Returns what to call once it has ended. */
  guard(pid: number): () => void;
  /** Ends the child; safe to call again. */
  close(): void;
}

/** Starts the painting child. It ends with `close` or with the signal. */
export function startPaintClient(
  setup: Omit<PaintSetup, "kind" | "fontsFolder">,
  tools: Pick<Tools, "startChild">,
  signal: AbortSignal,
): PaintClient {
  const child = (tools.startChild ?? startNodeChild)("paintChild");
  const close = (): void => child.kill();
  signal.addEventListener("abort", close, { once: true });
  void child.ended.then(() => signal.removeEventListener("abort", close));

  const { band, theme } = layoutFor(setup.layoutOptions);
  const { widthPx: width, heightPx: height, language } = setup.layoutOptions;
  // As the child keeps its own: what it sends is what differs from this.
  let kept: Kept | null = null;
  const keptAs = (pixels: PixelLayout): Kept => {
    if (kept?.pixels !== pixels) kept = { pixels, picture: createKeptPicture(band.width, band.height, pixels) };
    return kept;
  };
  const tell = (message: PaintMessage): void => child.tell(serialize(message));
  tell({ kind: "setup", fontsFolder: projectFile("assets", "fonts"), ...setup });
  return {
    close,
    guard(pid) {
      tell({ kind: "guard", pid, ended: false });
      return () => tell({ kind: "guard", pid, ended: true });
    },
    async paint(order, take) {
      tell(order);
      // A taker that has enough must not leave the rest of its answer to the next order.
      let refusal: { readonly reason: unknown } | null = null;
      const takeOrDrop = async (bytes: Uint8Array): Promise<void> => {
        if (refusal !== null) return;
        try {
          await take(bytes);
        } catch (reason) {
          refusal = { reason };
        }
      };
      const chunks = answerOf(child, () => {
        if (signal.aborted) throw new Cancelled();
        throw new Failure("panels-unpainted", { said: errorLine(child.said()) });
      });
      if (order.kind === "panels") await joinPanelStream(band, keptAs(order.pixels), chunks, takeOrDrop);
      else if (order.kind === "pair") {
        // Its layer is painted anew by each order.
        const { layer } = pairLayout(order.card, { width, height }, theme.name, language);
        const picture = createKeptPicture(layer.width, layer.height, order.pixels);
        await joinPanelStream(layer, { pixels: order.pixels, picture }, chunks, takeOrDrop);
      } else for await (const chunk of chunks) await takeOrDrop(chunk);
      if (refusal !== null) throw (refusal as { readonly reason: unknown }).reason;
    },
  };
}

/** The chunks of one answer; an empty one ends it. @param broken throws; called when the child ends before the answer does */
async function* answerOf(child: ChildLine, broken: () => never): AsyncGenerator<Uint8Array> {
  for (;;) {
    const chunk = (await child.take()) ?? broken();
    if (chunk.length === 0) return;
    yield chunk;
  }
}

/** The band's picture as the last order left it. */
interface Kept {
  readonly pixels: PixelLayout;
  readonly picture: KeptPicture;
}

/** Brings the band's picture up to date with each change and hands on the whole as a live stream. */
async function joinPanelStream(
  band: { readonly width: number; readonly height: number },
  { pixels, picture }: Kept,
  changes: AsyncIterable<Uint8Array>,
  take: (bytes: Uint8Array) => Promise<void>,
): Promise<void> {
  const takePicture = async (timeUs: number, bytes: Uint8Array): Promise<void> => {
    await take(matroskaPictureHead(timeUs, bytes.length));
    await take(bytes);
  };
  await take(matroskaHeader(band.width, band.height, pixels));
  let lastOpacity = 0;
  for await (const chunk of changes) {
    const { timeUs, opacity, patches } = deserialize(chunk) as PictureChange;
    for (const patch of patches) picture.lay(patch);
    await takePicture(timeUs, picture.bytes(opacity));
    lastOpacity = opacity;
  }
  await takePicture(SENTINEL_US, picture.bytes(lastOpacity));
}
