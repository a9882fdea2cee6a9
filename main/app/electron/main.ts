// Electron's main program. What it does stands in runElectron.ts; here is only what needs the real thing.
import * as electron from "electron";
import { dirname, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { Failure } from "../../contract/failure.ts";
import { shellParts } from "../launch/shellParts.ts";
import { electronChildren } from "./electronChild.ts";
import { electronPrinter } from "./electronPrinter.ts";
import { runElectron } from "./runElectron.ts";

const dist = dirname(fileURLToPath(import.meta.url));
const given = process.argv.slice(electron.app.isPackaged ? 1 : 2).find((arg) => !arg.startsWith("-"));
const own = {
  startChild: electronChildren(electron.utilityProcess, dist),
  printPage: electronPrinter(electron),
};
runElectron(electron, {
  dist,
  parts: (drops) => shellParts("electron", drops, given === undefined ? null : resolve(given), own),
}).catch((error: unknown) => {
  const text = error instanceof Failure ? `${error.sentence}\n\n${error.remedy}` : String(error);
  electron.dialog.showErrorBox("Followcar", text);
  electron.app.exit(1);
});
