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
    throw new Failure(
      "usage",
      `FOLLOWCAR_SHELL=${forced} is not known.`,
      "It is electron or chromium; unset it to let Followcar choose.",
    );
  }
  if (forced === "electron" && electronPath === null) {
    throw new Failure(
      "tool-missing",
      "Electron's binary is not on this machine.",
      "Run: npx install-electron (it needs the network), or unset FOLLOWCAR_SHELL.",
    );
  }
  if (electronPath !== null && forced !== "chromium") return { kind: "electron", path: electronPath };
  if (browserPath !== null) return { kind: "chromium", path: browserPath };
  throw new Failure(
    "tool-missing",
    "There is neither Electron nor a Chromium, Chrome or Edge to open the window in.",
    "Install one (on Debian: sudo apt-get install chromium), or name it in FOLLOWCAR_CHROMIUM. The command line works without.",
  );
}
