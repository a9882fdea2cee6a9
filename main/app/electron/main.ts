// Electron's main program. What it does stands in runElectron.ts; here is only what needs the real thing.
import * as electron from "electron";
import { dirname } from "node:path";
import { fileURLToPath } from "node:url";
import { shellParts } from "../launch/shellParts.ts";
import { electronChildren } from "./electronChild.ts";
import { electronPrinter } from "./electronPrinter.ts";
import { failureWords, givenPaths, runElectron } from "./runElectron.ts";

const dist = dirname(fileURLToPath(import.meta.url));
const given = givenPaths(process.argv, electron.app.isPackaged, process.cwd());
const own = {
  startChild: electronChildren(electron.utilityProcess, dist),
  printPage: electronPrinter(electron),
};
runElectron(electron, {
  dist,
  parts: (drops) => shellParts("electron", drops, given, own),
}).catch((error: unknown) => {
  electron.dialog.showErrorBox("Followcar", failureWords(error));
  electron.app.exit(1);
});
