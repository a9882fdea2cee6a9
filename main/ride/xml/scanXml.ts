import { SaxesParser } from "saxes";

/** Calls for each element; names come without prefix and in lower case, since prefixes vary from export to export. */
export interface XmlHandler {
  open(name: string, attribute: (name: string) => string | undefined): void;
  /** The text that stood directly inside the element, trimmed. */
  close(name: string, text: string): void;
  /** A fault has broken off what was open. */
  abandon(): void;
}

/** A file may be read again after faults for so many times its length in all, so that none takes for ever. */
const MOST_READS = 20;
/** Handed to the parser at a time; and the longest stretch without a tag: a longer one was never closed. */
const CHUNK = 16_384;
const LONGEST_UNTAGGED = 65_536;
/** Deeper than any ride: tags that are opened without end make no ride, and each would cost more than the last. */
const DEEPEST = 200;
/** An ampersand that begins no entity of XML's own, as in unescaped names; entities of a file's own come out as they stand. */
const BARE_AMPERSAND = /&(?!(?:amp|lt|gt|quot|apos|#\d{1,7}|#x[\da-f]{1,6});)/gi;
/** Where reading starts again after a fault: the elements that a track is made of. */
const RESTART = /<(?:[\w.-]+:)?(?:trkpt|trkseg|trk|trackpoint|track|lap|activity)[\s>]/gi;

/**
 * Walks an XML text element by element. After a fault it goes on at the next track element, so that a fault costs the
 * point it hit and no more; `abandon` says that what was open is lost. No document type is followed: entities of a file's
 * own are not expanded. Returns the line of the first fault, or null.
 */
export function scanXml(source: string, handler: XmlHandler): number | null {
  const text = source.includes("&") ? source.replace(BARE_AMPERSAND, "&amp;") : source;
  const names = new Map<string, string>();
  const plain = (name: string) => {
    let known = names.get(name);
    if (known === undefined) {
      known = name.slice(name.indexOf(":") + 1).toLowerCase();
      // Hostile files may make up names without end.
      if (names.size < 10_000) names.set(name, known);
    }
    return known;
  };
  let faultLine: number | null = null;
  let from = 0;
  for (let readable = MOST_READS * text.length + 1; readable > 0;) {
    const parser = new SaxesParser({ xmlns: false, fragment: from > 0 });
    const texts: string[] = [];
    let soundTo = 1;
    parser.on("error", () => {
      throw new XmlFault();
    });
    parser.on("opentag", (tag) => {
      soundTo = parser.position;
      texts.push("");
      if (texts.length > DEEPEST) throw new TooDeep();
      const attributes = tag.attributes as Record<string, string>;
      handler.open(
        plain(tag.name),
        (name) => attributes[name] ?? Object.entries(attributes).find(([key]) => plain(key) === name)?.[1],
      );
    });
    parser.on("text", (t) => {
      const last = texts.length - 1;
      if (last >= 0 && texts[last].length < 1000) texts[last] += t;
    });
    parser.on("closetag", (tag) => {
      soundTo = parser.position;
      handler.close(plain(tag.name), (texts.pop() ?? "").trim());
    });
    try {
      for (let at = from; at < text.length; at += CHUNK) {
        parser.write(text.slice(at, at + CHUNK));
        if (parser.position - soundTo > LONGEST_UNTAGGED) throw new XmlFault();
      }
      parser.close();
      return faultLine;
    } catch (error) {
      if (error instanceof TooDeep) {
        handler.abandon();
        return faultLine ?? parser.line;
      }
      if (!(error instanceof XmlFault)) throw error;
    }
    faultLine ??= parser.line;
    handler.abandon();
    readable -= parser.position;
    RESTART.lastIndex = from + soundTo;
    const next = RESTART.exec(text);
    if (!next) return faultLine;
    from = next.index;
  }
  return faultLine;
}

class XmlFault extends Error {}
class TooDeep extends Error {}
