import type * as Electron from "electron";
import { pathToFileURL } from "node:url";
import { printOptions } from "./windowOptions.ts";
import type { PrintedPage, PrintPage } from "../../contract/printPage.ts";

/** A page that is not printed by then is given up. */
const LIMIT_S = 60;

/** In memory, apart from the window's own session; no page that is printed leaves anything behind. */
const PARTITION = "followcar-print";

/** Prints in a hidden window of its own: sandboxed, without scripts, and nothing loaded but the one file. */
export function electronPrinter(electron: Pick<typeof Electron, "BrowserWindow" | "session">): PrintPage {
  const { BrowserWindow } = electron;
  return async (htmlPath) => {
    const address = pathToFileURL(htmlPath).href;
    const session = electron.session.fromPartition(PARTITION);
    session.setPermissionRequestHandler((_contents, _permission, answer) => answer(false));
    session.webRequest.onBeforeRequest((details, answer) => {
      answer({ cancel: details.url !== address && !details.url.startsWith("data:") });
    });
    const window = new BrowserWindow(printOptions(PARTITION));
    let timer: NodeJS.Timeout | undefined;
    const tooLong = new Promise<PrintedPage>((resolve) => {
      timer = setTimeout(() => resolve({ why: { kind: "ended", signal: null, exitCode: null } }), LIMIT_S * 1000);
    });
    const printed = async (): Promise<PrintedPage> => {
      await window.loadURL(address);
      const options = { printBackground: true, preferCSSPageSize: true, displayHeaderFooter: false };
      const pdf = await window.webContents.printToPDF(options);
      return pdf.length === 0 ? { why: { kind: "nothing written" } } : { pdf };
    };
    try {
      return await Promise.race([printed(), tooLong]);
    } catch (error) {
      return { why: { kind: "not started", said: error instanceof Error ? error.message : String(error) } };
    } finally {
      clearTimeout(timer);
      window.destroy();
    }
  };
}
