/** Colours of panels, thread, cards and drawings. CSS colour strings of the form #rrggbb. */
export interface Theme {
  readonly name: "light" | "dark";
  /** Text and strokes. */
  readonly ink: string;
  /** Outline around ink, drawn at `haloAlpha`. */
  readonly halo: string;
  readonly haloAlpha: number;
  /** What the picture is darkened (or lightened) with beneath the panels. */
  readonly scrim: string;
  /** Alpha of the scrim at its fullest, 0 to 1; 0.54 black is the least that gives white text 4.5:1 over snow. */
  readonly scrimAlpha: number;
  /** Second carrier of "above the band"; never text. */
  readonly above: string;
  /** Second carrier of "pressure was off"; never text. */
  readonly off: string;
  /** Around a picture that does not fill the film's shape; of the scrim's kind, so that the scrim makes no slab of it. */
  readonly margin: string;
  /** Ground of a card, ink of its quiet parts, and the fill of its band. */
  readonly ground: string;
  readonly quiet: string;
  readonly band: string;
}

/**
 * White ink on a darkened picture. Accents: orange and sky blue of Okabe and Ito, "Color Universal Design" (2008).
 */
export const lightInk: Theme = {
  name: "light",
  ink: "#ffffff",
  halo: "#0b1014",
  haloAlpha: 0.6,
  scrim: "#000000",
  scrimAlpha: 0.62,
  above: "#e69f00",
  off: "#56b4e9",
  margin: "#000000",
  ground: "#12181d",
  quiet: "#b9c4cc",
  band: "#2a3a44",
};

/** Dark ink on a lightened picture; vermillion and blue of the same set, which keep 3:1 on white. */
export const darkInk: Theme = {
  name: "dark",
  ink: "#10161a",
  halo: "#ffffff",
  haloAlpha: 0.7,
  scrim: "#ffffff",
  scrimAlpha: 0.72,
  above: "#d55e00",
  off: "#0072b2",
  margin: "#f4f1ea",
  ground: "#f4f1ea",
  quiet: "#4b5963",
  band: "#d9dfe0",
};

/** The theme for an ink. */
export function themeFor(ink: "light" | "dark"): Theme {
  return ink === "light" ? lightInk : darkInk;
}
