import { createHash, randomBytes, timingSafeEqual } from "node:crypto";

/** The facts of a request that decide whether it may come in; header names in lower case, every value that was sent. */
export interface Knock {
  readonly method: string;
  /** Path with query, as sent. */
  readonly target: string;
  readonly headers: Readonly<Record<string, readonly string[] | undefined>>;
  /** True for the upgrade to a web socket. */
  readonly upgrade: boolean;
}

/** What to do with a request: let it in, swap the ticket for the cookie, or refuse with a status. */
export type Verdict =
  | { readonly kind: "in" }
  | { readonly kind: "ticket"; readonly cookie: string }
  /** `again`: with the ticket, which somebody has swapped before. */
  | { readonly kind: "out"; readonly status: number; readonly again?: true };

const LONGEST_TARGET = 2048;

/** Paths that the opening page leads to, once. */
const TICKET_PATH = "/open/";

/** The path of the web socket. */
const SOCKET_PATH = "/desk";

/**
 * Who may talk to the window server: only a request to exactly 127.0.0.1:port (a name that resolves to us is not
 * enough), from our own origin where the browser says one, with the cookie that a one-use ticket was swapped for.
 * Other programs on this machine can reach the port; without the cookie they learn nothing.
 */
export class Gatekeeper {
  readonly #host: string;
  readonly #cookieName: string;
  readonly #secret = randomBytes(32).toString("base64url");
  readonly #ticket = randomBytes(32).toString("base64url");
  #swapped = false;

  constructor(port: number) {
    this.#host = `127.0.0.1:${port}`;
    // Cookies of 127.0.0.1 are shared by all ports.
    this.#cookieName = `followcar-${port}`;
  }

  get origin(): string {
    return `http://${this.#host}`;
  }

  /** Where the window is opened the first time; its ticket is used up by the first request. For the opening page alone, never for a program's arguments. */
  get openUrl(): string {
    return `${this.origin}${TICKET_PATH}${this.#ticket}`;
  }

  judge(knock: Knock): Verdict {
    const out = (status: number): Verdict => ({ kind: "out", status });
    if (one(knock.headers.host) !== this.#host) return out(421);
    if (knock.target.length > LONGEST_TARGET || !knock.target.startsWith("/")) return out(400);
    if (knock.method !== "GET" && knock.method !== "HEAD") return out(405);
    // A body has no business here, and two framings of one are how requests are smuggled.
    if (knock.headers["transfer-encoding"] !== undefined || (knock.headers["content-length"] ?? ["0"]).join() !== "0")
      return out(400);
    const origin = knock.headers.origin;
    if (origin === undefined ? knock.upgrade : one(origin) !== this.origin) return out(403);
    // The opening page is a file, a site of its own; its ticket is all the right that this path asks for.
    if (!knock.upgrade && knock.target.startsWith(TICKET_PATH))
      return this.#swap(knock.target.slice(TICKET_PATH.length), knock.method);
    const site = knock.headers["sec-fetch-site"];
    if (site !== undefined && one(site) !== "same-origin" && one(site) !== "none") return out(403);
    if (knock.upgrade && knock.target !== SOCKET_PATH) return out(404);
    return this.#hasCookie(knock.headers.cookie) ? { kind: "in" } : out(401);
  }

  #swap(ticket: string, method: string): Verdict {
    if (method !== "GET" || !same(ticket, this.#ticket)) return { kind: "out", status: 401 };
    if (this.#swapped) return { kind: "out", status: 401, again: true };
    this.#swapped = true;
    return { kind: "ticket", cookie: `${this.#cookieName}=${this.#secret}; HttpOnly; SameSite=Strict; Path=/` };
  }

  #hasCookie(header: readonly string[] | undefined): boolean {
    const text = one(header);
    if (text === null) return false;
    const wanted = `${this.#cookieName}=`;
    return text
      .split(";")
      .map((pair) => pair.trim())
      .filter((pair) => pair.startsWith(wanted))
      .some((pair) => same(pair.slice(wanted.length), this.#secret));
  }
}

/** The value of a header that was sent once; two hosts or two origins are nobody we know. */
function one(header: readonly string[] | undefined): string | null {
  return header?.length === 1 ? header[0]! : null;
}

/** Equal, in a time that tells nothing about where they differ. */
function same(a: string, b: string): boolean {
  const digest = (text: string) => createHash("sha256").update(text).digest();
  return timingSafeEqual(digest(a), digest(b));
}
