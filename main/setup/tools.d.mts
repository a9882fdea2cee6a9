/** A program and how it was found. */
export interface Found {
  readonly path: string;
  readonly source: "named by you" | "ffmpeg-static" | "ffprobe-installer" | "found on this machine";
}
/** The programs in use on this machine; null: not found. */
export function findTools(): { ffmpeg: Found | null; ffprobe: Found | null; chromium: Found | null };
/** The ffmpeg binary that ffmpeg-static brought, or null. */
export function staticFfmpeg(): string | null;
/** The ffprobe in the package for this system, or null. */
export function packagedFfprobe(): string | null;
/** True where the program is on PATH. */
export function isOnPath(program: string): boolean;
/** The command that brings ffmpeg to this system. */
export function ffmpegRemedy(): string;
