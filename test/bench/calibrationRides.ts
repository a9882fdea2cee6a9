/** Seeded heart and power of invented rides whose drift is known: what the onset's honesty is measured on. */

/** 16807 s mod 2147483647; the normal deviate is the sum of 12 uniforms less 6, so that every engine gives the same bits. */
export class Seeded {
  private state: number;
  constructor(seed: number) {
    this.state = (seed % 2147483646) + 1;
    for (let i = 0; i < 10; i++) this.uniform();
  }
  uniform(): number {
    this.state = (16807 * this.state) % 2147483647;
    return this.state / 2147483647;
  }
  between(low: number, high: number): number {
    return low + (high - low) * this.uniform();
  }
  normal(): number {
    let sum = -6;
    for (let i = 0; i < 12; i++) sum += this.uniform();
    return sum;
  }
}

/** Stops of 20 s and more of four real rides (a town and country ride, a short road ride, two long ones): start and length, s. */
export const realStops: readonly (readonly (readonly [number, number])[])[] = [
  [
    [392, 51],
    [580, 28],
    [675, 21],
    [1032, 23],
    [1218, 66],
    [3503, 40],
    [3949, 28],
    [4000, 47],
    [4416, 71],
    [4982, 101],
    [5239, 63],
    [5816, 71],
    [6013, 85],
    [6258, 46],
    [6312, 82],
    [6416, 29],
    [6943, 24],
    [7091, 55],
    [7847, 130],
    [8248, 65],
    [9318, 77],
    [9534, 25],
    [9773, 44],
  ],
  [
    [144, 25],
    [248, 23],
    [501, 29],
    [747, 118],
    [1126, 215],
    [2694, 164],
  ],
  [
    [680, 34],
    [1695, 20],
    [2272, 21],
    [2905, 29],
    [2935, 45],
    [3687, 92],
    [3890, 32],
    [4678, 36],
    [5160, 48],
    [6953, 144],
    [7162, 49],
    [9472, 21],
    [9944, 44],
    [10263, 54],
    [10393, 26],
    [10758, 23],
    [11117, 22],
    [11827, 24],
    [12070, 22],
    [12437, 55],
  ],
  [
    [1791, 93],
    [3256, 131],
    [4320, 293],
    [5026, 31],
    [5275, 66],
    [5366, 51],
    [5735, 63],
    [6510, 117],
    [6628, 45],
    [7114, 36],
    [11383, 54],
    [11489, 163],
    [12567, 32],
  ],
];

/** One cell of the calibration: what the rides in it have in common. */
export interface Cell {
  readonly name: string;
  /** Length of the judged stretch, minutes. */
  readonly minutes: number;
  /** Time constants of the heart's noise, s, and their SDs, beats. */
  readonly noise: readonly (readonly [tauS: number, sdBeats: number])[];
  readonly drift: "none" | "straight" | "onset";
  /** Slope, beats a minute, drawn between these: after the onset, or throughout. */
  readonly slope: readonly [number, number];
  /** Slope before the onset, beats a minute. */
  readonly creep: number;
  readonly wholeBeats: boolean;
  /** From half way on power is so much higher or lower, W, drawn up to this; none where absent. */
  readonly stepW?: number;
  readonly stops: boolean;
  /** Friendly cells are held to the tighter promise. */
  readonly friendly: boolean;
}

/** One ride of a cell. */
export interface CalibrationRide {
  readonly powerW: Float64Array;
  readonly heartBpm: Float64Array;
  readonly standing: Uint8Array;
  readonly stops: readonly { readonly startS: number; readonly endS: number }[];
  /** True drift, beats. */
  readonly driftBpm: Float64Array;
  /** True onset, minutes from the start; null without one. */
  readonly onsetMin: number | null;
}

/** An Ornstein-Uhlenbeck process a second apart: wandering noise with one time constant. */
function wander(random: Seeded, seconds: number, tauS: number, sd: number): Float64Array {
  const keep = Math.exp(-1 / tauS);
  const kick = Math.sqrt(1 - keep * keep) * sd;
  const values = new Float64Array(seconds);
  let value = sd * random.normal();
  for (let s = 0; s < seconds; s++) {
    value = keep * value + kick * random.normal();
    values[s] = value;
  }
  return values;
}

/**
 * Makes ride number `index` of a cell; the same number gives the same ride on every machine.
 *
 * @param series another series of rides, a whole number: settings are chosen on one and confirmed on others
 */
