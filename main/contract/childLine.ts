/** Bundles of ours that run as a process of their own. */
export type ChildName = "paintChild" | "filmClipChild";

/** A process of ours and the line to it: whole messages each way, in order. */
export interface ChildLine {
  /** Sends a message; an empty one says that no more will come and asks the process to end. */
  tell(message: Uint8Array): void;
  /** The next message, valid until the next is taken; null once the process has ended. It sends no faster than it is taken from. */
  take(): Promise<Uint8Array | null>;
  /** The last that it wrote on its error output. */
  said(): string;
  /** Its exit code; null where it was ended from outside or could not start. */
  readonly ended: Promise<number | null>;
  /** Ends it at once; safe to call again. */
  kill(): void;
}

/** Of what a process wrote on its error output the line that names the error; the first where none does. */
export function errorLine(said: string): string {
  const lines = said.trim().split("\n");
  return (lines.find((line) => /Error/.test(line)) ?? lines[0]!).trim();
}

/** Starts one of them. The program's two homes each have a way of their own: a Node process, and a process of Electron's. */
export type StartChild = (name: ChildName) => ChildLine;
