/** Seconds from 1904-01-01 to 1970-01-01, both UTC: the epochs of ISO/IEC 14496-12 and of Unix. */
const EPOCH_1904_TO_1970_S = 2_082_844_800;

/**
 * Creation time of an MP4 header as UTC, ms since 1970. Null for 0 (unknown). A value that would lie before 1970 is
 * read as seconds since 1970, which some writers put there by mistake, where that gives a date from 2000 on; else null.
 */
export function movieTimeUtcMs(secondsSince1904: number): number | null {
  if (secondsSince1904 === 0) return null;
  const unixS = secondsSince1904 - EPOCH_1904_TO_1970_S;
  if (unixS >= 0) return unixS * 1000;
  return secondsSince1904 >= 946_684_800 ? secondsSince1904 * 1000 : null;
}
