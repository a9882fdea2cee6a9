import { SaxesParser } from "saxes";

/** Calls for each element; names come without prefix and in lower case, since prefixes vary from export to export. */
export interface XmlHandler {
  open(name: string, attribute: (name: string) => string | undefined): void;
  /** The text that stood directly inside the element, trimmed. */
  close(name: string, text: string): void;
}

/** Past so many faults a text is no ride any more. */
const MOST_FAULTS = 200;

/**
 * Walks an XML text element by element and goes on after a fault, so that what is whole is read. No document type is
 * followed: entities of a file's own are not expanded. Returns where the first fault stood, or null.
 */
export function scanXml(text: string, handler: XmlHandler): string | null {
  const parser = new SaxesParser({ xmlns: false, position: true });
  const names = new Map<string, string>();
  const texts: string[] = [];
  let fault: string | null = null;
  let faults = 0;
  const plain = (name: string) => {
    let known = names.get(name);
    if (known === undefined) {
      known = name.slice(name.indexOf(":") + 1).toLowerCase();
      // Hostile files may make up names without end.
      if (names.size < 10_000) names.set(name, known);
    }
    return known;
  };
  parser.on("error", () => {
    fault ??= `line ${parser.line}`;
    if (++faults > MOST_FAULTS) throw new TooDamaged();
  });
  parser.on("opentag", (tag) => {
    texts.push("");
    const attributes = tag.attributes as Record<string, string>;
    handler.open(plain(tag.name), (name) => attributes[name] ?? Object.entries(attributes).find(([key]) => plain(key) === name)?.[1]);
  });
  parser.on("text", (t) => {
    const last = texts.length - 1;
    if (last >= 0 && texts[last]!.length < 1000) texts[last] += t;
  });
  parser.on("closetag", (tag) => handler.close(plain(tag.name), (texts.pop() ?? "").trim()));
  try {
    parser.write(text).close();
  } catch (error) {
    if (!(error instanceof TooDamaged)) throw error;
  }
  return fault;
}

class TooDamaged extends Error {}
