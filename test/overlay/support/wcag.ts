/** Relative luminance of an sRGB colour, 0 to 1: WCAG 2.2, "relative luminance". Bytes. */
export function luminanceOf(red: number, green: number, blue: number): number {
  const linear = (byte: number): number => {
    const share = byte / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  };
  return 0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue);
}

/** Contrast ratio of two luminances, 1 to 21: WCAG 2.2, "contrast ratio". */
export function contrastRatio(a: number, b: number): number {
  return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
}
