import { resolve } from "node:path";
import { openInBrowser } from "../../app/fallback/openInBrowser.ts";
import { findElectron } from "../../app/launch/findElectron.ts";
import { openInElectron } from "../../app/launch/openInElectron.ts";
import { pickShell } from "../../app/launch/pickShell.ts";
import { shellParts } from "../../app/launch/shellParts.ts";
import { chromiumInUse } from "../../host/toolsInUse.edge.ts";
import type { Verb } from "../verb.ts";

export const open: Verb = {
  name: "open",
  summary: "opens the window: gather, line up, skim, build, hand over",
  options: {},
  help: `followcar open [DEBRIEF | FILE ...]

Opens the window, with a debrief on the desk if its folder or its debrief.json is given, or with rides and footage. The window runs in Electron
where its binary is there, else in the Chromium, Chrome or Edge of this machine, and says which. Nothing uses the
network: the browser talks to Followcar over this machine alone. It ends when the window is closed.

  FOLLOWCAR_SHELL        electron or chromium: which of the two, instead of the first that is found
  FOLLOWCAR_CHROMIUM     the browser to use

Example:
  followcar open sunday-debrief

Exit codes: 0 the window was closed, 1 no window could be opened, 2 wrong usage, 3 the debrief cannot be used.`,
  async run(positionals, _values, { signal }) {
    const given = positionals.map((path) => resolve(path));
    const shell = pickShell(process.env.FOLLOWCAR_SHELL, findElectron(), chromiumInUse());
    const say = (line: string) => process.stderr.write(`${line}\n`);
    if (shell.kind === "electron") {
      say("The window opens in Electron. Closing it ends Followcar.");
      await openInElectron(shell.path, given, signal);
    } else {
      await openInBrowser(shellParts("chromium", null, given), shell.path, signal, say);
    }
    return { json: { shell: shell.kind }, lines: [], warnings: [] };
  },
};
