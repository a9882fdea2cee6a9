import { Failure } from "../../contract/failure.ts";

/** What the window opens in. */
export type Shell =
  { readonly kind: "electron"; readonly path: string } | { readonly kind: "chromium"; readonly path: string };

/**
 * Electron where its binary is there, else the installed Chromium, Chrome or Edge. `forced` is FOLLOWCAR_SHELL
 * (`electron` or `chromium`). Failures: `usage` for another word, `tool-missing` with the remedy.
 */
export function pickShell(forced: string | undefined, electronPath: string | null, browserPath: string | null): Shell {
  if (forced !== undefined && forced !== "" && forced !== "electron" && forced !== "chromium") {
    throw new Failure("shell-unknown", { forced });
  }
  if (forced === "electron" && electronPath === null) {
    throw new Failure("shell-electron-missing", {});
  }
  if (electronPath !== null && forced !== "chromium") return { kind: "electron", path: electronPath };
  if (browserPath !== null) return { kind: "chromium", path: browserPath };
  throw new Failure("shell-none", {});
}
