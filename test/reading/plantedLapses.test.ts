// Losses of pressure planted in real rides, and those of real rides.
import { readdirSync } from "node:fs";
import { basename, join } from "node:path";
import { describe, expect, it } from "vitest";
import type { Ride, Span } from "../../main/contract/ride.ts";
import { middlingRider, roadPowerW, type RoadRider } from "../../main/maths/roadPower.ts";
import { defaultPlan } from "../../main/reading/plan/defaultPlan.ts";
import { read } from "../../main/reading/read.ts";
import { readRide } from "../../main/ride/readRide.edge.ts";
import { lapseFigures } from "../bench/lapses.ts";
import { Seeded } from "../bench/calibrationRides.ts";
import { makeRide } from "../support/makeRide.ts";

// Any ride with power, places and an altitude: the fixtures, and more where FOLLOWCAR_DATA names a folder.
const folders = [
  "test/fixtures/rides",
  ...(process.env.FOLLOWCAR_DATA ? ["fit", "tcx", "gpx"].map((kind) => join(process.env.FOLLOWCAR_DATA!, kind)) : []),
];
const real: { name: string; ride: Ride }[] = [];
for (const folder of folders) {
  for (const name of readdirSync(folder).sort()) {
    const ride = await readRide(join(folder, name)).catch(() => null);
    const { grid, mode } = ride ?? {};
    if (ride && grid?.power && grid.position && grid.gradientPercent && mode === "every second" && grid.seconds > 1200)
      real.push({ name: join(folder, name), ride });
  }
}

/**
 * Where a person would say that nothing asked the rider to stop pressing: pressed for a quarter of a minute either side, 15
 * km/h or more, no steeper than 2 %, no turn of 30 degrees within 10 s, no slowing of 1.5 m/s, no stop within reach. Told
 * from the columns by rules of its own, not by the reading's.
 */
function fairPlaces(ride: Ride, lengthS: number, random: Seeded): number[] {
  const { power3sW, speed, gradientPercent, headingDeg, seconds, paused } = ride.grid;
  const fairAt = (k: number) =>
    power3sW![k]! >= 40 &&
    speed!.value[k]! >= 15 / 3.6 &&
    paused[k] === 0 &&
    Math.abs(gradientPercent![k]!) <= 2 &&
    Math.abs(headingDeg![k + 5]! - headingDeg![k - 5]!) <= 30 &&
    speed!.value[k - 1]! - speed!.value[k]! < 0.7;
  const places: number[] = [];
  for (let s = 700; s + lengthS < seconds - 700; s++) {
    let bad = -1;
    for (let k = s - 15; k < s + lengthS + 18; k++) if (!fairAt(k)) bad = k;
    const within = speed!.value.subarray(s - 1, s + lengthS);
    if (bad >= 0) s = Math.max(s, bad + 14);
    else if (within[0]! - within.reduce((least, v) => Math.min(least, v)) <= 1.5) {
      places.push(s);
      s += lengthS + 40 + Math.floor(random.uniform() * 60);
    }
  }
  return places;
}

/** How the speed goes on over a planted loss: as recorded, or as somebody rolls in some wind against them. */
type Rolling = null | { readonly rider: RoadRider; readonly headwindMps: number };
const asJudged: Rolling = { rider: middlingRider, headwindMps: 0 };

/** Somebody else than the reading's middling rider: lighter or heavier, slim or broad in the wind, on slow or quick tyres. */
function somebody(random: Seeded): Rolling {
  const between = (low: number, high: number) => low + (high - low) * random.uniform();
  const rider = {
    massKg: between(65, 100),
    dragAreaM2: between(0.26, 0.4),
    rollingCoefficient: between(0.003, 0.006),
    airDensityKgPerM3: between(1.1, 1.28),
  };
  return { rider, headwindMps: between(-1, 1) };
}

/** Slowing of somebody who rolls, m/s2. */
function slowingMps2({ rider, headwindMps }: NonNullable<Rolling>, speedMps: number, grade: number): number {
  const parts = roadPowerW(rider, { speedMps, grade, headwindMps, accelerationMps2: 0 });
  return (parts.airW + parts.rollingW + parts.bearingsW + parts.climbW) / speedMps / rider.massKg;
}

/** Speed of somebody who rolls from the recorded speed on the recorded grade, m/s, for each second of a span. */
function rolledSpeeds(ride: Ride, { startS, endS }: Span, rolls: NonNullable<Rolling>): number[] {
  const speeds = [ride.grid.speed!.value[startS]!];
  for (let s = startS; s < endS - 1; s++) {
    const mps = speeds.at(-1)!;
    speeds.push(Math.max(1, mps - slowingMps2(rolls, mps, (ride.grid.gradientPercent![s] || 0) / 100)));
  }
  return speeds;
}

