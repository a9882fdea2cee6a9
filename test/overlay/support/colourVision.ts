/**
 * How a colour looks to someone who lacks one kind of cone. Matrices for severity 1.0 of Machado, Oliveira and
 * Fernandes, "A Physiologically-based Model for Simulation of Color Vision Deficiency", IEEE TVCG 15(6), 2009, as its
 * authors' table gives them; they hold for linear RGB.
 */
const MATRICES = {
  protanopia: [0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116, 1.051998],
  deuteranopia: [0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.01182, 0.04294, 0.968881],
} as const;

export type Vision = "full colour" | "protanopia" | "deuteranopia" | "greyscale";
export const visions: readonly Vision[] = ["full colour", "protanopia", "deuteranopia", "greyscale"];

type Linear = readonly [number, number, number];

/** A colour (bytes of sRGB) as linear RGB, as seen. */
export function seen(red: number, green: number, blue: number, vision: Vision): Linear {
  const rgb = [red, green, blue].map((byte) => {
    const share = byte / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  }) as unknown as Linear;
  if (vision === "full colour") return rgb;
  if (vision === "greyscale") {
    const light = 0.2126 * rgb[0] + 0.7152 * rgb[1] + 0.0722 * rgb[2];
    return [light, light, light];
  }
  const m = MATRICES[vision];
  const row = (k: number): number => Math.max(0, Math.min(1, m[k]! * rgb[0] + m[k + 1]! * rgb[1] + m[k + 2]! * rgb[2]));
  return [row(0), row(3), row(6)];
}
