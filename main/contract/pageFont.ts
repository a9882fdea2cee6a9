/** A weight of the panels' own face, as base64 of its WOFF2 file. */
export interface PageFont {
  readonly weight: 500 | 600;
  readonly woff2Base64: string;
}
