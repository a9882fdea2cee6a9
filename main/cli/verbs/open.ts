import { resolve } from "node:path";
import { openInBrowser } from "../../app/fallback/openInBrowser.ts";
import { findElectron } from "../../app/launch/findElectron.ts";
import { openInElectron } from "../../app/launch/openInElectron.ts";
import { pickShell } from "../../app/launch/pickShell.ts";
import { shellParts } from "../../app/launch/shellParts.ts";
import { chromiumInUse } from "../../host/toolsInUse.edge.ts";
import type { Note } from "../../contract/notice.ts";
import { noticeText } from "../../../overlay/words/notices/noticeText.ts";
import { cliWords } from "../../../overlay/words/cliWords.ts";
import { plainText } from "../plainText.ts";
import type { Verb } from "../verb.ts";

export const open: Verb = {
  name: "open",
  summary: "opens the window: gather, line up, skim, build, hand over",
  options: {},
  help: `followcar open [DEBRIEF | FILE ...]

Opens the window, with a debrief on the desk if its folder or its debrief.json is given, or with rides and footage. The
window runs in Electron where its binary is there, else in the Chromium, Chrome or Edge of this machine, and says which.
Nothing uses the network: the browser talks to Followcar over this machine alone. It ends when the window is closed.

  FOLLOWCAR_SHELL        electron or chromium: which of the two, instead of the first that is found
  FOLLOWCAR_CHROMIUM     the browser to use

Example:
  followcar open sunday-debrief

Exit codes: 0 the window was closed, 1 no window could be opened, 2 wrong usage, 3 the debrief cannot be used.`,
  async run(positionals, _values, { signal, language }) {
    const given = positionals.map((path) => resolve(path));
    const shell = pickShell(process.env.FOLLOWCAR_SHELL, findElectron(), chromiumInUse());
    const words = cliWords(language);
    const say = {
      opened: (program: string) => process.stderr.write(`${words.opensIn(program)}\n`),
      note: (said: Note) =>
        process.stderr.write(plainText(`${words.note}: ${noticeText(said, language, "command")}\n`)),
    };
    if (shell.kind === "electron") {
      say.opened("Electron");
      await openInElectron(shell.path, given, signal);
    } else {
      await openInBrowser(shellParts("chromium", null, given), shell.path, signal, say);
    }
    return { json: { shell: shell.kind }, lines: [], warnings: [] };
  },
};