export function calibrationRide(cell: Cell, index: number, series = 0): CalibrationRide {
  const random = new Seeded((series * 100_000 + index) * 7919 + hashOf(cell.name));
  const seconds = cell.minutes * 60;
  const standing = new Uint8Array(seconds);
  const stops: { startS: number; endS: number }[] = [];
  if (cell.stops) {
    const pattern = realStops[index % realStops.length]!;
    const every = 12700;
    for (let from = 0; from < seconds; from += every) {
      for (const [startS, lengthS] of pattern) {
        const start = from + startS;
        if (start + lengthS >= seconds) continue;
        standing.fill(1, start, start + lengthS);
        if (lengthS > 30) stops.push({ startS: start, endS: start + lengthS });
      }
    }
  }
  const beatsPerWatt = random.between(0.2, 0.45);
  const tauS = random.between(30, 70);
  const rest = 120 - beatsPerWatt * 200;
  const road = wander(random, seconds, 150, 22);
  const legs = wander(random, seconds, 20, 22);
  const noise = cell.noise.map(([tau, sd]) => wander(random, seconds, tau, sd));
  const slope = random.between(cell.slope[0], cell.slope[1]);
  const onsetMin = cell.drift === "onset" ? random.between(0.3, 0.7) * cell.minutes : null;
  const powerW = new Float64Array(seconds);
  const heartBpm = new Float64Array(seconds);
  const driftBpm = new Float64Array(seconds);
  const stepW = cell.stepW === undefined ? 0 : random.between(-cell.stepW, cell.stepW);
  const gain = 1 - Math.exp(-1 / tauS);
  let lag = 180;
  for (let s = 0; s < seconds; s++) {
    const watts =
      standing[s] === 1 ? 0 : Math.max(0, Math.round(200 + road[s]! + legs[s]! + (2 * s < seconds ? 0 : stepW)));
    powerW[s] = watts;
    lag += gain * (watts - lag);
    const t = s / 60;
    let drift = 0;
    if (cell.drift === "straight") drift = slope * t;
    if (onsetMin !== null) drift = t <= onsetMin ? cell.creep * t : cell.creep * onsetMin + slope * (t - onsetMin);
    let bpm = rest + beatsPerWatt * lag + drift;
    for (const part of noise) bpm += part[s]!;
    driftBpm[s] = drift;
    heartBpm[s] = cell.wholeBeats ? Math.round(bpm) : bpm;
  }
  return { powerW, heartBpm, standing, stops, driftBpm, onsetMin };
}

/** A whole number from a cell's name, so that no two cells share their rides. */
export function hashOf(text: string): number {
  let hash = 7;
  for (const letter of text) hash = (hash * 31 + letter.charCodeAt(0)) % 1000003;
  return hash;
}

const quick: Cell["noise"] = [[35, 1.7]];
const usual: Cell["noise"] = [[90, 1.7]];
const wandering: Cell["noise"] = [
  [60, 1.3],
  [900, 1.2],
];

const cell = (name: string, minutes: number, noise: Cell["noise"], rest: Partial<Cell> = {}): Cell => ({
  name,
  minutes,
  noise,
  drift: "onset",
  slope: [0.1, 0.2],
  creep: 0,
  wholeBeats: true,
  stops: false,
  friendly: true,
  ...rest,
});

/** All cells: friendly ones first, then those where the model is wrong. */
export const cells: readonly Cell[] = [
  cell("none 75", 75, usual, { drift: "none" }),
  cell("none 120", 120, usual, { drift: "none" }),
  cell("none 180", 180, quick, { drift: "none" }),
  cell("straight 75", 75, usual, { drift: "straight", slope: [0.06, 0.12] }),
  cell("straight 120", 120, usual, { drift: "straight", slope: [0.06, 0.12] }),
  cell("straight 180", 180, quick, { drift: "straight", slope: [0.06, 0.12] }),
  cell("straight 55 quick", 55, quick, { drift: "straight", slope: [0.06, 0.12] }),
  cell("onset 55 quick", 55, quick),
  cell("onset 75 quick", 75, quick),
  cell("onset 75", 75, usual),
  cell("onset 120 quick", 120, quick),
  cell("onset 120", 120, usual),
  cell("onset 180", 180, usual),
  cell("onset 300", 300, usual, { slope: [0.06, 0.12] }),
  cell("none 120 wandering", 120, wandering, { drift: "none", friendly: false }),
  cell("straight 120 wandering", 120, wandering, { drift: "straight", slope: [0.06, 0.12], friendly: false }),
  cell("straight 180 stops", 180, usual, { drift: "straight", slope: [0.06, 0.12], stops: true, friendly: false }),
  cell("creep .01, 120", 120, usual, { creep: 0.01, friendly: false }),
  cell("creep .02, 120", 120, usual, { creep: 0.02, friendly: false }),
  cell("creep .03, 120", 120, usual, { creep: 0.03, friendly: false }),
  cell("creep .03, 180 quick", 180, quick, { creep: 0.03, friendly: false }),
  cell("creep .04, 180", 180, usual, { creep: 0.04, friendly: false }),
  cell("creep .03, 300", 300, quick, { creep: 0.03, slope: [0.08, 0.14], friendly: false }),
  cell("wandering 75", 75, wandering, { friendly: false }),
  cell("wandering 120", 120, wandering, { friendly: false }),
  cell("wandering 180", 180, wandering, { friendly: false }),
  cell("stops 120", 120, usual, { stops: true, friendly: false }),
  cell("stops 180, creep .02", 180, usual, { stops: true, creep: 0.02, friendly: false }),
  cell("all at once, 180", 180, wandering, { stops: true, creep: 0.03, friendly: false }),
  cell("all at once, 300", 300, wandering, { stops: true, creep: 0.03, slope: [0.08, 0.14], friendly: false }),
];

/** Cells for the range of a drift: short rides, in which power's effect can't be seen, above all. */
export const rangeCells: readonly Cell[] = [
  cell("short 35", 35, usual, { drift: "straight", slope: [0, 0.12], stepW: 25 }),
  cell("short 45, wandering", 45, wandering, { drift: "straight", slope: [0, 0.12], stepW: 25, friendly: false }),
  cell("short 45, quick", 45, quick, { drift: "none", stepW: 25 }),
  cell("range 60", 60, usual, { drift: "straight", slope: [0, 0.12], stepW: 15 }),
  cell("range 75, wandering", 75, wandering, { drift: "straight", slope: [0, 0.12], stepW: 15, friendly: false }),
  cell("range 120", 120, usual, { slope: [0.06, 0.15], stepW: 15 }),
  cell("range 120, wandering", 120, wandering, { slope: [0.06, 0.15], stepW: 15, friendly: false }),
  cell("range 180, wandering, stops", 180, wandering, { slope: [0.05, 0.12], stepW: 15, stops: true, friendly: false }),
];
