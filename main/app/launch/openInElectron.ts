import { Failure } from "../../contract/failure.ts";
import { startProgram } from "../../host/program.edge.ts";
import { projectFile } from "../../host/projectFile.edge.ts";
import type { NoWindow } from "../../contract/notices/app.ts";
import { whyNoWindow } from "./whyNoWindow.ts";

/** Opens the window in Electron and comes back when it was closed, by hand or by `signal`. */
export async function openInElectron(
  electronPath: string,
  given: readonly string[],
  signal: AbortSignal,
): Promise<void> {
  const asRoot = process.platform === "linux" && process.getuid?.() === 0;
  const args = [...(asRoot ? ["--no-sandbox"] : []), projectFile("dist", "electronMain.mjs"), ...given];
  const { ELECTRON_RUN_AS_NODE: _, ...env } = process.env;
  if (signal.aborted) return;
  const electron = startProgram(electronPath, args, "shown", env);
  const stop = (): void => electron.kill("SIGTERM");
  signal.addEventListener("abort", stop, { once: true });
  const { code, notStarted } = await electron.ended;
  signal.removeEventListener("abort", stop);
  if (code === 0 || signal.aborted) return;
  const why: NoWindow = notStarted === null ? whyNoWindow(code) : { kind: "not started", said: notStarted.message };
  throw new Failure("electron-not-shown", { why });
}
