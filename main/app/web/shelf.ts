import { randomBytes } from "node:crypto";
import { isAbsolute, join } from "node:path";

/**
 * What the window may fetch by address. Only what was lent can be fetched, an address can't be guessed (128 random
 * bits), and it names no path. Addresses hold until taken back or until the program ends.
 */
export interface Shelf {
  /** Lends one file, with byte ranges: `/media/<id>` or `/proxy/<id>`. The same file has the same address. */
  lendFile(room: "media" | "proxy", path: string): string;
  /** Lends the pictures `<n>.jpg` of a folder, n from 0: `/strip/<id>`, to be fetched as `/strip/<id>/<n>.jpg`. */
  lendPictures(folder: string): string;
  /**
   * Lends bytes made when they are asked for: `/data/<id>`, or one of many as `/data/<id>/<name>` (name of letters,
   * digits, `-` and `_`; "" for the address itself). Null: there is no such thing (404).
   */
  lendBytes(make: (name: string) => Promise<Uint8Array<ArrayBuffer> | null> | Uint8Array<ArrayBuffer> | null): string;
  /** Lends a page without scripts for a frame of its own: `/page/<id>`. */
  lendPage(html: string): string;
  /** The address answers 404 from now on; unknown addresses are let be. */
  takeBack(address: string): void;
}

/** What stands behind an address. */
type Lent =
  | { readonly kind: "file"; readonly path: string }
  | {
      readonly kind: "bytes";
      readonly make: () => Promise<Uint8Array<ArrayBuffer> | null> | Uint8Array<ArrayBuffer> | null;
    }
  | { readonly kind: "page"; readonly html: string };

/** The shelf as the web handler sees it. */
export interface StockedShelf extends Shelf {
  /** What a path of a request stands for; null: nothing was lent there. */
  find(pathname: string): Lent | null;
}

type Item =
  | { readonly kind: "file"; readonly path: string }
  | { readonly kind: "pictures"; readonly folder: string }
  | {
      readonly kind: "many";
      readonly make: (name: string) => Promise<Uint8Array<ArrayBuffer> | null> | Uint8Array<ArrayBuffer> | null;
    }
  | { readonly kind: "page"; readonly html: string };

const ADDRESS = /^\/(media|proxy|strip|data|page)\/([0-9a-f]{32})(?:\/([A-Za-z0-9_-]{1,64}|\d{1,7}\.jpg))?$/;

/** An empty shelf. */
export function makeShelf(): StockedShelf {
  const items = new Map<string, Item>();
  const addressOfFile = new Map<string, string>();

  const put = (room: string, item: Item): string => {
    const address = `/${room}/${randomBytes(16).toString("hex")}`;
    items.set(address, item);
    return address;
  };
  const absolute = (path: string): string => {
    if (!isAbsolute(path)) throw new Error("only whole paths are lent");
    return path;
  };

  return {
    lendFile(room, path) {
      const key = `${room} ${absolute(path)}`;
      const known = addressOfFile.get(key);
      if (known !== undefined) return known;
      const address = put(room, { kind: "file", path });
      addressOfFile.set(key, address);
      return address;
    },
    lendPictures: (folder) => put("strip", { kind: "pictures", folder: absolute(folder) }),
    lendBytes: (make) => put("data", { kind: "many", make }),
    lendPage: (html) => put("page", { kind: "page", html }),
    takeBack(address) {
      const item = items.get(address);
      items.delete(address);
      if (item?.kind === "file") addressOfFile.delete(`${address.split("/")[1]} ${item.path}`);
    },
    find(pathname) {
      const match = ADDRESS.exec(pathname);
      if (match === null) return null;
      const [, room, id, name = ""] = match;
      const item = items.get(`/${room}/${id}`);
      if (item === undefined) return null;
      if (item.kind === "pictures")
        return name.endsWith(".jpg") ? { kind: "file", path: join(item.folder, name) } : null;
      if (item.kind === "many") return name.includes(".") ? null : { kind: "bytes", make: () => item.make(name) };
      return name === "" ? item : null;
    },
  };
}
