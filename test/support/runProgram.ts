import { spawn } from "node:child_process";
import { resolve } from "node:path";

export interface ProgramRun {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs the bundled command line as a user would. `after` may act on the running child, for example interrupt it. */
export function runProgram(
  args: readonly string[],
  options: { cwd?: string; env?: Record<string, string>; interruptAfter?: RegExp } = {},
): Promise<ProgramRun> {
  return new Promise((done, fail) => {
    const child = spawn(process.execPath, [resolve("dist/followcar.mjs"), ...args], {
      cwd: options.cwd,
      env: { ...process.env, ...options.env },
      stdio: ["ignore", "pipe", "pipe"],
    });
    let stdout = "";
    let stderr = "";
    let interrupted = false;
    child.stdout.on("data", (data: Buffer) => (stdout += data.toString()));
    child.stderr.on("data", (data: Buffer) => {
      stderr += data.toString();
      if (!interrupted && options.interruptAfter?.test(stderr)) {
        interrupted = true;
        child.kill("SIGINT");
      }
    });
    child.on("error", fail);
    child.on("close", (code) => done({ code, stdout, stderr }));
  });
}
