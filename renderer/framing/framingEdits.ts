import type { CloseUpKey, Cover, CoverKey } from "../../main/contract/framing.ts";
import type { Shot } from "../../main/contract/film.ts";
import { closeUpAt, type PictureBox } from "../../overlay/instant/closeUpAt.ts";
import { coverKeyAt } from "../../overlay/instant/coverBoxes.ts";
import { itemTimeAt } from "../../overlay/instant/shotTime.ts";

/** Of a clip: what its keys are reckoned by. */
export interface KeyedClip {
  readonly durationS: number;
  /** Length of a frame, s. */
  readonly frameS: number;
}

/** A cover as a person thinks of it: where its box was put, and whether it holds from the clip's start and to its end. */
interface CoverSpan {
  readonly keys: readonly CoverKey[];
  readonly fromStart: boolean;
  readonly toEnd: boolean;
}

/** The keys that a person set, without those that only hold the box to the clip's ends. */
export function coverSpan({ keys }: Cover, clip: KeyedClip): CoverSpan {
  if (keys.length === 1) return { keys, fromStart: true, toEnd: true };
  const [first, second, last] = [keys[0]!, keys[1]!, keys.at(-1)!];
  const fromStart = first.atMediaS <= 0;
  const toEnd = last.atMediaS >= clip.durationS - clip.frameS / 2;
  const begin = fromStart && sameBox(first, second) ? 1 : 0;
  const end = toEnd && keys.length - begin > 1 && sameBox(last, keys.at(-2)!) ? -1 : undefined;
  return { keys: keys.slice(begin, end), fromStart, toEnd };
}

/** The keys that the film takes: a box that was put once holds for the whole shot, however it is cut later. */
function joinedKeys({ keys, fromStart, toEnd }: CoverSpan, clip: KeyedClip): readonly CoverKey[] {
  if (fromStart && toEnd && keys.length === 1) return keys;
  const [first, last] = [keys[0]!, keys.at(-1)!];
  return [
    ...(fromStart && first.atMediaS > 0 ? [{ ...first, atMediaS: 0 }] : []),
    ...keys,
    ...(toEnd && last.atMediaS < clip.durationS ? [{ ...last, atMediaS: clip.durationS }] : []),
  ];
}

function sameBox(one: CoverKey, other: CoverKey): boolean {
  return one.x === other.x && one.y === other.y && one.width === other.width && one.height === other.height;
}

/** A cover with its box put somewhere at an instant; where it was put before, it goes there evenly. */
export function withCoverKey(cover: Cover, key: CoverKey, clip: KeyedClip): Cover {
  const span = coverSpan(cover, clip);
  const others = span.keys.filter(({ atMediaS }) => Math.abs(atMediaS - key.atMediaS) >= clip.frameS / 2);
  // Outside its span it would hide a moment that it was taken away from; then the span reaches there.
  const keys = [...others, key].sort((a, b) => a.atMediaS - b.atMediaS);
  return { ...cover, keys: joinedKeys({ ...span, keys }, clip) };
}

/** A cover without one of the keys that a person set; null: it was the last. */
export function withoutCoverKey(cover: Cover, index: number, clip: KeyedClip): Cover | null {
  const span = coverSpan(cover, clip);
  const keys = span.keys.filter((_, k) => k !== index);
  // With one key left there is no span of its own any more: it hides for the whole shot, rather too much.
  return keys.length === 0 ? null : { ...cover, keys: joinedKeys({ ...span, keys }, clip) };
}

/** A cover that begins or ends with the frame at an instant; null: it would be none. */
export function coverCut(cover: Cover, which: "from" | "until", atMediaS: number, clip: KeyedClip): Cover | null {
  const span = coverSpan(cover, clip);
  const half = clip.frameS / 2;
  const here = coverKeyAt(cover.keys, atMediaS);
  const stay = span.keys.filter((key) =>
    which === "from" ? key.atMediaS > atMediaS + half : key.atMediaS < atMediaS - half,
  );
  const keys = which === "from" ? [here, ...stay] : [...stay, here];
  const cut: CoverSpan = { ...span, keys, ...(which === "from" ? { fromStart: false } : { toEnd: false }) };
  const joined = joinedKeys(cut, clip);
  // A single frame is hidden by two keys on it: one alone would hold for the whole shot.
  if (joined.length > 1) return { ...cover, keys: joined };
  const [only] = joined;
  return { ...cover, keys: [only!, { ...only!, atMediaS: only!.atMediaS + half }] };
}

