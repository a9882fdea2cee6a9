import type { ByteSource } from "./byteSource.ts";

/** One box of an MP4 or MOV file (ISO/IEC 14496-12, 4.2): where its payload lies. */
export interface Box {
  /** Four characters, e.g. `moov`. */
  readonly type: string;
  /** First byte of the box, header included. */
  readonly offset: number;
  /** First byte after the header. */
  readonly start: number;
  /** One past the last byte; never past the end of what holds it. */
  readonly end: number;
  /** True when the box claims more bytes than there are. */
  readonly cut: boolean;
}

/** Four bytes as characters (Latin-1, so that the copyright sign of user data survives). */
export function fourCc(view: DataView, at: number): string {
  return String.fromCharCode(view.getUint8(at), view.getUint8(at + 1), view.getUint8(at + 2), view.getUint8(at + 3));
}

/** Header at `at`, with what follows limited to `limit`; null when there is no room for one or its size is impossible. */
function boxHeader(view: DataView, at: number, offset: number, limit: number): Box | null {
  if (at + 8 > view.byteLength || offset + 8 > limit) return null;
  let size = view.getUint32(at);
  const type = fourCc(view, at + 4);
  let header = 8;
  if (size === 1) {
    if (at + 16 > view.byteLength || offset + 16 > limit) return null;
    size = view.getUint32(at + 8) * 2 ** 32 + view.getUint32(at + 12);
    header = 16;
  } else if (size === 0) {
    size = limit - offset;
  }
  if (size < header) return null;
  const end = offset + size;
  return { type, offset, start: offset + header, end: Math.min(end, limit), cut: end > limit };
}

/** The boxes inside `[start, end)` of a buffer; stops at the first impossible size, so a damaged tail costs only itself. */
export function childBoxes(view: DataView, start: number, end: number): Box[] {
  const boxes: Box[] = [];
  let at = start;
  const limit = Math.min(end, view.byteLength);
  while (at + 8 <= limit) {
    const box = boxHeader(view, at, at, limit);
    if (!box) break;
    boxes.push(box);
    at = box.end;
  }
  return boxes;
}

/** First child of that type, or null. */
export function childBox(
  view: DataView,
  parent: { readonly start: number; readonly end: number },
  type: string,
): Box | null {
  return childBoxes(view, parent.start, parent.end).find((box) => box.type === type) ?? null;
}

/** The boxes at the top of a file, read by hopping from header to header (a few bytes each, whatever the file's size). */
export async function topBoxes(source: ByteSource, limitCount = 100_000): Promise<Box[]> {
  const boxes: Box[] = [];
  let at = 0;
  while (at + 8 <= source.size && boxes.length < limitCount) {
    const head = await source.read(at, 16);
    const view = new DataView(head.buffer, head.byteOffset, head.byteLength);
    const box = boxHeader(view, 0, at, source.size);
    if (!box) break;
    boxes.push(box);
    at = box.end;
  }
  return boxes;
}
