import type { ReactNode } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import type { PageFont } from "../contract/pageFont.ts";
import { keepUnits } from "../../overlay/words/keepUnits.ts";
import { pageStyle } from "./pageStyle.ts";

/** What no document may hold (HTML 13.2.3.5 and XML 2.2: control characters and non-characters, from memory). */
const CONTROLS = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g;
/** A style sheet; the end of a tag with the text after it. */
const PIECES = /<style>.*?<\/style>|\/?>[^<]*/gs;

/**
 * Elements as HTML: text and attributes are escaped, control characters dropped, empty elements end without a slash,
 * and figures stay on one line with their units. Every `>` of the result ends a tag, but in a style sheet: the renderer
 * writes it as an entity everywhere else.
 */
export function markup(node: ReactNode): string {
  return renderToStaticMarkup(node)
    .replaceAll(CONTROLS, "")
    .replaceAll(PIECES, (piece) => (piece.startsWith("<style") ? piece : keepUnits(piece.replace("/>", ">"))));
}

function face(font: PageFont): string {
  const source = `url(data:font/woff2;base64,${font.woff2Base64}) format("woff2")`;
  return `@font-face{font-family:"Barlow Semi Condensed";font-weight:${font.weight};src:${source}}`;
}

const NO_SCRIPTS = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:";

/**
 * A whole page: one file, nothing fetched; without fonts it uses the reader's own.
 * @param scriptHash SHA-256, base64, of the only script that may run; null: none. Such a page may play what lies in it.
 */
export function htmlPage(
  language: string,
  title: string,
  body: ReactNode,
  fonts: readonly PageFont[],
  scriptHash: string | null = null,
): string {
  const page = (
    <html lang={language}>
      <head>
        <meta httpEquiv="Content-Type" content="text/html; charset=utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta
          httpEquiv="Content-Security-Policy"
          content={
            scriptHash === null ? NO_SCRIPTS : `${NO_SCRIPTS}; script-src 'sha256-${scriptHash}'; media-src blob:`
          }
        />
        <meta name="robots" content="noindex" />
        <title>{title}</title>
        <style>{fonts.map(face).join("\n") + pageStyle}</style>
      </head>
      <body>{body}</body>
    </html>
  );
  return `<!DOCTYPE html>\n${markup(page)}\n`;
}
