/**
 * Text of a file's bytes: by its byte-order mark (UTF-8, UTF-16), else the encoding its XML declaration names, else UTF-8,
 * else Windows-1252.
 * Blanks and zero bytes at either end are taken off. Null when it is no text.
 */
export function decodeText(bytes: Uint8Array): string | null {
  const encoding = encodingOf(bytes);
  let whole = new TextDecoder(encoding).decode(bytes);
  // Older spreadsheets write one byte a letter without saying so; a few letters then are no UTF-8.
  if (encoding === "utf-8" && whole.includes("\ufffd")) {
    const head = whole.slice(0, 2000);
    if (head.split("\ufffd").length - 1 <= head.length / 50) whole = new TextDecoder("windows-1252").decode(bytes);
  }
  let start = 0;
  let end = whole.length;
  while (start < end && isBlank(whole.charCodeAt(start))) start++;
  while (end > start && isBlank(whole.charCodeAt(end - 1))) end--;
  const text = whole.slice(start, end);
  // A text has no control characters but line ends and tabs; a few may be damage.
  let odd = 0;
  const looked = Math.min(text.length, 2000);
  for (let i = 0; i < looked; i++) {
    const c = text.charCodeAt(i);
    if ((c < 32 && c !== 9 && c !== 10 && c !== 13) || c === 0xfffd) odd++;
  }
  return text.length > 0 && odd <= looked / 20 ? text : null;
}

function encodingOf(bytes: Uint8Array): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return "utf-16le";
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return "utf-16be";
  const start = String.fromCharCode(...bytes.subarray(0, 200));
  const named = /<\?xml[^>]*encoding\s*=\s*["']([\w.-]+)["']/i.exec(start)?.[1]?.toLowerCase();
  if (!named) return "utf-8";
  try {
    // A declaration in one-byte text that claims UTF-16 is wrong about itself.
    return named.startsWith("utf-16") ? "utf-8" : new TextDecoder(named).encoding;
  } catch {
    return "utf-8";
  }
}

/** Blanks, line ends, zero bytes and a byte-order mark. */
function isBlank(code: number): boolean {
  return code <= 32 || code === 0xfeff || code === 0xa0;
}
