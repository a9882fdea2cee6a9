// What the bench of the strip asks of its page (test/renderer/stripPage.ts), and what it gets.
export interface StripAskedOfPage {
  readonly hours: number;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Device pixels for each. */
  readonly ratio: number;
  readonly draws: number;
}

/** Times of one kind of redraw, ms: until our part was done, until its pixels were there (median, least). */
export interface StripTimes {
  readonly orderedMs: number;
  readonly drawnMs: number;
  readonly leastMs: number;
}
