/** Rides count as alike within these shares of length and power; common practice, no source. */
export const LIKE_LENGTH = 0.2;
export const LIKE_POWER = 0.05;
/**
 * Half-width of what two rides on different days differ by from heart-rate noise alone, beats: 2 sqrt(2) times 1.5, the
 * standard error of a submaximal heart rate (Lamberts et al., J Strength Cond Res 2004;18:641).
 */
export const DAY_TO_DAY_BEATS = 4;
