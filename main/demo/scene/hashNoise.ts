/** A fixed pseudo-random number in [0, 1) for a whole number and a salt: the same place always looks the same. */
export function hash01(n: number, salt: number): number {
  let h = Math.imul(n | 0, 0x9e3779b1) ^ Math.imul(salt + 1, 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 15), 0x2c1b3c6d);
  h = Math.imul(h ^ (h >>> 12), 0x297a2d39);
  return ((h ^ (h >>> 15)) >>> 0) / 4294967296;
}

/** Smooth noise in [0, 1) over a line, one bump a unit. */
export function noise1(x: number, salt: number): number {
  const i = Math.floor(x);
  const u = x - i;
  const blend = u * u * (3 - 2 * u);
  return hash01(i, salt) * (1 - blend) + hash01(i + 1, salt) * blend;
}
