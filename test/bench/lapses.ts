import { readdirSync } from "node:fs";
import { basename, join } from "node:path";
import type { Ride, Span } from "../../main/contract/ride.ts";
import { meanOf } from "../../main/maths/statistics.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { read } from "../../main/reading/read.ts";
import { lengthS } from "../../main/reading/spans.ts";
import { readRide } from "../../main/ride/readRide.edge.ts";

/** What a person needs to judge a lapse: how fast at its ends and between, how steep, how far the road turned. */
export interface LapseFigures extends Span {
  readonly startKmh: number;
  readonly endKmh: number;
  readonly leastKmh: number;
  readonly gradePercent: number;
  /** Largest turn within 10 s, from 5 s before to 5 s after, degrees. */
  readonly turnDeg: number;
}

/** The figures of one span of a ride; NaN where the data has none. */
export function lapseFigures(ride: Ride, span: Span): LapseFigures {
  const { speed, gradientPercent, headingDeg } = ride.grid;
  const kmhAt = (s: number) => 3.6 * meanOf(speed?.value ?? [], s, s + 1);
  let leastKmh = Infinity;
  for (let s = span.startS; s < span.endS; s++) {
    const kmh = kmhAt(s);
    if (kmh < leastKmh) leastKmh = kmh;
  }
  let turnDeg = 0;
  for (let s = Math.max(0, span.startS - 5); headingDeg && s < span.endS + 5; s++) {
    for (let to = s + 1; to <= s + 10 && to < span.endS + 5; to++) {
      const turned = Math.abs(headingDeg[to]! - headingDeg[s]!);
      if (turned > turnDeg) turnDeg = turned;
    }
  }
  return {
    startS: span.startS,
    endS: span.endS,
    startKmh: kmhAt(span.startS),
    endKmh: kmhAt(Math.max(span.startS, span.endS - 1)),
    leastKmh: Number.isFinite(leastKmh) ? leastKmh : NaN,
    gradePercent: meanOf(gradientPercent ?? [], span.startS, span.endS),
    turnDeg,
  };
}

/** Every ride file with power and places in some folders, read; files that can't be read are passed over. */
export async function powerRoadRides(folders: readonly string[]): Promise<{ name: string; ride: Ride }[]> {
  const found: { name: string; ride: Ride }[] = [];
  for (const folder of folders) {
    for (const name of readdirSync(folder).sort()) {
      const ride = await readRide(join(folder, name)).catch(() => null);
      if (ride?.grid.power && ride.grid.position && ride.grid.seconds >= 600)
        found.push({ name: basename(name), ride });
    }
  }
  return found;
}

/**
 * Prints breaks and lapses of every real power ride on the road, and for each lapse what a person needs to check it:
 * length, speed at its start and end and the least between, grade, and the largest turn within 10 s.
 */
export async function lapseTable(folders: readonly string[]): Promise<void> {
  const number = (value: number, digits = 0) => (Number.isFinite(value) ? value.toFixed(digits) : "-").padStart(8);
  let lapses = 0;
  let breaks = 0;
  for (const { name, ride } of await powerRoadRides(folders)) {
    const reading = read(ride, defaultPlan(), []);
    const found = reading.breaks.filter((one) => one.lapse);
    breaks += reading.breaks.length;
    lapses += found.length;
    console.log(`${name}: ${reading.breaks.length} breaks, ${found.length} lapses (${ride.mode})`);
    if (found.length > 0)
      console.log(
        `${["at", "s", "km/h in", "out", "least", "grade", "turn"].map((head) => head.padStart(8)).join("")}  reason`,
      );
    for (const one of found) {
      const figures = lapseFigures(ride, one);
      console.log(
        `${[
          number(one.startS),
          number(lengthS(one)),
          number(figures.startKmh),
          number(figures.endKmh),
          number(figures.leastKmh),
          number(figures.gradePercent, 1),
          number(figures.turnDeg),
        ].join("")}  ${typeof one.reason === "string" ? one.reason : one.reason.coach}`,
      );
    }
  }
  console.log(`${breaks} breaks, ${lapses} lapses in all.`);
}
