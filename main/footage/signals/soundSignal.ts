import { SIGNAL_STEP_S } from "../../contract/signals.ts";

/** Rate that sound is decoded to, Hz. */
export const SOUND_RATE_HZ = 8000;

/** Second-order filter (Bristow-Johnson's audio cookbook), one sample at a time. */
class Biquad {
  private x1 = 0;
  private x2 = 0;
  private y1 = 0;
  private y2 = 0;
  private readonly c: readonly [number, number, number, number, number];

  constructor(kind: "low" | "high", frequencyHz: number) {
    const w = (2 * Math.PI * frequencyHz) / SOUND_RATE_HZ;
    const alpha = Math.sin(w) / Math.SQRT2;
    const cos = Math.cos(w);
    const b1 = kind === "low" ? 1 - cos : -(1 + cos);
    const b0 = Math.abs(b1) / 2;
    const a0 = 1 + alpha;
    this.c = [b0 / a0, b1 / a0, b0 / a0, (-2 * cos) / a0, (1 - alpha) / a0];
  }

  step(x: number): number {
    const y = this.c[0] * x + this.c[1] * this.x1 + this.c[2] * this.x2 - this.c[3] * this.y1 - this.c[4] * this.y2;
    this.x2 = this.x1;
    this.x1 = x;
    this.y2 = this.y1;
    this.y1 = y;
    return y;
  }
}

/** Loudness of a band from one sample to the next. */
class Band {
  private readonly filters: readonly Biquad[];
  private sum = 0;

  constructor(lowHz: number, highHz: number) {
    this.filters = [new Biquad("high", lowHz), new Biquad("low", highHz)];
  }

  add(x: number): void {
    let y = x;
    for (const filter of this.filters) y = filter.step(y);
    this.sum += y * y;
  }

  /** Level of the samples since the last call, dB against full scale; -90 for silence. */
  level(samples: number): number {
    const level = 10 * Math.log10(this.sum / samples + 1e-9);
    this.sum = 0;
    return level;
  }
}

/** Reads loudness from 16-bit mono samples at `SOUND_RATE_HZ`, from media time 0: mean level of wind (60 to 400 Hz) and tyres (800 to 2500 Hz). */
export class SoundSignal {
  private readonly wind = new Band(60, 400);
  private readonly tyres = new Band(800, 2500);
  private readonly levels: number[] = [];
  private inCell = 0;

  add(samples: Int16Array): void {
    const perCell = SOUND_RATE_HZ * SIGNAL_STEP_S;
    for (const sample of samples) {
      const x = sample / 32768;
      this.wind.add(x);
      this.tyres.add(x);
      if (++this.inCell === perCell) {
        this.levels.push((this.wind.level(perCell) + this.tyres.level(perCell)) / 2);
        this.inCell = 0;
      }
    }
  }

  /** dB per cell, `count` cells, NaN past the end of the sound; null when it is silent throughout. */
  series(count: number): Float64Array | null {
    if (!this.levels.some((level) => level > -85)) return null;
    return Float64Array.from({ length: count }, (_, k) => this.levels[k] ?? NaN);
  }
}
