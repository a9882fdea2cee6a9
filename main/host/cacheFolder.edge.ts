import { homedir, platform } from "node:os";
import { join } from "node:path";

/** The user's cache folder for Followcar (never a synced one); FOLLOWCAR_CACHE names another. */
export function cacheFolder(): string {
  const { FOLLOWCAR_CACHE, XDG_CACHE_HOME, LOCALAPPDATA } = process.env;
  if (FOLLOWCAR_CACHE) return FOLLOWCAR_CACHE;
  if (platform() === "darwin") return join(homedir(), "Library", "Caches", "followcar");
  if (platform() === "win32") return join(LOCALAPPDATA ?? join(homedir(), "AppData", "Local"), "followcar", "cache");
  return join(XDG_CACHE_HOME ?? join(homedir(), ".cache"), "followcar");
}
