import type { Span } from "../contract/ride.ts";

/** Runs of seconds for which `holds` is true, as spans [startS, endS), between two seconds. */
export function runsOf(holds: (second: number) => boolean, fromS: number, toS: number): Span[] {
  const runs: Span[] = [];
  let startS = -1;
  for (let second = fromS; second < toS; second++) {
    if (holds(second)) {
      if (startS < 0) startS = second;
    } else if (startS >= 0) {
      runs.push({ startS, endS: second });
      startS = -1;
    }
  }
  if (startS >= 0) runs.push({ startS, endS: toS });
  return runs;
}

/** Length of a span, s. */
export function lengthS(span: Span): number {
  return span.endS - span.startS;
}

/** Seconds that two spans share. */
export function sharedS(one: Span, other: Span): number {
  return Math.max(0, Math.min(one.endS, other.endS) - Math.max(one.startS, other.startS));
}

/** Ordered spans with those joined that lie no further apart than `withinS`. */
export function joinSpans(spans: readonly Span[], withinS: number): Span[] {
  const joined: Span[] = [];
  for (const span of [...spans].sort((one, other) => one.startS - other.startS)) {
    const last = joined.at(-1);
    if (last && span.startS - last.endS <= withinS)
      joined[joined.length - 1] = { startS: last.startS, endS: Math.max(last.endS, span.endS) };
    else joined.push({ startS: span.startS, endS: span.endS });
  }
  return joined;
}

/** Marks every second of the spans, widened at both ends, in a column of 0 and 1. */
export function maskOf(spans: readonly Span[], seconds: number, beforeS = 0, afterS = 0): Uint8Array {
  const mask = new Uint8Array(seconds);
  for (const span of spans) {
    mask.fill(
      1,
      Math.max(0, Math.floor(span.startS - beforeS)),
      Math.max(0, Math.min(seconds, Math.ceil(span.endS + afterS))),
    );
  }
  return mask;
}
