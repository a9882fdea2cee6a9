import { lstat, mkdir, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { Failure } from "../../contract/failure.ts";
import { clearUnfinished, unfinishedName } from "../../host/leftovers.edge.ts";

/** A page on the disk that sends a browser on to the window. */
export interface OpeningPage {
  /** A `file:` address; it tells nothing to who can't read the file. */
  readonly url: string;
  /** Deletes it; safe to call again. */
  remove(): Promise<void>;
}

const NAME = "opening";

/**
 * Writes a page that leads to `openUrl` and that only this user can read. The address holds the window's ticket and
 * can't stand in the browser's arguments, which every user of the computer sees. It lies in the browser's own profile,
 * since that is where a browser in a sandbox of its system may read.
 *
 * @throws Failure `window-page-not-own` where the folder turns out to be another user's or open to others
 */
export async function writeOpeningPage(profile: string, openUrl: string): Promise<OpeningPage> {
  await clearUnfinished(profile, NAME);
  const folder = unfinishedName(join(profile, NAME));
  const remove = () => rm(folder, { recursive: true, force: true });
  await mkdir(folder, { mode: 0o700 });
  try {
    const { uid, mode } = await lstat(folder);
    // Windows has no such rights: there the user's own folders are closed to others by the system.
    const me = process.getuid?.();
    if (me !== undefined && (uid !== me || (mode & 0o077) !== 0))
      throw new Failure("window-page-not-own", { folder: profile });
    const page = join(folder, "open.html");
    const text = `<!doctype html><meta charset="utf-8"><title>Followcar</title><script>location.replace(${JSON.stringify(openUrl)})</script>`;
    await writeFile(page, text, { flag: "wx", mode: 0o600 });
    return { url: pathToFileURL(page).href, remove };
  } catch (error) {
    await remove();
    throw error;
  }
}
