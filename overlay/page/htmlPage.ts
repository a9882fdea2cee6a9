import { escapeHtml } from "./escapeHtml.ts";
import { pageStyle } from "./pageStyle.ts";

/** A weight of the panels' own face, as base64 of its WOFF2 file. */
export interface PageFont {
  readonly weight: 500 | 600;
  readonly woff2Base64: string;
}

/** A whole page: one file, no scripts, nothing fetched; without fonts it uses the reader's own. `body` is HTML. */
export function htmlPage(language: string, title: string, body: string, fonts: readonly PageFont[]): string {
  const faces = fonts.map(
    (font) =>
      `@font-face{font-family:"Barlow Semi Condensed";font-weight:${font.weight};src:url(data:font/woff2;base64,${font.woff2Base64}) format("woff2")}`,
  );
  return (
    `<!DOCTYPE html>\n<html lang="${language}">\n<head>\n<meta charset="utf-8">\n<meta name="viewport" content="width=device-width, initial-scale=1">\n` +
    `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:">\n` +
    `<meta name="robots" content="noindex">\n<title>${escapeHtml(title)}</title>\n<style>${faces.join("\n")}${pageStyle}</style>\n</head>\n<body>\n${body}\n</body>\n</html>\n`
  );
}
