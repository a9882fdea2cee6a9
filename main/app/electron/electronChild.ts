import type { UtilityProcess, utilityProcess as UtilityProcessModule } from "electron";
import { join } from "node:path";
import type { ChildLine, ChildName, StartChild } from "../../contract/childLine.ts";
import { childEnvironment } from "../../host/childEnvironment.ts";

/** So much of a child's error output is kept, letters. */
const SAID_LIMIT = 2000;

const SERVICE_NAMES: Record<ChildName, string> = {
  paintChild: "Followcar painter",
  filmClipChild: "Followcar example footage",
};

/**
 * Our bundles as processes of Electron's own kind, with a message port: a packed program can't be told to run as plain
 * Node (that fuse is off), and Windows gives the children of a program with a window no standard input.
 *
 * @param dist folder of the bundles
 */
export function electronChildren(utilityProcess: Pick<typeof UtilityProcessModule, "fork">, dist: string): StartChild {
  return (name) =>
    lineTo(
      utilityProcess.fork(join(dist, `${name}.mjs`), [], {
        stdio: ["ignore", "ignore", "pipe"],
        env: childEnvironment(name, process.env, process.platform),
        serviceName: SERVICE_NAMES[name],
      }),
    );
}

function lineTo(child: UtilityProcess): ChildLine {
  const waiting: Uint8Array[] = [];
  let wake: () => void = () => undefined;
  let said = "";
  let over = false;
  child.stderr?.setEncoding("utf8").on("data", (text: string) => (said = (said + text).slice(-SAID_LIMIT)));
  child.on("message", (message: unknown) => {
    if (!(message instanceof Uint8Array)) return;
    waiting.push(message);
    wake();
  });
  const ended = new Promise<number | null>((resolve) => {
    child.once("exit", (code) => {
      over = true;
      wake();
      resolve(code);
    });
  });
  return {
    tell: (message) => child.postMessage(message),
    async take() {
      for (;;) {
        const message = waiting.shift();
        if (message !== undefined) {
          // It waits for this before it sends the next, so that pictures don't pile up here.
          child.postMessage("taken");
          return message;
        }
        if (over) return null;
        await new Promise<void>((resolve) => (wake = resolve));
      }
    },
    said: () => said,
    ended,
    kill: () => void child.kill(),
  };
}
