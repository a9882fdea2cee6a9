import { describe, expect, it } from "vitest";
import { fft } from "../../main/maths/fft.ts";
import { MaskedCorrelator } from "../../main/maths/maskedCorrelation.ts";

function random(seed: number): () => number {
  let s = seed;
  return () => (s = (s * 48_271) % 2_147_483_647) / 2_147_483_647;
}

describe("fft", () => {
  it("equals the sum that defines it, and comes back", () => {
    const next = random(5);
    const re = Float64Array.from({ length: 32 }, () => next() - 0.5);
    const im = Float64Array.from({ length: 32 }, () => next() - 0.5);
    const [fr, fi] = [re.slice(), im.slice()];
    fft(fr, fi);
    for (let k = 0; k < 32; k++) {
      let [sr, si] = [0, 0];
      for (let n = 0; n < 32; n++) {
        const angle = (-2 * Math.PI * k * n) / 32;
        sr += re[n]! * Math.cos(angle) - im[n]! * Math.sin(angle);
        si += re[n]! * Math.sin(angle) + im[n]! * Math.cos(angle);
      }
      expect(fr[k]).toBeCloseTo(sr, 12);
      expect(fi[k]).toBeCloseTo(si, 12);
    }
    fft(fr, fi, true);
    fr.forEach((v, k) => expect(v).toBeCloseTo(re[k]!, 12));
  });
});

describe("MaskedCorrelator", () => {
  it("equals Pearson's correlation of the samples that meet, at every lag", () => {
    const next = random(11);
    const withHoles = (n: number) => Float64Array.from({ length: n }, () => (next() < 0.15 ? NaN : next() * 3 + 7));
    const [short, long] = [withHoles(23), withHoles(90)];
    const { firstLag, r } = new MaskedCorrelator(long).against(short, 0.3);
    const present = short.filter(Number.isFinite).length;
    for (let k = 0; k < r.length; k++) {
      const pairs: [number, number][] = [];
      short.forEach((x, i) => {
        const y = long[i + firstLag + k];
        if (Number.isFinite(x) && y !== undefined && Number.isFinite(y)) pairs.push([x, y]);
      });
      if (pairs.length < Math.max(4, 0.3 * present)) {
        expect(r[k]).toBeNaN();
        continue;
      }
      const mean = (j: 0 | 1) => pairs.reduce((sum, p) => sum + p[j], 0) / pairs.length;
      const [mx, my] = [mean(0), mean(1)];
      let [sxy, sxx, syy] = [0, 0, 0];
      for (const [x, y] of pairs) {
        sxy += (x - mx) * (y - my);
        sxx += (x - mx) ** 2;
        syy += (y - my) ** 2;
      }
      expect(r[k]).toBeCloseTo(sxy / Math.sqrt(sxx * syy), 9);
    }
  });
});
