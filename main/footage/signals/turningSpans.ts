/** Footage up to this long is decoded in full, s; of longer clips turning is read in windows only, since decoding costs most. */
const FULL_LOOK_S = 600;
/** Windows of a longer clip in which every picture is decoded: so long each, and a share of the clip but no less than this in all, s. */
const WINDOW_S = 75;
const LEAST_WINDOWS_S = 450;
const WINDOW_SHARE = 0.12;

/** Spans of a clip in which turning is read, s: all of a short one, windows evenly over a long one. */
export function turningSpans(durationS: number): { readonly fromS: number; readonly toS: number }[] {
  if (durationS <= FULL_LOOK_S) return [{ fromS: 0, toS: durationS }];
  const windows = Math.ceil(Math.max(LEAST_WINDOWS_S, WINDOW_SHARE * durationS) / WINDOW_S);
  if (windows * WINDOW_S >= durationS) return [{ fromS: 0, toS: durationS }];
  return Array.from({ length: windows }, (_, k) => {
    const fromS = ((k + 0.5) / windows) * durationS - WINDOW_S / 2;
    return { fromS, toS: fromS + WINDOW_S };
  });
}
