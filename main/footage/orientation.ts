/**
 * How a coded picture is turned for showing, from the track's matrix (ISO/IEC 14496-12, 8.3.2; y runs down):
 * first mirrored left to right where `mirrored`, then turned clockwise by `rotationDeg`.
 */
export function orientation(matrix: readonly [number, number, number, number]): {
  readonly rotationDeg: 0 | 90 | 180 | 270;
  readonly mirrored: boolean;
} {
  const [a, b, c, d] = matrix;
  const mirrored = a * d - b * c < 0;
  const sign = mirrored ? -1 : 1;
  const turns = Math.round(Math.atan2(sign * b, sign * a) / (Math.PI / 2));
  const rotationDeg = ([0, 90, 180, 270] as const)[((turns % 4) + 4) % 4]!;
  return { rotationDeg, mirrored };
}
