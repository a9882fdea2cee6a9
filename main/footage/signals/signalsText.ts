import { z } from "zod";
import { SIGNALS_LACKS, type ClipSignals } from "../../contract/signals.ts";

/** Changes whenever the same clip would give other signals than before. */
export const SIGNALS_VERSION = 3;

const column = z.array(z.number().nullable()).nullable();
const stored = z.object({
  version: z.literal(SIGNALS_VERSION),
  count: z.number().int().nonnegative(),
  motion: column,
  sound: column,
  turning: column,
  bytesRead: z.number().nullable(),
  lacks: z.array(z.enum(SIGNALS_LACKS)),
});

function written(series: Float64Array | null): (number | null)[] | null {
  return series && Array.from(series, (v) => (Number.isFinite(v) ? Math.round(v * 1e5) / 1e5 : null));
}

function read(values: readonly (number | null)[] | null): Float64Array | null {
  return values && Float64Array.from(values, (v) => v ?? NaN);
}

/** Signals as JSON; missing values are null, the rest is good to 1e-5. */
export function signalsText({ count, motion, sound, turning, bytesRead, lacks }: ClipSignals): string {
  return JSON.stringify({
    version: SIGNALS_VERSION,
    count,
    motion: written(motion),
    sound: written(sound),
    turning: written(turning),
    bytesRead,
    lacks,
  });
}

/** Signals from `signalsText`, of the clip with this id; null when the text is of another version or damaged. */
export function parseSignals(text: string, clipId: string): ClipSignals | null {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return null;
  }
  const found = stored.safeParse(json);
  if (!found.success) return null;
  const { count, motion, sound, turning, bytesRead, lacks } = found.data;
  if ([motion, sound, turning].some((series) => series !== null && series.length !== count)) return null;
  return { clipId, count, motion: read(motion), sound: read(sound), turning: read(turning), bytesRead, lacks };
}
