/** The scheme that the page is served from; nothing is read by file address. */
export const SCHEME = "followcar";

/** Where the window begins. */
export const WINDOW_URL = `${SCHEME}://window/`;

/** True for an address of our own page; by a URL parser, since a prefix can be imitated. */
export function isOurs(address: string): boolean {
  try {
    const { protocol, host, username, password } = new URL(address);
    return protocol === `${SCHEME}:` && host === "window" && username === "" && password === "";
  } catch {
    return false;
  }
}
