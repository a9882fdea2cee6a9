import { homedir, platform } from "node:os";
import { join } from "node:path";

/** The user's folder for what the program remembers from day to day; FOLLOWCAR_STATE names another. */
export function stateFolder(): string {
  const { FOLLOWCAR_STATE, XDG_STATE_HOME, LOCALAPPDATA } = process.env;
  if (FOLLOWCAR_STATE) return FOLLOWCAR_STATE;
  if (platform() === "darwin") return join(homedir(), "Library", "Application Support", "followcar");
  if (platform() === "win32") return join(LOCALAPPDATA ?? join(homedir(), "AppData", "Local"), "followcar");
  return join(XDG_STATE_HOME ?? join(homedir(), ".local", "state"), "followcar");
}
