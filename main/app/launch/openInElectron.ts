import { spawn } from "node:child_process";
import { Failure } from "../../contract/failure.ts";
import { projectFile } from "../../host/projectFile.edge.ts";
import type { NoWindow } from "../../contract/notices/app.ts";

/** Opens the window in Electron and comes back when it was closed, by hand or by `signal`. */
export async function openInElectron(
  electronPath: string,
  given: readonly string[],
  signal: AbortSignal,
): Promise<void> {
  const asRoot = process.platform === "linux" && process.getuid?.() === 0;
  const args = [...(asRoot ? ["--no-sandbox"] : []), projectFile("dist", "electronMain.mjs"), ...given];
  const { ELECTRON_RUN_AS_NODE: _, ...env } = process.env;
  const child = spawn(electronPath, args, {
    stdio: ["ignore", "inherit", "inherit"],
    env,
    signal,
    killSignal: "SIGTERM",
  });
  const wrong = await new Promise<NoWindow | null>((resolve) => {
    child.on("error", (error) => resolve(signal.aborted ? null : { kind: "not started", said: error.message }));
    child.on("exit", (code) =>
      resolve(code === 0 || signal.aborted ? null : { kind: "ended with code", exitCode: code }),
    );
  });
  if (wrong !== null) throw new Failure("electron-not-shown", { why: wrong });
}