/** The ride with the pressure gone over some spans. */
function planted(ride: Ride, spans: readonly Span[], rolls: Rolling): Ride {
  const { raw } = ride;
  const powerW = Float64Array.from(raw.powerW);
  const cadenceRpm = Float64Array.from(raw.cadenceRpm);
  const speedMps = Float64Array.from(raw.speedMps);
  for (const span of spans) {
    const rolled = rolls ? rolledSpeeds(ride, span, rolls) : null;
    for (let i = 0; i < raw.count; i++) {
      const at = raw.timeS[i]!;
      if (at < span.startS || at >= span.endS) continue;
      powerW[i] = 0;
      cadenceRpm[i] = 0;
      if (rolled && Number.isFinite(speedMps[i])) speedMps[i] = rolled[Math.floor(at - span.startS)]!;
    }
  }
  const pauses = ride.gaps.filter((gap) => gap.kind === "pause");
  return makeRide({ ...raw, powerW, cadenceRpm, speedMps, pauses, mode: ride.mode });
}

describe("losses of pressure planted in real rides", () => {
  const ways: { what: string; rolls: (random: Seeded) => Rolling; from: number }[] = [
    // With the speed as recorded the road says that somebody pressed: such a loss is nobody's fault, but never excused.
    {
      what: "not explained away where the speed stays as recorded, but for at most 1 of 50",
      rolls: () => null,
      from: 50,
    },
    { what: "found where the speed rolls on, but for at most 1 of 50", rolls: () => asJudged, from: 50 },
    // The reading's rider is middling, and the wind unknown: whoever rolls a quarter better than that cannot be told.
    { what: "found where somebody else rolls on in a light wind, but for at most 1 of 30", rolls: somebody, from: 30 },
  ];
  for (const { what, rolls, from } of ways) {
    it(`are ${what}`, () => {
      const random = new Seeded(20261128);
      let plants = 0;
      const missed: string[] = [];
      for (const { name, ride } of real) {
        for (const lengthS of [11, 15, 22, 35]) {
          const rolling = rolls(random);
          // Whoever rolls down to walking pace has come to a stop, and nobody asks for pressure there.
          const spans = fairPlaces(ride, lengthS, random)
            .map((startS) => ({ startS, endS: startS + lengthS }))
            .filter((span) => rolling === null || rolledSpeeds(ride, span, rolling).at(-1)! >= 10 / 3.6);
          if (spans.length === 0) continue;
          const lapses = read(planted(ride, spans, rolling), defaultPlan(), []).breaks.filter(
            ({ lapse, reason }) => lapse || (rolling === null && reason === "cannot tell"),
          );
          plants += spans.length;
          for (const { startS, endS } of spans)
            if (!lapses.some((one) => one.startS <= startS + 1 && one.endS >= endS - 1))
              missed.push(`${name} ${startS}-${endS}`);
        }
      }
      expect(plants).toBeGreaterThanOrEqual(50);
      expect(missed.length, missed.join("\n")).toBeLessThanOrEqual(plants / from);
    });
  }

  // In the rides as they are, and with losses wherever they fall: stops, corners and descents among them.
  it("fall on nobody who stood, crawled, turned or rolled down a steep road", () => {
    const random = new Seeded(20261129);
    let lapses = 0;
    const unfair: string[] = [];
    const anywhere = [...real, ...real, ...real].flatMap(({ name, ride }) => {
      const spans: Span[] = [];
      for (let startS = 700; startS + 760 < ride.grid.seconds; startS += 60 + Math.floor(random.uniform() * 60))
        spans.push({ startS, endS: startS + 12 + Math.floor(random.uniform() * 20) });
      return [
        { name, ride },
        { name: `${name}, planted`, ride: planted(ride, spans, asJudged) },
      ];
    });
    for (const { name, ride } of anywhere) {
      for (const one of read(ride, defaultPlan(), []).breaks) {
        if (!one.lapse) continue;
        lapses++;
        const { leastKmh, gradePercent, turnDeg, endKmh } = lapseFigures(ride, one);
        if (leastKmh < 6 || gradePercent <= -3.5 || turnDeg >= 120 || endKmh < 6)
          unfair.push(`${name} ${one.startS}: ${leastKmh} km/h, ${gradePercent} %, ${turnDeg} degrees`);
      }
    }
    expect(lapses).toBeGreaterThanOrEqual(150);
    expect(unfair.length, unfair.join("\n")).toBeLessThanOrEqual(lapses / 100);
  });

  // Each looked at second by second: what a coach would sign, and what none would (held up, a bend, a path, a stop ahead).
  it("of real rides are those that a person would sign, and no others", () => {
    const looked: Record<string, { signed: number[]; not: number[] }> = {
      "long-power-heart.fit.gz": { signed: [1951, 2678, 3430, 5463, 6700, 7014], not: [3043, 3807, 3846] },
      "edge510-power-nohr.fit": { signed: [], not: [1117, 2386] },
      "wahoo-elemnt-6h-power.fit": {
        signed: [5115, 17251, 20987, 22197, 22417],
        not: [3647, 13480, 16881, 21647, 22812],
      },
    };
    for (const { name, ride } of real) {
      const person = looked[basename(name)];
      if (!person) continue;
      const lapses = read(ride, defaultPlan(), []).breaks.filter(({ lapse }) => lapse);
      expect(
        lapses.map(({ startS }) => startS),
        name,
      ).toEqual(expect.arrayContaining(person.signed));
      for (const at of person.not)
        expect(
          lapses.some((one) => one.startS <= at && one.endS > at),
          `${name} ${at}`,
        ).toBe(false);
    }
    expect(real.map(({ name }) => basename(name))).toContain("long-power-heart.fit.gz");
  });
});
