export interface Installer {
  readonly target: string;
  readonly files: RegExp;
  readonly system: NodeJS.Platform;
  readonly args: readonly string[];
  readonly needs: string;
}
export interface PackedInstaller {
  readonly target: string;
  readonly path: string | null;
  readonly bytes: number;
  /** Why it was not built; null where it was. */
  readonly why: string | null;
}
export const INSTALLERS: readonly Installer[];
export function electronFolder(root: string, env?: NodeJS.ProcessEnv): string | null;
export function packFailure(output: string): string;
export function packAll(
  root: string,
  machine: {
    readonly system: NodeJS.Platform;
    readonly out: string;
    readonly electron: string | null;
    run(args: readonly string[]): { readonly ok: boolean; readonly output: string };
  },
): readonly PackedInstaller[];
export function packLines(made: readonly PackedInstaller[]): string[];
