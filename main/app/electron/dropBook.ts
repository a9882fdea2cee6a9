import type { Drops } from "../picker/makePicker.ts";

/** More than this many dropped files wait for nobody. */
const MOST = 1000;

/** Where dropped files lie, by the token that the preload gave; each is good once. */
export class DropBook implements Drops {
  readonly #paths = new Map<string, string>();

  put(token: string, path: string): void {
    const oldest = this.#paths.size >= MOST ? this.#paths.keys().next().value : undefined;
    if (oldest !== undefined) this.#paths.delete(oldest);
    this.#paths.set(token, path);
  }

  take(token: string): string | null {
    const path = this.#paths.get(token) ?? null;
    this.#paths.delete(token);
    return path;
  }
}