/** A cover that holds for the whole shot. */
export function coverWhole(cover: Cover, clip: KeyedClip): Cover {
  return { ...cover, keys: joinedKeys({ ...coverSpan(cover, clip), fromStart: true, toEnd: true }, clip) };
}

/** A shot with a cover put in, changed or (null) taken away; the index after the last adds one. */
export function withCover(shot: Shot, index: number, cover: Cover | null): Shot {
  const covers = [...(shot.covers ?? [])];
  covers.splice(index, 1, ...(cover === null ? [] : [cover]));
  const { covers: _before, ...bare } = shot;
  return covers.length === 0 ? bare : { ...bare, covers };
}

/** A shot whose picture is shown so at an instant, softly from and to the other keys. */
export function withCloseUpKey(shot: Shot, key: CloseUpKey, clip: KeyedClip): Shot {
  const others = (shot.closeUp ?? []).filter(({ atMediaS }) => Math.abs(atMediaS - key.atMediaS) >= clip.frameS / 2);
  return { ...shot, closeUp: [...others, key].sort((a, b) => a.atMediaS - b.atMediaS) };
}

/** A shot without one of its keys; without any its whole picture is shown. */
export function withoutCloseUpKey(shot: Shot, index: number): Shot {
  const keys = (shot.closeUp ?? []).filter((_, k) => k !== index);
  const { closeUp: _before, ...bare } = shot;
  return keys.length === 0 ? bare : { ...bare, closeUp: keys };
}

/** The part that a shot shows at a clip time. */
export function closeUpNow(shot: Shot, mediaS: number): Omit<CloseUpKey, "atMediaS"> {
  return shot.closeUp === undefined
    ? { x: 0.5, y: 0.5, share: 1 }
    : closeUpAt(shot, shot.closeUp, itemTimeAt(shot, mediaS));
}

/** A smaller box is a slip of the hand, share of the picture. */
const LEAST_BOX = 0.012;

/** The box between two corners, wherever the second one is; null: too small to be meant. */
export function boxBetween(one: Point, other: Point): PictureBox | null {
  const [x, y] = [Math.min(one.x, other.x), Math.min(one.y, other.y)];
  const [width, height] = [Math.abs(other.x - one.x), Math.abs(other.y - one.y)];
  return width < LEAST_BOX || height < LEAST_BOX ? null : { x, y, width, height };
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** A box moved, never out of the picture. */
export function movedBox(box: PictureBox, byX: number, byY: number): PictureBox {
  const along = (from: number, size: number, by: number): number => Math.max(0, Math.min(1 - size, from + by));
  return { ...box, x: along(box.x, box.width, byX), y: along(box.y, box.height, byY) };
}

/** A box with its lower right corner moved. */
export function grownBox(box: PictureBox, byX: number, byY: number): PictureBox {
  const along = (from: number, size: number, by: number): number => Math.max(LEAST_BOX, Math.min(1 - from, size + by));
  return { ...box, width: along(box.x, box.width, byX), height: along(box.y, box.height, byY) };
}

/** Corners of a box, from the upper left on, clockwise. */
export function cornersOf({ x, y, width, height }: PictureBox): readonly Point[] {
  return [
    { x, y },
    { x: x + width, y },
    { x: x + width, y: y + height },
    { x, y: y + height },
  ];
}

/** A box sized about its middle with its shape kept: right and down larger, left and up smaller. */
export function zoomed(box: PictureBox, byX: number, byY: number): PictureBox {
  const factor = Math.max(0.5, Math.min(1 / Math.max(box.width, box.height), 1 + 4 * (byX + byY)));
  const [width, height] = [box.width * factor, box.height * factor];
  return movedBox({ x: box.x - (width - box.width) / 2, y: box.y - (height - box.height) / 2, width, height }, 0, 0);
}
