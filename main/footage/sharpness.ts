/**
 * How sharp a grey picture is: the mean square of its Laplacian over four neighbours (a focus measure of Subbarao and
 * Tyan, IEEE Transactions on Pattern Analysis and Machine Intelligence 20, 1998; from memory). 0 or more; comparable between
 * pictures of one scene and one size only, as detail and noise count as well.
 *
 * @param grey `widthPx` times `heightPx` values, row by row
 */
export function sharpness(grey: Uint8Array, widthPx: number, heightPx: number): number {
  let [sum, count] = [0, 0];
  for (let y = 1; y < heightPx - 1; y++) {
    for (let x = 1; x < widthPx - 1; x++) {
      const at = y * widthPx + x;
      const bend = 4 * grey[at]! - grey[at - 1]! - grey[at + 1]! - grey[at - widthPx]! - grey[at + widthPx]!;
      sum += bend * bend;
      count++;
    }
  }
  return count === 0 ? 0 : sum / count;
}

/** A frame of a clip and how sharp it is. */
export interface SharpFrame {
  /** Index of the frame in its clip. */
  readonly frame: number;
  /** s. */
  readonly mediaS: number;
  /** As `sharpness` gives it. */
  readonly sharpness: number;
}

/** The sharpest frames, sharpest first, at most `most`, none within `apartS` of another: neighbours show the same. */
export function sharpestFrames(frames: readonly SharpFrame[], most: number, apartS: number): SharpFrame[] {
  const picked: SharpFrame[] = [];
  for (const frame of [...frames].sort((a, b) => b.sharpness - a.sharpness || a.frame - b.frame)) {
    if (picked.length === most) break;
    if (picked.every(({ mediaS }) => Math.abs(mediaS - frame.mediaS) >= apartS)) picked.push(frame);
  }
  return picked;
}
