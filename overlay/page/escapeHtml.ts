import { keepUnits } from "../words/keepUnits.ts";

const ENTITIES: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/**
 * Text made safe for HTML and SVG, in content and in quoted attributes; control characters are dropped, and figures stay
 * on one line with their units.
 */
export function escapeHtml(text: string): string {
  return keepUnits(text.replaceAll(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, "")).replaceAll(
    /[&<>"']/g,
    (character) => ENTITIES[character],
  );
}
